//! Flight-deck gauge of the transmitter; parks below its scale without power.

use crate::base::dimension::Dimension as D;
use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, port, usual};
use crate::plant::memory::Memory;
use crate::plant::view::View;

/// The kind `indicator`.
pub const KIND: Kind = Kind {
    name: "indicator",
    doc: "Flight-deck gauge of the transmitter; parks below its scale without power.",
    ports: &[port("signal", P::Signal), port("feed", P::Electrical)],
    parameters: &[
        usual("error", F::Quantity(D::GaugePressure), 0.0),
        usual("zero", F::Quantity(D::Resistance), 150.0),
        usual("per-bar", F::Quantity(D::Resistance), 6.0),
        usual("falls-per-bar", F::Quantity(D::Resistance), 0.0),
    ],
    faults: &["dead", "sticky"],
    hand: None,
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn advance(&self, part: &View<'_>, memory: &mut Memory, _seconds: f64) {
        if !part.has("sticky") {
            memory.stuck_reading = None;
        } else if memory.stuck_reading.is_none() {
            memory.stuck_reading = reading(part, part.level("signal"));
        }
    }
}

/// What the pointer shows for a resistance, Pa; `None` while it is parked below the scale.
pub fn reading(part: &View<'_>, ohms: f64) -> Option<f64> {
    let per_bar = part.value("per-bar") - part.value("falls-per-bar");
    if !part.live("feed") || part.has("dead") || ohms <= 0.0 || per_bar.abs() < f64::EPSILON {
        return None;
    }
    let shown = part.memory.stuck_reading;
    Some(shown.unwrap_or((ohms - part.value("zero")) / per_bar * 1e5))
}
