//! What checks read with each fault alone, and what their lines say of it.

use std::sync::Arc;

use super::{Finding, NotCompared, fault_names, fault_of};
use crate::base::text::decimal;
use crate::diagnosis::cause::Part;
use crate::diagnosis::check::Check;
use crate::diagnosis::evidence::Evidence;
use crate::diagnosis::inference::{Belief, Inference, NoBelief};
use crate::diagnosis::model::Model;
use crate::diagnosis::reading::observable;
use crate::diagnosis::situation::Situation;
use crate::plant::aircraft::Aircraft;
use crate::plant::error::PlantError;
use crate::plant::handle::Change;
use crate::plant::observe::{Observable, Observed, Pumps, Reading, Rounds};
use crate::plant::parking::Parking;

/// Compares every check that says what its readings show.
pub fn compare(
    inference: &Inference,
    aircraft: &Arc<Aircraft>,
    found: &mut Vec<Finding>,
) -> Result<(), NotCompared> {
    let model = inference.model();
    let checks: Vec<usize> = (0..model.checks.len())
        .filter(|check| !model.checks[*check].shows.is_empty())
        .collect();
    let mut rows = Vec::new();
    for state in states(model, &checks) {
        let here: Vec<usize> = checks
            .iter()
            .copied()
            .filter(|check| switches(model, *check) == state)
            .collect();
        for event in subjects(model) {
            let events: Vec<usize> = event.into_iter().collect();
            let rounds = rounds(model, aircraft, &state, &events);
            let rounds = rounds.map_err(|error| NotCompared::Fault {
                fault: fault_names(model, &events),
                error,
            })?;
            let belief = alone(inference, event)?;
            for check in &here {
                let finding = against(inference, *check, event, &rounds, &belief)?;
                rows.extend(finding.map(|finding| (*check, finding)));
            }
        }
    }
    rows.sort_by_key(|(check, _)| *check);
    found.extend(rows.into_iter().map(|(_, finding)| finding));
    found.extend(moving(model).map(Finding::MovesFluid));
    Ok(())
}

/// A healthy aircraft, and every event that puts a fault into a part it has.
pub fn subjects(model: &Model) -> Vec<Option<usize>> {
    let faults = (0..model.causes.len()).filter(|event| {
        model.causes[*event].part != Part::Dropped && fault_of(model, *event).is_some()
    });
    std::iter::once(None).chain(faults.map(Some)).collect()
}

/// Positions of switches in which the reading of a check is taken, by name.
///
/// Power and battery are as the check needs them. Readings are those of an aircraft that was parked
/// with its lever up, and the lever is moved by the reading itself where it must be. Pumps are off
/// where the reading is of a pressure that falls, though the check began by running them.
pub fn switches(model: &Model, check: usize) -> Vec<(String, String)> {
    let Some(aircraft) = model.aircraft.as_deref() else {
        return Vec::new();
    };
    let found = Situation::as_found(model);
    let mut situation = found.clone();
    situation.make(model, &model.checks[check]);
    let pumps = observable(model, &model.checks[check]).map_or(Pumps::Any, |row| row.pumps);
    let rows = aircraft.switches.iter().enumerate();
    rows.map(|(at, switch)| {
        let stands = &switch.positions[situation.state.0[at]];
        let as_found = &switch.positions[found.state.0[at]];
        let stands = match (switch.id.as_str(), pumps) {
            ("lever", _) | ("pumps", Pumps::Off) => as_found,
            _ => stands,
        };
        (switch.id.clone(), stands.clone())
    })
    .collect()
}

/// The different states in which some checks are made.
pub fn states(model: &Model, checks: &[usize]) -> Vec<Vec<(String, String)>> {
    let mut states: Vec<_> = checks.iter().map(|check| switches(model, *check)).collect();
    states.sort();
    states.dedup();
    states
}

