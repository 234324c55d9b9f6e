//! `tree explain CODE`: what a problem code means.

use serde_json::json;

use crate::base::suggestion::nearest;
use crate::base::text::wrap;
use crate::cli::args::ExplainArguments;
use crate::cli::{exit, output};
use crate::source::codes;

/// Prints the long text of a code.
pub fn run(arguments: &ExplainArguments) -> anyhow::Result<u8> {
    let Some(code) = codes::find(&arguments.code) else {
        let typed = arguments.code.to_ascii_uppercase();
        let hint = nearest(&typed, codes::all().map(|code| code.id))
            .map_or(String::new(), |near| format!(", did you mean {near}?"));
        output::complain(&format!("there is no code {typed}{hint}\n"));
        return Ok(exit::COMMAND_LINE);
    };
    if arguments.json {
        output::print_json(&json!({
            "code": code.id,
            "severity": code.severity.word(),
            "title": code.title,
            "text": code.text,
        }))?;
        return Ok(exit::FINE);
    }
    let head = format!("{} ({}): {}\n", code.id, code.severity.word(), code.title);
    output::print(&format!("{head}{}\n", wrap(code.text, 78).join("\n")))?;
    Ok(exit::FINE)
}
