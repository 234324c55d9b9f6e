//! Passes the higher of two pressures to a brake, and stays where it went.

use crate::base::dimension::Dimension as D;
use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, port, usual};
use crate::plant::memory::Memory;
use crate::plant::physics::clearance::conductance;
use crate::plant::solver::law::Law;
use crate::plant::stamp::OPEN;
use crate::plant::stamp::Stamp;
use crate::plant::view::View;

/// The kind `shuttle-valve`.
pub const KIND: Kind = Kind {
    name: "shuttle-valve",
    doc: "Passes the higher of two pressures to a brake, and stays where it went.",
    ports: &[
        port("normal", P::Hydraulic),
        port("second", P::Hydraulic),
        port("brake", P::Hydraulic),
    ],
    parameters: &[
        usual("seat-leak", F::Quantity(D::Flow), 0.0),
        usual("shifts-above", F::Quantity(D::GaugePressure), 7e5),
    ],
    faults: &["stuck-normal", "stuck-second", "seat-leak"],
    hand: None,
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn stamp(&self, part: &View<'_>, stamp: &mut Stamp<'_>) {
        let (open, shut) = if on_second(part) {
            ("second", "normal")
        } else {
            ("normal", "second")
        };
        stamp.serve(open, "brake", Law::Passage(OPEN), "to brake");
        let seat = Law::leak(conductance(part.value("seat-leak")));
        stamp.leak(open, shut, seat, "seat");
    }

    fn advance(&self, part: &View<'_>, memory: &mut Memory, seconds: f64) {
        memory.held_for += seconds;
        if memory.held_for < DWELL {
            return;
        }
        let ahead = part.pressure("second") - part.pressure("normal");
        let shifts = part.value("shifts-above");
        let wants =
            (ahead > shifts && !memory.second_side) || (-ahead > shifts && memory.second_side);
        if wants {
            memory.second_side = !memory.second_side;
            memory.held_for = 0.0;
        }
    }

    fn mode(&self, part: &View<'_>) -> u8 {
        u8::from(on_second(part))
    }
}

/// Seconds a shuttle stays after a shift: the time its piston travels, invented. Without it two
/// supplies that fill at once would throw it to and fro for ever.
const DWELL: f64 = 1.0;

/// Whether the brake is joined to the second supply.
pub fn on_second(part: &View<'_>) -> bool {
    if part.has("stuck-second") {
        true
    } else if part.has("stuck-normal") {
        false
    } else {
        part.memory.second_side
    }
}
