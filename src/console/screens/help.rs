//! The keys and the words of the screen.

use crate::console::command::COMMANDS;
use crate::console::keys::help_rows;

/// The lines of the screen.
pub fn texts() -> Vec<String> {
    let mut lines = vec!["Keys, letters in either case".to_owned()];
    for (key, help) in help_rows() {
        lines.push(format!("  {key:<6} {help}"));
    }
    lines.push(String::new());
    lines.push("Commands, after a colon".to_owned());
    for row in COMMANDS {
        let words = format!("{} {}", row.name, row.argument);
        lines.push(format!("  {words:<22} {}", row.help));
    }
    lines.push(String::new());
    for text in [
        "of 100   of 100 jobs like this one, how many had this cause.",
        "<1       possible, and less than one in 100.",
        "0        cannot check: the search goes on without it.",
    ] {
        lines.push(format!("  {text}"));
    }
    lines
}
