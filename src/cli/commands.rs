//! The commands, one file each.

pub mod demo;
pub mod rank;
pub mod tree_check;
pub mod tree_explain;
pub mod work;

use super::args::{Arguments, Command, TreeCommand};
use super::surroundings::Surroundings;

/// Runs what was typed and gives the exit code.
pub fn run(arguments: &Arguments, surroundings: &Surroundings) -> anyhow::Result<u8> {
    match &arguments.command {
        None => work::run(arguments.plain, surroundings),
        Some(Command::Rank(rank)) => rank::run(rank),
        Some(Command::Tree(TreeCommand::Check(check))) => tree_check::run(check),
        Some(Command::Tree(TreeCommand::Explain(explain))) => tree_explain::run(explain),
        Some(Command::Demo(demo)) => demo::run(demo),
    }
}
