//! Wire with its connectors.

use crate::base::dimension::Dimension as D;
use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, port, usual};
use crate::plant::levels::Drive;
use crate::plant::view::View;

/// The kind `wire`.
pub const KIND: Kind = Kind {
    name: "wire",
    doc: "Wire with its connectors.",
    ports: &[port("in", P::Electrical), port("out", P::Electrical)],
    parameters: &[usual("drop", F::Quantity(D::Voltage), 0.0)],
    faults: &["open", "high-resistance", "wet"],
    hand: None,
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn drive(&self, part: &View<'_>, drive: &mut Drive<'_>) {
        if !part.has("open") {
            drive.put("out", part.level("in") - part.value("drop"));
        }
    }
}
