//! Cable from the flight deck to the quadrant; loses travel as it stretches.
//! Stretch is a share of full travel; slack grows as it gets colder than 15 C.

use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, port, usual};
use crate::plant::levels::Drive;
use crate::plant::view::View;

/// The kind `cable-run`.
pub const KIND: Kind = Kind {
    name: "cable-run",
    doc: "Cable from the flight deck to the quadrant; loses travel as it stretches.",
    ports: &[port("in", P::Mechanical), port("out", P::Mechanical)],
    parameters: &[
        usual("stretch", F::Number, 0.0),
        usual("slack-per-degree", F::Number, 0.0),
    ],
    faults: &["stretched", "frayed", "off-pulley"],
    hand: None,
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn drive(&self, part: &View<'_>, drive: &mut Drive<'_>) {
        let cold = (288.15 - part.temperature).max(0.0);
        let lost = part.value("stretch") + part.value("slack-per-degree") * cold;
        drive.put("out", part.level("in") - lost);
    }
}
