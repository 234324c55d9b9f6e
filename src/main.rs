//! The program: parse, run, print an error, give the exit code.

use std::process::ExitCode;

use clap::Parser;
use stillwheel::cli::surroundings::Surroundings;
use stillwheel::cli::{args::Arguments, commands, exit, output};

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    let code = match commands::run(
        &arguments,
        &Surroundings::read(arguments.settings.as_deref()),
    ) {
        Ok(code) => code,
        Err(error) => {
            output::complain(&format!("error: {error:#}\n"));
            exit::FILE
        }
    };
    ExitCode::from(code)
}
