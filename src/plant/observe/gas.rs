//! The gas side of the store: two gauges, the transmitter between them, and the valve.

use super::{Reading, Rounds};
use crate::plant::error::PlantError;
use crate::plant::handle::Handle;
use crate::plant::kinds::{indicator as indicator_kind, transmitter as transmitter_kind};

/// What the direct gauge shows, bar.
pub(super) fn gauge_bar(plant: &Handle) -> Option<f64> {
    let at = plant.parts_of("charging-valve").next()?;
    let valve = plant.view(at);
    Some((valve.level("gas") + valve.value("gauge-offset")) / 1e5)
}

/// What the flight-deck indicator shows, bar.
pub(super) fn indicator_bar(plant: &Handle) -> Option<f64> {
    let at = plant.parts_of("indicator").next()?;
    let view = plant.view(at);
    let sent = plant.parts_of("transmitter").next()?;
    let ohms = transmitter_kind::resistance(&plant.view(sent))?;
    Some(indicator_kind::reading(&view, ohms)? / 1e5)
}

pub(super) fn indicator(rounds: &Rounds, _: usize) -> Reading {
    Reading::number(indicator_bar(&rounds.now))
}

pub(super) fn gauge(rounds: &Rounds, _: usize) -> Reading {
    Reading::number(gauge_bar(&rounds.now))
}

fn difference_bar(rounds: &Rounds) -> Option<f64> {
    let both = indicator_bar(&rounds.now).zip(gauge_bar(&rounds.now));
    both.map(|(far, near)| far - near)
}

pub(super) fn difference(rounds: &Rounds, _: usize) -> Reading {
    Reading::number(difference_bar(rounds))
}

pub(super) fn apart(rounds: &Rounds, _: usize) -> Reading {
    Reading::number(difference_bar(rounds).map(f64::abs))
}

pub(super) fn fall_in_half_an_hour(rounds: &Rounds, _: usize) -> Result<Reading, PlantError> {
    let mut later = rounds.half_hour.clone();
    later.step(1800.0)?;
    let both = gauge_bar(&rounds.half_hour).zip(gauge_bar(&later));
    Ok(Reading::number(both.map(|(first, last)| first - last)))
}

pub(super) fn at_half_hour(rounds: &Rounds, _: usize) -> Reading {
    Reading::number(gauge_bar(&rounds.half_hour))
}

pub(super) fn indicator_at_eight_hours(rounds: &Rounds, _: usize) -> Reading {
    Reading::number(indicator_bar(&rounds.eight_hours))
}

pub(super) fn at_eight_hours(rounds: &Rounds, _: usize) -> Reading {
    Reading::number(gauge_bar(&rounds.eight_hours))
}

pub(super) fn transmitter(rounds: &Rounds, at: usize) -> Reading {
    let view = rounds.now.view(at);
    Reading::number(transmitter_kind::resistance(&view))
}

/// Resistance of a full store in the demo, ohm.
const FULL: f64 = 1386.0;

pub(super) fn indicator_alone(rounds: &Rounds, at: usize) -> Reading {
    let shown = indicator_kind::reading(&rounds.now.view(at), FULL);
    Reading::number(shown.map(|pascals| pascals / 1e5))
}

pub(super) fn bubbles(rounds: &Rounds, at: usize) -> Reading {
    let leaks = rounds.now.view(at).loss("gas") > 0.0;
    Reading::word(if leaks { "bubbles" } else { "none" })
}

pub(super) fn oil(rounds: &Rounds, at: usize) -> Reading {
    let oil = rounds.now.view(at).value("fluid-in-gas") > 0.0;
    Reading::word(if oil { "oil" } else { "dry" })
}
