//! `man`: the manual page from the command definitions.

use anyhow::Context;
use clap::CommandFactory;

use crate::cli::args::Arguments;
use crate::cli::{exit, output};

/// Prints the page.
pub fn run() -> anyhow::Result<u8> {
    let mut page = Vec::new();
    let manual = clap_mangen::Man::new(Arguments::command());
    manual
        .render(&mut page)
        .context("cannot make the manual page")?;
    output::print(&String::from_utf8_lossy(&page))?;
    Ok(exit::FINE)
}
