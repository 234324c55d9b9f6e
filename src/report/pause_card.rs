//! Where the work stands, for somebody who comes back to it.

use crate::base::stamp::Stamp;
use crate::session::field::Section;
use crate::session::fields::of;
use crate::session::job::{Job, Stage};
use crate::session::standing::standing;

use super::log_text::words;

/// A reading older than this is asked for again.
const OLD_MINUTES: i64 = 15;

/// The card: where you were, the last three entries, what is open, what is old.
pub fn pause_card(job: &Job, job_name: &str, now: Stamp) -> Vec<String> {
    let mut lines = vec![format!("PAUSED {}   job {job_name}", now.clock())];
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
    let unsaved: Vec<usize> = of(Section::Evidence)
        .filter(|field| !job.was_asked(*field))
        .collect();
    if !unsaved.is_empty() {
        lines.push(format!(
            "Evidence       {} still to write down",
            unsaved.len()
        ));
    }
    lines.push(
        "On return      still true? Read old values again before you rely on them.".to_owned(),
    );
    lines
}

/// The pressure as found, with its side and age.
pub fn pressure(job: &Job, now: Stamp) -> String {
    let Some(value) = job.field("pressure-as-found") else {
        return "not read".to_owned();
    };
    let stands = standing(job.entries()).entries;
    let place = crate::session::fields::place("pressure-as-found");
    let entry = stands.iter().rev().find(|(_, what)| {
        matches!(what, crate::session::entry::What::Field { field, .. } if Some(*field) == place)
    });
    let Some((at, _)) = entry else {
        return value.to_owned();
    };
    let read = job.entries()[*at].at;
    let age = (now.seconds() - read.seconds()) / 60;
    let old = if age > OLD_MINUTES { ", OLD" } else { "" };
    format!("{value} gas side at {}{old}", read.clock())
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
