//! Where the work stands, for somebody who comes back to it.

use crate::base::stamp::Stamp;
use crate::session::job::{Job, Stage};
use crate::session::reading::pressure_as_found;
use crate::session::standing::standing;

use super::log_text::words;

/// The card: where you were, the last three entries, what is open, what is old.
pub fn pause_card(job: &Job, job_name: &str, now: Stamp) -> Vec<String> {
    let mut lines = vec![match job_name {
        "" => format!("PAUSED {}", now.clock()),
        name => format!("PAUSED {}   job {name}", now.clock()),
    }];
    lines.push(format!("You were at    {}", stage_words(job)));
    for timer in job.timers() {
        lines.push(timer.line(now));
    }
    let stands = standing(job.entries()).entries;
    for (place, what) in stands.iter().rev().take(3) {
        let at = job.entries()[*place].at;
        lines.push(format!(
            "Last           {}  {}",
            at.clock(),
            words(job, what)
        ));
    }
    lines.push(format!(
        "Chocks         {}",
        if job.chocked() { "IN" } else { "NOT IN" }
    ));
    lines.push(format!("Pressure       {}", pressure(job, now)));
    let (kept, all) = job.evidence_kept();
    let open = match job.evidence_open() {
        0 => String::new(),
        open => format!(", {open} still to write down"),
    };
    lines.push(format!("Evidence       {kept} of {all} kept{open}"));
    lines.push(
        "On return      still true? Read old values again before you rely on them.".to_owned(),
    );
    lines
}

/// The pressure as found, with side, time, and OLD or GONE where it is; or that it was not read.
pub fn pressure(job: &Job, now: Stamp) -> String {
    let Some(reading) = pressure_as_found(job) else {
        return "not read".to_owned();
    };
    let mark = match reading.mark(now) {
        "" => String::new(),
        "GONE" => ", GONE: a check has used it up since, read again".to_owned(),
        mark => format!(", {mark}"),
    };
    format!("{} gas side at {}{mark}", reading.value, reading.at.clock())
}

fn stage_words(job: &Job) -> String {
    match job.stage() {
        Stage::Field(field) => {
            let field = &crate::session::fields::FIELDS[*field];
            format!("{}: {}", field.section.title(), field.ask)
        }
        Stage::Condition(condition) => job.model().questions[*condition].ask.clone(),
        Stage::Question(proposal) => job.model().checks[proposal.check].ask.clone(),
        Stage::RuleMet | Stage::NothingLeft => "end of job: choose how it ends".to_owned(),
        Stage::Contradiction(_) => "answers that contradict each other".to_owned(),
        Stage::Refused(_) => "no ranking".to_owned(),
        Stage::Closed(_) => "closed".to_owned(),
    }
}
