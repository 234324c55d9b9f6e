//! Readings: the pressure as found with its age, and what a typed one answers.

use super::entry::What;
use super::fields::place;
use super::job::Job;
use super::standing::standing;
use crate::base::dimension::Dimension;
use crate::base::quantity::Quantity;
use crate::base::stamp::Stamp;
use crate::diagnosis::predicted::{Compared, Predicted, compared};
use crate::diagnosis::reading::{Judged, ReadingError, judge};

/// Minutes after which a reading is read again before anybody relies on it (our own choice).
const OLD_MINUTES: i64 = 15;

/// One reading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reading {
    /// As it was typed, with its unit.
    pub value: String,
    /// When it was entered.
    pub at: Stamp,
    /// Whether a check has taken the pressure away since: it is history, not what stands there.
    pub gone: bool,
}

impl Reading {
    /// The moment from which it is old.
    pub fn old_from(&self) -> Stamp {
        Stamp::from_seconds(self.at.seconds() + (OLD_MINUTES + 1) * 60)
    }

    /// Whether it is old at a moment.
    pub fn is_old(&self, now: Stamp) -> bool {
        now >= self.old_from()
    }

    /// What to mind of it at a moment, in one word; empty where it can be relied on.
    pub fn mark(&self, now: Stamp) -> &'static str {
        match (self.gone, self.is_old(now)) {
            (true, _) => "GONE",
            (false, true) => "OLD",
            (false, false) => "",
        }
    }
}

/// The pressure as found, on the gas side; `None` where it was not read.
pub fn pressure_as_found(job: &Job) -> Option<Reading> {
    let value = job.field("pressure-as-found")?.to_owned();
    let wanted = place("pressure-as-found")?;
    let stands = standing(job.entries()).entries;
    let (at, _) = stands
        .iter()
        .rev()
        .find(|(_, what)| matches!(what, What::Field { field, .. } if *field == wanted))?;
    Some(Reading {
        value,
        at: job.entries()[*at].at,
        gone: job
            .situation()
            .gone
            .iter()
            .any(|word| word.name == "pressure"),
    })
}

/// The answer that a typed reading gives a check, at the temperature written down where none is
/// typed behind it; the error is for people.
pub fn answer_by_reading(job: &Job, check: usize, typed: &str) -> Result<What, String> {
    let judged = judged(job, check, typed).map_err(|error| format!("Not kept: {error}."))?;
    Ok(What::Answer {
        check,
        answer: judged.answer,
        read: Some(judged.words),
    })
}

fn judged(job: &Job, check: usize, typed: &str) -> Result<Judged, ReadingError> {
    let found = job.field("temperature-as-found");
    let found = found
        .and_then(|kept| Quantity::parse(&kept.replace(',', "."), Dimension::Temperature).ok());
    judge(job.model(), check, typed, found.map(Quantity::si))
}

/// How many causes a reading is compared with, the likeliest first.
const COMPARED_WITH: usize = 3;

/// What a check would read on a healthy aircraft and with the likeliest causes that are faults.
///
/// Nothing where the check reads no number.
pub fn predictions(job: &Job, check: usize) -> Vec<Predicted> {
    let model = job.model();
    let ranked = job.causes().into_iter().map(|row| row.event);
    let faults = ranked.filter(|event| model.causes[*event].fault.is_some());
    let events: Vec<usize> = faults.take(COMPARED_WITH).collect();
    job.inference().predicted(check, &events)
}

/// A reading, as it was typed or as the log has it, against what the plant reads.
pub fn comparison(job: &Job, check: usize, read: &str) -> Option<(Vec<Predicted>, Compared)> {
    let typed = read.split(", as ").next().unwrap_or(read);
    let si = judged(job, check, typed).ok()?.si;
    let all = predictions(job, check);
    let sum = compared(&all, si)?;
    Some((all, sum))
}

/// The reading that stands for a check, where its answer was given by one.
pub fn reading_of(job: &Job, check: usize) -> Option<String> {
    let stands = standing(job.entries()).entries;
    stands.into_iter().rev().find_map(|(_, what)| match what {
        What::Answer {
            check: of, read, ..
        } if of == check => Some(read),
        _ => None,
    })?
}
