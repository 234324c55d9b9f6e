//! Turns gas pressure into a resistance.
//! Law and sign are data: zero plus so many ohm per bar, or less so many where it falls.

use crate::base::dimension::Dimension as D;
use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, port, usual};
use crate::plant::levels::Drive;
use crate::plant::view::View;

/// The kind `transmitter`.
pub const KIND: Kind = Kind {
    name: "transmitter",
    doc: "Turns gas pressure into a resistance.",
    ports: &[port("gas", P::Gas), port("signal", P::Signal)],
    parameters: &[
        usual("zero", F::Quantity(D::Resistance), 150.0),
        usual("per-bar", F::Quantity(D::Resistance), 6.0),
        usual("falls-per-bar", F::Quantity(D::Resistance), 0.0),
        usual("error", F::Quantity(D::GaugePressure), 0.0),
        usual("offset", F::Quantity(D::GaugePressure), 0.0),
        usual("low-by", F::Quantity(D::GaugePressure), 0.0),
    ],
    faults: &[
        "reads-high",
        "reads-low",
        "open-circuit",
        "short-circuit",
        "wet-connector",
    ],
    hand: None,
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn drive(&self, part: &View<'_>, drive: &mut Drive<'_>) {
        if let Some(ohms) = resistance(part) {
            drive.put("signal", ohms);
        }
    }
}

/// Resistance at its connector, ohm; `None` where the circuit is open.
pub fn resistance(part: &View<'_>) -> Option<f64> {
    if part.has("open-circuit") {
        return None;
    }
    if part.has("short-circuit") {
        return Some(0.0);
    }
    let wrong_by = part.value("offset") - part.value("low-by");
    let bar = (part.level("gas") + wrong_by) / 1e5;
    let per_bar = part.value("per-bar") - part.value("falls-per-bar");
    Some(part.value("zero") + per_bar * bar)
}
