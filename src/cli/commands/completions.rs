//! `completions SHELL`: a completion script from the command definitions.

use clap::CommandFactory;

use crate::cli::args::Arguments;
use crate::cli::{exit, output};

/// Prints the script.
pub fn run(shell: clap_complete::Shell) -> anyhow::Result<u8> {
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut Arguments::command(), "stillwheel", &mut script);
    output::print(&String::from_utf8_lossy(&script))?;
    Ok(exit::FINE)
}