/// The parking of a state with the faults of some events in it.
pub fn rounds(
    model: &Model,
    aircraft: &Arc<Aircraft>,
    state: &[(String, String)],
    events: &[usize],
) -> Result<Rounds, PlantError> {
    let mut parking = Parking::usual();
    parking.switches = state.to_vec();
    let faults = events.iter().filter_map(|event| fault_of(model, *event));
    parking
        .changes
        .extend(faults.map(|(part, fault)| Change::Fault(part.to_owned(), fault.to_owned(), 1.0)));
    Rounds::play(aircraft, &parking, None)
}

/// Every event fixed: one holds, or none does.
fn fixed_alone(model: &Model, event: Option<usize>) -> Vec<(usize, bool)> {
    let all = 0..model.causes.len();
    all.map(|at| (at, Some(at) == event)).collect()
}

/// What is believed with one event alone, or with none; the report is left out of it.
fn alone(inference: &Inference, event: Option<usize>) -> Result<Belief, NoBelief> {
    let model = inference.model();
    let evidence = Evidence {
        report: false,
        ..Evidence::report_only(model)
    };
    inference.believe_fixed(&evidence, &fixed_alone(model, event))
}

/// What differs for one check under one fault.
fn against(
    inference: &Inference,
    at: usize,
    event: Option<usize>,
    rounds: &Rounds,
    belief: &Belief,
) -> Result<Option<Finding>, NotCompared> {
    let model = inference.model();
    let check = &model.checks[at];
    let name = check.reads.as_deref().unwrap_or_default();
    let Some(observed) = rounds.observe_one(name)? else {
        return Ok(None);
    };
    if needs_lever_up(model, check) && lever_is_down(rounds)? {
        return Ok(None);
    }
    let Some(shown) = answer(check, &observed) else {
        return Ok(Some(Finding::NoAnswer {
            check: at,
            event,
            reading: words(&observed),
        }));
    };
    let chances = check.answer_chances(&belief.lines[at]);
    let likeliest = highest(&chances);
    if likeliest == shown {
        return Ok(None);
    }
    let lines = inference.lines_before(at, &fixed_alone(model, event));
    Ok(Some(Finding::Contradicts {
        check: at,
        line: highest(&lines.map_err(NoBelief::from)?),
        event,
        reading: words(&observed),
        shown,
        likeliest,
    }))
}

/// Whether a check is made with the lever up only.
fn needs_lever_up(model: &Model, check: &Check) -> bool {
    let Some(aircraft) = model.aircraft.as_deref() else {
        return false;
    };
    check.needs.0.iter().any(|(switch, positions)| {
        let switch = &aircraft.switches[*switch];
        let up = |at: &usize| switch.positions[*at] == "up";
        switch.id == "lever" && positions.iter().all(up)
    })
}

/// Whether the lever will not stay up, so that what needs it up cannot be done.
fn lever_is_down(rounds: &Rounds) -> Result<bool, PlantError> {
    let lever = rounds.observe_one("park-lever")?;
    Ok(lever.is_some_and(|lever| lever.reading == Reading::word("down")))
}

/// The answer that a reading gives.
pub fn answer(check: &Check, observed: &Observed) -> Option<usize> {
    let found = check
        .shows
        .iter()
        .find(|shows| shows.reading.fits(observed));
    found.map(|shows| shows.answer)
}

/// A reading as people write it.
pub fn words(observed: &Observed) -> String {
    match &observed.reading {
        Reading::Number(number) => format!("{} {}", decimal(*number, 1), observed.unit)
            .trim()
            .to_owned(),
        Reading::Word(word) => word.replace('-', " "),
        Reading::Dead => "nothing in this state".to_owned(),
    }
}

/// The place of the highest; the first of equals.
fn highest(chances: &[f64]) -> usize {
    let mut best = 0;
    for (at, chance) in chances.iter().enumerate() {
        if *chance > chances[best] {
            best = at;
        }
    }
    best
}

/// Checks that are read by moving lever, pedals or pumps and take no pressure away.
fn moving(model: &Model) -> impl Iterator<Item = usize> + '_ {
    (0..model.checks.len()).filter(move |at| {
        let check = &model.checks[*at];
        let moves = observable(model, check).is_some_and(Observable::moves_fluid);
        moves && !check.takes_away.iter().any(|word| word.name == "pressure")
    })
}
