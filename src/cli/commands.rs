//! The commands, one file each.

pub mod bench;
pub mod completions;
pub mod demo;
pub mod hold;
pub mod man;
pub mod open_job;
pub mod parking;
pub mod rank;
pub mod readings;
pub mod report;
pub mod settings;
pub mod tree_agree;
mod tree_check;
pub mod tree_derive;
pub mod tree_explain;
pub mod work;

use super::args::{Arguments, Command, TreeCommand};
use super::surroundings::Surroundings;

/// Runs what was typed and gives the exit code.
pub fn run(arguments: &Arguments, surroundings: &Surroundings) -> anyhow::Result<u8> {
    let work = || work::Work::new(arguments, surroundings);
    match &arguments.command {
        None => work()?.start(),
        Some(Command::Job(job)) => work()?.new_job(&job.tree, job.aircraft.as_deref()),
        Some(Command::Resume(resume)) => work()?.resume(resume.job.as_deref()),
        Some(Command::Report(report)) => report::run(report, arguments, surroundings),
        Some(Command::Rank(rank)) => rank::run(rank),
        Some(Command::Hold(hold)) => hold::run(hold),
        Some(Command::Bench(bench)) => bench::run(bench, arguments, surroundings),
        Some(Command::Readings(readings)) => readings::run(readings),
        Some(Command::Tree(TreeCommand::Check(check))) => tree_check::run(check),
        Some(Command::Tree(TreeCommand::Agree(agree))) => tree_agree::run(agree),
        Some(Command::Tree(TreeCommand::Derive(derive))) => tree_derive::run(derive),
        Some(Command::Tree(TreeCommand::Explain(explain))) => tree_explain::run(explain),
        Some(Command::Demo(demo)) => demo::run(demo),
        Some(Command::Settings) => settings::run(surroundings),
        Some(Command::Completions(completions)) => completions::run(completions.shell),
        Some(Command::Man) => man::run(),
    }
}
