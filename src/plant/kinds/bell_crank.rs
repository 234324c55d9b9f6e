//! Turns pedal travel into cable travel.

use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, port, usual};
use crate::plant::levels::Drive;
use crate::plant::view::View;

/// The kind `bell-crank`.
pub const KIND: Kind = Kind {
    name: "bell-crank",
    doc: "Turns pedal travel into cable travel.",
    ports: &[port("in", P::Mechanical), port("out", P::Mechanical)],
    parameters: &[
        usual("ratio", F::Number, 1.0),
        usual("play", F::Number, 0.0),
    ],
    faults: &["worn", "bolt-lost"],
    hand: None,
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn drive(&self, part: &View<'_>, drive: &mut Drive<'_>) {
        if !part.has("bolt-lost") {
            drive.put(
                "out",
                part.level("in") * part.value("ratio") - part.value("play"),
            );
        }
    }
}
