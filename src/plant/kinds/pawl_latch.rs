//! Holds the pedals down while the pawl is loaded; a harder press on the pedals lets it go.
//! The pawl catches when the lever is up and both pedals reach the stop; a press past the stop
//! lets the latch spring pull it away, from either seat. A worn pawl holds until something nudges
//! it; the time is a figure of the fault, and 0 means that it holds.

use crate::base::dimension::Dimension as D;
use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, port, usual};
use crate::plant::levels::Drive;
use crate::plant::memory::Memory;
use crate::plant::view::View;

/// The kind `pawl-latch`.
pub const KIND: Kind = Kind {
    name: "pawl-latch",
    doc: "Holds the pedals down while the pawl is loaded; a harder press on the pedals lets it go.",
    ports: &[
        port("lever", P::Mechanical),
        port("left", P::Mechanical),
        port("right", P::Mechanical),
        port("switch", P::Signal),
    ],
    parameters: &[usual("lets-go-after", F::Quantity(D::Time), 0.0)],
    faults: &["pawl-worn", "spring-weak", "dirty"],
    hand: None,
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

/// Travel at which the pawl can catch, as a share of full travel: invented.
const CATCHES: f64 = 0.98;
/// Travel at which a press unloads the pawl: invented.
const LETS_GO: f64 = 1.02;

impl Behaviour for Works {
    fn drive(&self, part: &View<'_>, drive: &mut Drive<'_>) {
        if part.memory.engaged {
            drive.put("left", 1.0);
            drive.put("right", 1.0);
            drive.put("switch", 1.0);
        }
    }

    fn advance(&self, part: &View<'_>, memory: &mut Memory, seconds: f64) {
        let (left, right) = (part.level("left"), part.level("right"));
        let up = part.level("lever") > 0.5;
        if memory.engaged {
            memory.held_for += seconds;
            let pressed = left.max(right) >= LETS_GO;
            let nudged = lets_go_after(part).is_some_and(|after| memory.held_for >= after - 1e-9);
            if pressed || nudged || !up {
                memory.engaged = false;
            }
        } else if up && left.min(right) >= CATCHES && left.max(right) < LETS_GO {
            // Dirt keeps the pawl from seating; the lever falls back as soon as it is let go.
            memory.engaged = !part.has("dirty") && memory.held_for.abs() < f64::EPSILON;
        }
        if !up {
            memory.held_for = 0.0;
        }
    }

    fn alarm(&self, part: &View<'_>) -> Option<f64> {
        let left = lets_go_after(part)? - part.memory.held_for;
        (part.memory.engaged && left > 0.0).then_some(left)
    }

    fn mode(&self, part: &View<'_>) -> u8 {
        u8::from(part.memory.engaged)
    }
}

/// Seconds the pawl holds, where it is not for good.
fn lets_go_after(part: &View<'_>) -> Option<f64> {
    let after = part.value("lets-go-after");
    (after > 0.0).then_some(after)
}
