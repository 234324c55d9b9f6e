//! Printing, in one place, so that a closed pipe ends the program quietly.

use std::io::Write;

use anyhow::Context;

/// Prints a text to the standard output. A reader that went away is no error.
pub fn print(text: &str) -> anyhow::Result<()> {
    let mut out = std::io::stdout().lock();
    let written = out.write_all(text.as_bytes()).and_then(|()| out.flush());
    match written {
        Err(error) if error.kind() == std::io::ErrorKind::BrokenPipe => Ok(()),
        other => other.context("cannot print"),
    }
}

/// Prints a text to the standard error. Nothing can be done if that fails.
pub fn complain(text: &str) {
    let _ = std::io::stderr().lock().write_all(text.as_bytes());
}

/// Prints a JSON value, indented, with a line end.
pub fn print_json(value: &serde_json::Value) -> anyhow::Result<()> {
    print(&format!("{value:#}\n"))
}
