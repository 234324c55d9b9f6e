//! Readings of the aircraft that no check takes, and the weak pairs that they would tell apart.

use std::collections::BTreeMap;

use super::{Coverage, Pair};
use crate::diagnosis::agreement::readings::{rounds, states, words};
use crate::diagnosis::agreement::{NotCompared, fault_names, fault_of};
use crate::diagnosis::model::Model;
use crate::plant::observe::{Observed, Reading, readings_of};

/// A reading that would help.
#[derive(Debug, Clone, PartialEq)]
pub struct Unread {
    /// Its full name.
    pub name: String,
    /// What it is, in words.
    pub title: String,
    /// Positions of the switches in which it was read.
    pub state: Vec<(String, String)>,
    /// Pairs it reads differently, those of more mistaken jobs first, with both readings.
    pub pairs: Vec<(usize, usize, String, String)>,
    /// Bound on the share of jobs that it would keep from ending at the wrong cause.
    pub worth: f64,
}

/// Pairs looked at: those of which most jobs end at the wrong one.
const PAIRS: usize = 200;
/// Readings listed.
const LISTED: usize = 5;
/// A pair of which fewer jobs than this end at the wrong one asks for no reading.
const WORTH_A_READING: f64 = 1e-4;

/// Plays every fault of a pair that is easily mistaken, in every state in which checks are made,
/// and compares what no check reads.
///
/// Errors: there is no aircraft, or its plant cannot be played.
pub fn unread(model: &Model, coverage: &Coverage) -> Result<Vec<Unread>, NotCompared> {
    let aircraft = model.aircraft.as_ref().ok_or(NotCompared::NoAircraft)?;
    let mut pairs: Vec<&Pair> = coverage
        .pairs
        .iter()
        .filter(|pair| pair.mistaken >= WORTH_A_READING)
        .filter(|pair| {
            [pair.one, pair.other]
                .iter()
                .any(|e| fault_of(model, *e).is_some())
        })
        .collect();
    pairs.sort_by(|a, b| b.mistaken.total_cmp(&a.mistaken));
    pairs.truncate(PAIRS);
    let mut events: Vec<usize> = pairs
        .iter()
        .flat_map(|pair| [pair.one, pair.other])
        .collect();
    events.sort_unstable();
    events.dedup();
    let taken: Vec<&str> = model
        .checks
        .iter()
        .filter_map(|check| check.reads.as_deref())
        .collect();
    let names: Vec<String> = readings_of(aircraft)
        .map(|(name, ..)| name)
        .filter(|name| !taken.contains(&name.as_str()))
        .collect();
    let every: Vec<usize> = (0..model.checks.len()).collect();
    let mut best: BTreeMap<String, Unread> = BTreeMap::new();
    for state in states(model, &every) {
        let mut read: BTreeMap<usize, Vec<Observed>> = BTreeMap::new();
        for event in &events {
            let failed = |error| NotCompared::Fault {
                fault: fault_names(model, &[*event]),
                error,
            };
            let rounds = rounds(model, aircraft, &state, &[*event]).map_err(failed)?;
            let one = |name: &String| rounds.observe_one(name).map_err(failed);
            let all: Vec<Option<Observed>> = names.iter().map(one).collect::<Result<_, _>>()?;
            read.insert(*event, all.into_iter().flatten().collect());
        }
        for at in 0..names.len() {
            let found = compare(&pairs, &read, at, &state);
            if let Some(found) = found
                && best.get(&found.name).is_none_or(|b| found.worth > b.worth)
            {
                best.insert(found.name.clone(), found);
            }
        }
    }
    let mut found: Vec<Unread> = best.into_values().collect();
    found.sort_by(|a, b| b.worth.total_cmp(&a.worth));
    found.truncate(LISTED);
    Ok(found)
}

/// What one reading says of the pairs in one state.
fn compare(
    pairs: &[&Pair],
    read: &BTreeMap<usize, Vec<Observed>>,
    at: usize,
    state: &[(String, String)],
) -> Option<Unread> {
    let mut worth = 0.0;
    let mut told = Vec::new();
    let mut about = None;
    for pair in pairs {
        let [Some(one), Some(other)] =
            [pair.one, pair.other].map(|event| read.get(&event).and_then(|all| all.get(at)))
        else {
            continue;
        };
        if differs(one, other) {
            worth += pair.mistaken;
            told.push((pair.one, pair.other, words(one), words(other)));
            about = Some(one);
        }
    }
    let about = about?;
    Some(Unread {
        name: about.name.clone(),
        title: about.title.clone(),
        state: state.to_vec(),
        pairs: told,
        worth,
    })
}

/// Whether two readings differ by more than the instrument is accurate; one that cannot be read
/// says nothing.
fn differs(one: &Observed, other: &Observed) -> bool {
    match (&one.reading, &other.reading) {
        (Reading::Number(a), Reading::Number(b)) => (a - b).abs() > 2.0 * one.edge,
        (Reading::Word(a), Reading::Word(b)) => a != b,
        _ => false,
    }
}
