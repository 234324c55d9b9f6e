//! `tree new NAME`: a tree to start from.

use anyhow::Context;

use crate::authoring::starter::starter;
use crate::base::name::{as_name, is_name};
use crate::cli::args::NewArguments;
use crate::cli::{exit, output};

/// Writes the starter tree beside whatever is there; a file that is there stays.
pub fn run(arguments: &NewArguments) -> anyhow::Result<u8> {
    let name = arguments.name.as_str();
    if !is_name(name) {
        let better = as_name(name);
        let hint = if is_name(&better) {
            format!("; write `{better}`")
        } else {
            String::new()
        };
        output::complain(&format!(
            "error: `{name}` is not a name: lower-case words joined by hyphens{hint}\n"
        ));
        return Ok(exit::COMMAND_LINE);
    }
    let path = format!("{name}.yaml");
    let text = starter(name);
    let made = std::fs::OpenOptions::new()
        .write(true)
        .create_new(true)
        .open(&path);
    match made {
        Err(error) if error.kind() == std::io::ErrorKind::AlreadyExists => {
            output::complain(&format!(
                "error: {path} is there already, and stays as it is\n"
            ));
            return Ok(exit::FILE);
        }
        made => {
            use std::io::Write as _;
            let mut file = made.with_context(|| format!("cannot write {path}"))?;
            file.write_all(text.as_bytes())
                .with_context(|| format!("cannot write {path}"))?;
        }
    }
    output::print(&format!(
        "wrote {path}; go on with\n    stillwheel tree check {path}\n    stillwheel tree cases {path}\n    stillwheel rank {path} --answer lever-position=no\n"
    ))?;
    Ok(exit::FINE)
}
