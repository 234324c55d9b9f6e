//! Light, caption, breaker, relay, contacts, and the valve they speak of.

use super::{Reading, Rounds};
use crate::plant::handle::Handle;
use crate::plant::kinds::relay as relay_kind;

/// Whether a lamp is lit.
pub(super) fn lit(plant: &Handle, at: usize) -> bool {
    let lamp = plant.view(at);
    lamp.live("feed") && !lamp.has("open")
}

fn either(holds: bool, yes: &str, no: &str) -> Reading {
    Reading::word(if holds { yes } else { no })
}

pub(super) fn light(rounds: &Rounds, at: usize) -> Reading {
    either(lit(&rounds.now, at), "lit", "dark")
}

pub(super) fn caption(rounds: &Rounds, at: usize) -> Reading {
    let caption = rounds.now.view(at);
    let display = !caption.joined("display") || caption.live("display");
    let on = caption.hand() != "display-off";
    let shown = display && on && caption.live("feed") && !caption.has("input-dead");
    either(shown, "shown", "not-shown")
}

pub(super) fn breaker(rounds: &Rounds, at: usize) -> Reading {
    let breaker = rounds.now.view(at);
    let out = breaker.has("open") || breaker.has("will-not-latch") || breaker.hand() == "out";
    either(!out, "in", "out")
}

/// Travel at which the ball stands at its witness mark.
const AT_THE_MARK: f64 = 1e-3;

fn position_of(plant: &Handle, at: usize) -> Reading {
    let position = plant.view(at).memory.position;
    Reading::word(if position >= 1.0 - AT_THE_MARK {
        "shut"
    } else if position <= AT_THE_MARK {
        "open"
    } else {
        "short-of-shut"
    })
}

pub(super) fn position(rounds: &Rounds, at: usize) -> Reading {
    position_of(&rounds.now, at)
}

pub(super) fn position_at_eight_hours(rounds: &Rounds, at: usize) -> Reading {
    position_of(&rounds.eight_hours, at)
}

pub(super) fn close_volts(rounds: &Rounds, at: usize) -> Reading {
    Reading::Number(rounds.now.view(at).level("close"))
}

pub(super) fn closed_contact(rounds: &Rounds, at: usize) -> Reading {
    either(rounds.now.view(at).level("closed") > 0.5, "made", "open")
}

pub(super) fn relay(rounds: &Rounds, at: usize) -> Reading {
    let relay = rounds.now.view(at);
    if !relay.live("feed") {
        return Reading::Dead;
    }
    either(relay_kind::pulled_in(&relay), "in", "out")
}
