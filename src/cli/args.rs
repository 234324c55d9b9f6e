//! What can be typed. The doc comment of a command is its help.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand};

mod tree;

pub use tree::*;

/// Troubleshooting console for park brakes that did not hold.
///
/// Without a command the console opens on the embedded demo: chocks first, then one question at a
/// time, with the likely causes ranked after each answer. Where there is no terminal, or with
/// --plain, the same questions are asked line by line.
///
/// An aid only: the approved maintenance data of the aircraft in hand govern, and nothing here
/// releases an aircraft.
#[derive(Debug, Parser)]
#[command(name = "stillwheel", version, after_help = AFTER_HELP)]
pub struct Arguments {
    /// What to do; without it the console opens
    #[command(subcommand)]
    pub command: Option<Command>,
    /// Ask line by line instead of drawing a screen
    #[arg(long, global = true)]
    pub plain: bool,
    /// Folder of the job files; without it the folder of the user
    #[arg(long, global = true, value_name = "DIR")]
    pub jobs: Option<PathBuf>,
    /// Settings file; without it the user's own, where there is one
    #[arg(long, global = true, value_name = "FILE")]
    pub settings: Option<PathBuf>,
}

const AFTER_HELP: &str = "\
Exit codes: 0 fine, 1 problems in what was read, 2 wrong command line, 3 file not readable or
writable, 4 needs a terminal, 70 a mistake in the program.";

/// The commands. A command that is not built yet is not listed.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Start a new job straight from a report
    Job(JobArguments),
    /// Go on with a job where it was left
    Resume(ResumeArguments),
    /// Write a job up: hand-over, record, annex
    Report(ReportArguments),
    /// Rank the causes of a report and name the next checks
    Rank(RankArguments),
    /// How long a parked aircraft holds: pressure over the hours, and when it can move
    Hold(HoldArguments),
    /// What every gauge, light and hand check shows in one state
    Readings(ReadingsArguments),
    /// The plant to play with: set anything, let time pass, read everything
    Bench(BenchArguments),
    /// Check fault trees and aircraft, and explain what is wrong
    #[command(subcommand)]
    Tree(TreeCommand),
    /// Write the embedded trees, aircraft and demo data into a folder
    Demo(DemoArguments),
    /// Print the settings file: where it lies, what is set and what can be
    Settings,
    /// Print a completion script for a shell
    Completions(CompletionsArguments),
    /// Print the manual page
    Man,
}

/// Start a new job.
#[derive(Debug, Args)]
pub struct JobArguments {
    /// Tree: a file, or the id of an embedded one: crept-while-parked, pressure-found-gone
    #[arg(default_value = "crept-while-parked")]
    pub tree: String,
    /// Aircraft instead of the tree's own: a file, or the id of an embedded one
    #[arg(long, value_name = "AIRCRAFT")]
    pub aircraft: Option<String>,
}

/// Go on with a job.
#[derive(Debug, Args)]
pub struct ResumeArguments {
    /// Name of the job; without it the newest
    pub job: Option<String>,
}

/// Write a job up.
#[derive(Debug, Args)]
pub struct ReportArguments {
    /// Name of the job; without it the newest
    pub job: Option<String>,
    /// Form of the write-up
    #[arg(long, value_enum, default_value = "text")]
    pub format: ReportFormat,
    /// The same as --format json
    #[arg(long)]
    pub json: bool,
}

/// Form of a write-up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum ReportFormat {
    /// Plain text
    Text,
    /// Markdown
    Markdown,
    /// JSON
    Json,
}

