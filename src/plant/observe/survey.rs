//! What a walk round shows: clamped brakes, wet spots, noise, levels.

use super::{Reading, Rounds};
use crate::plant::handle::Handle;

/// Cubic metres per second in 1 mL/min.
const ML_PER_MIN: f64 = 1e-6 / 60.0;
/// The least leak a probe picks out, mL/min: from memory of the trade.
const AUDIBLE: f64 = 5.0;
/// The least leak that leaves a wet spot in half an hour, mL/min: a drop every minute.
const LEAVES_A_SPOT: f64 = 0.05;
/// Kinds of part at which the probe is held, in the order of the walk.
const PROBED: [&str; 8] = [
    "shut-off-valve",
    "metering-valve",
    "shuttle-valve",
    "isolation-valve",
    "check-valve",
    "relief-valve",
    "line",
    "brake",
];

pub(super) fn clamped_words(plant: &Handle) -> Reading {
    let (clamped, all) = plant.clamped();
    Reading::word(format!("{clamped} of {all}"))
}

pub(super) fn clamped(rounds: &Rounds, _: usize) -> Reading {
    clamped_words(&rounds.now)
}

/// The parts from which fluid came out, by what could have come out of them.
pub(super) fn wet(rounds: &Rounds, _: usize) -> Reading {
    // As found, and with the pressure it had: a store that is empty by now was not dry all along.
    let plant = &rounds.fresh;
    let outside = plant.wiring.outside;
    let mut found: Vec<&str> = plant
        .flows()
        .iter()
        .filter(|passing| passing.ends.1 == outside && passing.flow / ML_PER_MIN > LEAVES_A_SPOT)
        .filter_map(|passing| Some(plant.aircraft().parts.get(passing.part)?.id.as_str()))
        .collect();
    found.dedup();
    if found.is_empty() {
        return Reading::word("dry");
    }
    Reading::word(found.join(", "))
}

pub(super) fn gain(rounds: &Rounds, at: usize) -> Reading {
    let id = &rounds.now.aircraft().parts[at].id;
    let balance = rounds.eight_hours.balance();
    let row = balance.reservoirs.iter().find(|(name, _)| name == id);
    Reading::number(row.map(|(_, gained)| gained * 1e3))
}

pub(super) fn heard(rounds: &Rounds, _: usize) -> Reading {
    let plant = &rounds.ten_minutes;
    let parts = &plant.aircraft().parts;
    let mut loudest: Option<(f64, &str)> = None;
    for passing in plant.flows() {
        let Some(part) = parts.get(passing.part) else {
            continue;
        };
        let flow = passing.flow.abs() / ML_PER_MIN;
        let probed = PROBED.contains(&part.kind.name) && !passing.serves;
        if probed && flow > AUDIBLE && loudest.is_none_or(|(most, _)| flow > most * 1.01) {
            loudest = Some((flow, &part.id));
        }
    }
    Reading::word(loudest.map_or("nothing", |(_, id)| id))
}

/// Caught below the park valve while there is pressure above it: ten minutes after the pumps.
pub(super) fn return_flow(rounds: &Rounds, at: usize) -> Reading {
    let id = &rounds.now.aircraft().parts[at].id;
    let flows = rounds.ten_minutes.flows_of(id);
    let outside = rounds.now.wiring.outside;
    let inside = flows.iter().filter(|passing| passing.ends.1 != outside);
    let caught: f64 = inside.map(|passing| passing.flow).sum();
    Reading::Number(caught / ML_PER_MIN)
}

pub(super) fn bleed_port(rounds: &Rounds, at: usize) -> Reading {
    Reading::Number(rounds.now.view(at).pressure("fluid") / 1e5)
}

pub(super) fn clearance(rounds: &Rounds, _: usize) -> Reading {
    let plant = &rounds.now;
    let all = plant
        .parts_of("brake")
        .map(|at| plant.view(at).value("clearance"));
    Reading::Number(all.fold(0.0, f64::max) * 1e3)
}
