//! `report JOB`: the write-up as text, Markdown or JSON.

use super::open_job::{Failure, open};
use super::work::newest;
use crate::cli::args::{Arguments, ReportArguments, ReportFormat};
use crate::cli::surroundings::{Surroundings, now};
use crate::cli::{exit, output};
use crate::report::write_up::write_up;
use crate::report::write_up_text::{json, markdown, text};
use crate::session::store::Store;

/// Writes a job up.
pub fn run(
    report: &ReportArguments,
    arguments: &Arguments,
    surroundings: &Surroundings,
) -> anyhow::Result<u8> {
    let store = Store::new(surroundings.jobs_folder(arguments.jobs.as_deref())?);
    let Some(name) = newest(&store, report.job.as_deref())? else {
        output::complain("error: there is no job to write up\n");
        return Ok(exit::FILE);
    };
    let open = match open(&store, &name) {
        Ok(open) => open,
        Err(Failure::Tree(code)) => return Ok(code),
        Err(Failure::Other(error)) => return Err(error),
    };
    for note in &open.notes {
        output::complain(&format!("note: {note}\n"));
    }
    let whole = write_up(&open.job, &open.header, now());
    match report.format {
        _ if report.json => output::print_json(&json(&whole, &open.job, &open.header))?,
        ReportFormat::Text => output::print(&text(&whole))?,
        ReportFormat::Markdown => output::print(&markdown(&whole))?,
        ReportFormat::Json => output::print_json(&json(&whole, &open.job, &open.header))?,
    }
    Ok(exit::FINE)
}