/// Rank the causes of a report.
#[derive(Debug, Args)]
pub struct RankArguments {
    /// Tree: a file, or the id of an embedded one: crept-while-parked, pressure-found-gone
    pub tree: String,
    /// Aircraft instead of the tree's own: a file, or the id of an embedded one
    #[arg(long, value_name = "AIRCRAFT")]
    pub aircraft: Option<String>,
    /// A condition that is known, such as supply-used=none or "hours=5 h" (repeatable)
    #[arg(long, value_name = "CONDITION=VALUE")]
    pub given: Vec<String>,
    /// A check that was answered: yes, no, cannot or one of its answers (repeatable)
    #[arg(long, value_name = "CHECK=ANSWER")]
    pub answer: Vec<String>,
    /// Positions of switches, such as battery=connected-off,pumps=on, or C1 to C5
    #[arg(long, value_name = "STATE")]
    pub state: Option<String>,
    /// Leave the report itself out of the evidence
    #[arg(long)]
    pub no_report: bool,
    /// Print JSON
    #[arg(long)]
    pub json: bool,
}

/// How an aircraft is parked.
#[derive(Debug, Args)]
pub struct ParkingArguments {
    /// Aircraft: a file, or the id of an embedded one
    #[arg(default_value = "demo-twin")]
    pub aircraft: String,
    /// A fault to put in, such as park-shut-off-valve/seat-leak or brake-l3/seal-leak=2 (repeatable)
    #[arg(long, value_name = "PART/FAULT[=SEVERITY]")]
    pub fault: Vec<String>,
    /// Positions of switches, such as battery=connected-off,pumps=on, or C1 to C5
    #[arg(long, value_name = "STATE")]
    pub state: Option<String>,
    /// Pressure of the store as the pumps stop, such as "206 bar" or "2988 psi"
    #[arg(long, value_name = "PRESSURE", allow_hyphen_values = true)]
    pub charge: Option<String>,
    /// Air temperature all the time, such as "15 C" or "59 F"
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    pub temperature: Option<String>,
    /// Slope in the direction it can roll, such as "1 %"
    #[arg(long, value_name = "SLOPE", allow_hyphen_values = true)]
    pub slope: Option<String>,
    /// Wind in that direction, such as "30 kt"
    #[arg(long, value_name = "SPEED", allow_hyphen_values = true)]
    pub wind: Option<String>,
    /// Gas charge of the accumulator, such as "76 bar at 20 C"
    #[arg(
        long,
        value_name = "PRESSURE at TEMPERATURE",
        allow_hyphen_values = true
    )]
    pub precharge: Option<String>,
    /// Hours to play, such as "14 h"; hold then says whether they are explained
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub hours: Option<String>,
    /// Print JSON
    #[arg(long)]
    pub json: bool,
}

/// How long it holds.
#[derive(Debug, Args)]
pub struct HoldArguments {
    /// How it is parked
    #[command(flatten)]
    pub parking: ParkingArguments,
}

/// What everything shows.
#[derive(Debug, Args)]
pub struct ReadingsArguments {
    /// How it is parked
    #[command(flatten)]
    pub parking: ParkingArguments,
    /// A course of the bench instead: what everything shows at its end
    #[arg(
        long,
        value_name = "FILE",
        conflicts_with_all = ["fault", "state", "charge", "temperature", "slope", "wind", "precharge", "hours"]
    )]
    pub bench: Option<String>,
}

/// The plant to play with.
///
/// Lever, pedals, pumps, power, breaker, weather, slope, wind and any faults are set while time
/// passes at up to a thousand times real time; every gauge, light and hand check is read beside a
/// healthy twin to which the same was done. Where there is no terminal, or with --plain, the same
/// commands are typed line by line.
#[derive(Debug, Args)]
pub struct BenchArguments {
    /// Aircraft: a file, or the id of an embedded one
    #[arg(default_value = "demo-twin")]
    pub aircraft: String,
    /// A course that was saved on the bench; it names its aircraft
    #[arg(long, value_name = "FILE", conflicts_with = "aircraft")]
    pub from: Option<String>,
}

/// Print a completion script.
#[derive(Debug, Args)]
pub struct CompletionsArguments {
    /// The shell
    #[arg(value_enum)]
    pub shell: clap_complete::Shell,
}

/// Write the embedded documents out.
#[derive(Debug, Args)]
pub struct DemoArguments {
    /// Folder to write into; it is made where it is missing
    #[arg(value_name = "DIR")]
    pub folder: PathBuf,
}
