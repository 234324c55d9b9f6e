//! Joins the pedals of both seats on one side.

use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, port, usual};
use crate::plant::levels::Drive;
use crate::plant::view::View;

/// The kind `cross-rod`.
pub const KIND: Kind = Kind {
    name: "cross-rod",
    doc: "Joins the pedals of both seats on one side.",
    ports: &[port("first", P::Mechanical), port("second", P::Mechanical)],
    parameters: &[usual("slack", F::Number, 0.0)],
    faults: &["detached", "bent"],
    hand: None,
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn drive(&self, part: &View<'_>, drive: &mut Drive<'_>) {
        if part.has("detached") {
            return;
        }
        let slack = part.value("slack");
        drive.put("second", part.level("first") - slack);
        drive.put("first", part.level("second") - slack);
    }
}
