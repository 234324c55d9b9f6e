//! A watched gauge: readings as they were taken, and what of them counts.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::entry::What;
use super::field::is_ambiguous;
use super::job::Job;
use crate::base::dimension::Dimension;
use crate::base::quantity::Quantity;
use crate::base::stamp::Stamp;
use crate::diagnosis::fact::Fact;
use crate::diagnosis::fell::{Fell, LEAST_WATCH};
use crate::diagnosis::gauge_reading::{Dial, names, place_of, tells_the_same, title_of};
use crate::diagnosis::model::Model;

/// How far a clock may be ahead of this one, s.
const AHEAD: i64 = 60;
/// Seconds of a day.
const DAY: i64 = 86_400;

/// One reading of a gauge as it was taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Taken {
    /// When it was read.
    pub at: Stamp,
    /// Place of the gauge.
    pub gauge: usize,
    /// As typed: `184.5 bar`, perhaps ` at 8 C` behind it.
    pub typed: String,
}

/// One reading in SI units.
#[derive(Debug, Clone, PartialEq)]
pub struct Point {
    /// As it was taken.
    pub taken: Taken,
    /// Pa gauge.
    pub pascals: f64,
    /// K, where it was typed.
    pub kelvin: Option<f64>,
}

/// Readings of one watch in the order of their times.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Watch {
    /// The readings.
    pub points: Vec<Point>,
    /// The place of the entry with the first of them.
    first_entry: Option<usize>,
    /// Why none of them counts, where none does.
    pub not_counted: Option<String>,
}

impl Watch {
    /// Takes readings of an entry.
    pub(super) fn take(&mut self, dial: Dial, values: &[Taken], entry: usize) {
        for taken in values {
            // What an older tree's aircraft could show may be out of range on another.
            let Ok(shown) = dial.read(&taken.typed) else {
                continue;
            };
            self.points.push(Point {
                taken: taken.clone(),
                pascals: shown.pascals,
                kelvin: shown.kelvin,
            });
        }
        self.first_entry.get_or_insert(entry);
    }

    /// Brings them into the order of their times, the first of each gauge and second.
    pub(super) fn in_order(&mut self) {
        let key = |point: &Point| (point.taken.at, point.taken.gauge);
        self.points.sort_by_key(key);
        self.points.dedup_by_key(|point| key(point));
    }

    /// Times and gauges there are readings of.
    pub fn known(&self) -> BTreeSet<(Stamp, usize)> {
        let points = self.points.iter();
        points.map(|p| (p.taken.at, p.taken.gauge)).collect()
    }

    /// When the first reading was taken.
    pub fn begun(&self) -> Option<Stamp> {
        self.points.first().map(|point| point.taken.at)
    }

    /// Readings of one gauge: seconds after its first, and Pa.
    pub fn of(&self, gauge: usize) -> Vec<(f64, f64)> {
        let points = || self.points.iter().filter(|p| p.taken.gauge == gauge);
        let Some(first) = points().next() else {
            return Vec::new();
        };
        let after = |at: Stamp| seconds(at.seconds() - first.taken.at.seconds());
        points().map(|p| (after(p.taken.at), p.pascals)).collect()
    }

    /// The fall that counts: of the gauge whose readings leave the least doubt. It says why not
    /// where there is none.
    ///
    /// `temperature` is that of the job, K, for readings without one. `answered` are checks with
    /// the places of the entries that answered them.
    pub(super) fn settle(
        &mut self,
        model: &Model,
        temperature: Option<f64>,
        answered: &[(usize, usize)],
    ) -> Option<Arc<Fell>> {
        self.not_counted = None;
        let fallen = self.clearest(temperature);
        let Some(fell) = fallen else {
            if !self.points.is_empty() {
                self.not_counted = Some(format!(
                    "two readings of one gauge, {LEAST_WATCH:.0} s apart or more, make a fall"
                ));
            }
            return None;
        };
        let first = self.first_entry.unwrap_or(0);
        let same = answered.iter().find(|(check, entry)| {
            *entry > first && tells_the_same(model, *check, fell.begin.gauge)
        });
        if let Some((check, _)) = same {
            self.not_counted = Some(format!(
                "\"{}\" was answered from the same fall, and one fall counts once",
                model.checks[*check].title
            ));
            return None;
        }
        Some(Arc::new(fell))
    }

    /// The fall of the gauge whose readings leave the least doubt, counted or not.
    pub fn clearest(&self, temperature: Option<f64>) -> Option<Fell> {
        let gauges = 0..names().len();
        let falls = gauges.filter_map(|gauge| {
            let typed = || {
                let points = self.points.iter().filter(|p| p.taken.gauge == gauge);
                points.filter_map(|point| point.kelvin)
            };
            let ends = typed().next().zip(typed().next_back());
            let ends = ends.or_else(|| temperature.map(|kelvin| (kelvin, kelvin)));
            Fell::of(gauge, &self.of(gauge), ends)
        });
        falls.reduce(|best, other| {
            if other.doubt < best.doubt {
                other
            } else {
                best
            }
        })
    }
}

impl Job {
    /// The air of a watch, K: written down as found, or typed of the parking.
    pub fn air(&self) -> Option<f64> {
        let found = self.field("temperature-as-found");
        let found = found
            .and_then(|kept| Quantity::parse(&kept.replace(',', "."), Dimension::Temperature).ok())
            .map(Quantity::si);
        let place = self.model().fact(Fact::Temperature);
        let typed = place.and_then(|place| self.evidence().spans[place]);
        found.or(typed.map(|(_, last)| last))
    }

