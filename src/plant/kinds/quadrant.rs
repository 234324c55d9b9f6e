//! Takes both cables and drives the valves of both supplies.

use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, port, usual};
use crate::plant::levels::Drive;
use crate::plant::view::View;

/// The kind `quadrant`.
pub const KIND: Kind = Kind {
    name: "quadrant",
    doc: "Takes both cables and drives the valves of both supplies.",
    ports: &[
        port("left", P::Mechanical),
        port("right", P::Mechanical),
        port("left-out", P::Mechanical),
        port("right-out", P::Mechanical),
    ],
    parameters: &[usual("out-of-rig", F::Number, 0.0)],
    faults: &["out-of-rig", "stop-moved"],
    hand: None,
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn drive(&self, part: &View<'_>, drive: &mut Drive<'_>) {
        let lost = part.value("out-of-rig");
        drive.put("left-out", part.level("left") - lost);
        drive.put("right-out", part.level("right") - lost);
    }
}
