//! Lever and pedals.

use super::{Reading, Rounds};
use crate::plant::kinds::metering_valve;

pub(super) fn lever(rounds: &Rounds, _: usize) -> Reading {
    Reading::word(if rounds.now.latched() { "up" } else { "down" })
}

pub(super) fn lever_stays(rounds: &Rounds, _: usize) -> Reading {
    match rounds.dropped {
        Some(hours) => Reading::word(format!("drops after {hours:.1} h")),
        None if rounds.fresh.latched() => Reading::word("stays"),
        None => Reading::word("not up"),
    }
}

/// Effort of a pedal: its spring, and what the valves of its side push back.
///
/// Sides are told by the document: the valves with a feel, left first.
fn effort(rounds: &Rounds, side: usize) -> Reading {
    let plant = &rounds.fresh;
    let felt = |at: &usize| plant.view(*at).value("feel") > 0.0;
    let Some(at) = plant.parts_of("metering-valve").filter(felt).nth(side) else {
        return Reading::Dead;
    };
    let seat = plant.parts_of("pedals").next();
    let spring = seat.map_or(0.0, |seat| plant.view(seat).value("spring"));
    let valve = plant.view(at);
    let pushed = metering_valve::pedal_command(&valve) / 1e5 * valve.value("feel");
    Reading::Number(spring + pushed)
}

pub(super) fn effort_left(rounds: &Rounds, _: usize) -> Reading {
    effort(rounds, 0)
}

pub(super) fn effort_right(rounds: &Rounds, _: usize) -> Reading {
    effort(rounds, 1)
}
