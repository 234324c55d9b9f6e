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
pub mod tree_cases;
mod tree_check;
pub mod tree_cover;
pub mod tree_cut_sets;
pub mod tree_derive;
pub mod tree_diff;
pub mod tree_draw;
pub mod tree_exchange;
pub mod tree_explain;
pub mod tree_importance;
pub mod tree_new;
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
        Some(Command::Tree(TreeCommand::Cases(cases))) => tree_cases::run(cases),
        Some(Command::Tree(TreeCommand::Cover(cover))) => tree_cover::run(cover),
        Some(Command::Tree(TreeCommand::CutSets(cut_sets))) => tree_cut_sets::run(cut_sets),
        Some(Command::Tree(TreeCommand::Importance(events))) => tree_importance::run(events),
        Some(Command::Tree(TreeCommand::New(new))) => tree_new::run(new),
        Some(Command::Tree(TreeCommand::Diff(diff))) => tree_diff::run(diff),
        Some(Command::Tree(TreeCommand::Draw(draw))) => tree_draw::run(draw),
        Some(Command::Tree(TreeCommand::Export(export))) => tree_exchange::export(export),
        Some(Command::Tree(TreeCommand::Import(import))) => tree_exchange::import(import),
        Some(Command::Tree(TreeCommand::Explain(explain))) => tree_explain::run(explain),
        Some(Command::Demo(demo)) => demo::run(demo),
        Some(Command::Settings) => settings::run(surroundings),
        Some(Command::Completions(completions)) => completions::run(completions.shell),
        Some(Command::Man) => man::run(),
    }
}