    /// Why a reading of a time cannot belong to this job; `None` where it can.
    fn refuses_time(&self, at: Stamp, now: Stamp) -> Option<String> {
        if at.seconds() > now.seconds() + AHEAD {
            return Some(format!(
                "{} is still to come, it is {}",
                day(at, now),
                now.clock()
            ));
        }
        let begun = self.entries().first()?.at;
        let before = || {
            format!(
                "{} is before this job began, {}",
                day(at, begun),
                begun.clock()
            )
        };
        (at < begun).then(before)
    }

    /// The reading in typed words: `184.5 bar`, `02:31 184.5 bar`, `+5 min 184.5 bar indicator`.
    ///
    /// Without a time it was read now, without a gauge it is the one read last. The error is for
    /// people.
    pub fn reading_taken(&self, words: &str, now: Stamp) -> Result<Taken, String> {
        let dial = self.inference().dial();
        let (words, named) = gauge_behind(words.trim());
        let last = self.watch().points.last().map_or(0, |p| p.taken.gauge);
        let (at, typed) = time_before(words, now, self.watch().begun())?;
        if let Some(reason) = self.refuses_time(at, now) {
            return Err(reason);
        }
        let typed = typed.trim();
        if is_ambiguous(typed) {
            return Err(format!(
                "{typed} can be two numbers; write it without the comma, or with a point"
            ));
        }
        let typed = typed.replace(',', ".");
        dial.read(&typed).map_err(|error| error.to_string())?;
        Ok(Taken {
            at,
            gauge: named.unwrap_or(last),
            typed,
        })
    }
}

/// A moment by its clock, with its day where that is another than the one beside it.
fn day(at: Stamp, beside: Stamp) -> String {
    if at.seconds().div_euclid(DAY) == beside.seconds().div_euclid(DAY) {
        at.clock()
    } else {
        at.to_string()
    }
}

/// Takes the name of a gauge off the end of some words.
pub fn gauge_behind(words: &str) -> (&str, Option<usize>) {
    let Some((before, last)) = words.rsplit_once(' ') else {
        return (words, None);
    };
    match place_of(&last.to_lowercase()) {
        Some(gauge) => (before.trim_end(), Some(gauge)),
        None => (words, None),
    }
}

/// Takes the time off the front of some words; without one it is now.
fn time_before(words: &str, now: Stamp, begun: Option<Stamp>) -> Result<(Stamp, &str), String> {
    let (first, rest) = words.split_once(' ').unwrap_or((words, ""));
    if let Some(moment) = Stamp::parse(first) {
        return Ok((moment, rest));
    }
    if let Some(of_day) = clock_time(first) {
        let midnight = now.seconds().div_euclid(DAY) * DAY;
        let today = midnight + of_day;
        // A clock time that is still to come was yesterday's.
        let yesterday = today > now.seconds() + AHEAD;
        let seconds = if yesterday { today - DAY } else { today };
        return Ok((Stamp::from_seconds(seconds.max(0)), rest));
    }
    let Some(after) = words.strip_prefix('+') else {
        return Ok((now, words));
    };
    let begun = begun.ok_or("there is no first reading yet that + counts from")?;
    let letters = after.find(|c: char| c.is_ascii_alphabetic());
    let from = letters.unwrap_or(after.len());
    let end = after.get(from..).and_then(|unit| unit.find(' '));
    let end = end.map_or(after.len(), |end| from + end);
    let (time, rest) = after.split_at(end);
    let quantity = Quantity::parse(time, Dimension::Time).map_err(|error| error.to_string())?;
    if !(0.0..=1e7).contains(&quantity.si()) {
        return Err(format!("+{time} is no time of a watch"));
    }
    Ok((
        Stamp::from_seconds(begun.seconds() + whole(quantity.si())),
        rest,
    ))
}

/// Seconds of the day of `02:31`, `02:31Z` or `02:31:20`.
fn clock_time(text: &str) -> Option<i64> {
    let mut parts = text.trim_end_matches(['Z', 'z']).split(':');
    let mut part = |most: i64| {
        let text = parts.next()?;
        let number: i64 = text.parse().ok()?;
        (text.len() <= 2 && (0..=most).contains(&number)).then_some(number)
    };
    let (hours, minutes) = (part(23)?, part(59)?);
    let rest: Vec<&str> = text
        .trim_end_matches(['Z', 'z'])
        .split(':')
        .skip(2)
        .collect();
    let seconds = match rest.as_slice() {
        [] => 0,
        [seconds] if seconds.len() <= 2 => seconds.parse().ok().filter(|s| (0..60).contains(s))?,
        _ => return None,
    };
    Some(hours * 3600 + minutes * 60 + seconds)
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "bounded by the caller to some days"
)]
fn whole(seconds: f64) -> i64 {
    seconds.round() as i64
}

#[expect(
    clippy::cast_precision_loss,
    reason = "seconds of a job lie far below where whole numbers end"
)]
fn seconds(whole: i64) -> f64 {
    whole as f64
}

/// A reading in words: `02:31Z 184.5 bar, Direct gauge at the gas valve, gas side`.
pub fn taken_words(taken: &Taken) -> String {
    let (clock, typed) = (taken.at.clock(), &taken.typed);
    format!("{clock} {typed}, {}", title_of(taken.gauge))
}

/// The entry of one typed reading; the error is for people.
pub fn watched(job: &Job, words: &str, now: Stamp) -> Result<What, String> {
    let taken = job.reading_taken(words, now);
    let taken = taken.map_err(|reason| format!("Not kept: {reason}."))?;
    if job.watch().known().contains(&(taken.at, taken.gauge)) {
        return Err(format!(
            "Not kept: there is a reading of that gauge at {} already; :change its entry.",
            taken.at.clock()
        ));
    }
    Ok(What::Readings {
        values: vec![taken],
        from: None,
    })
}
