//! Ties the battery bus to the hot battery bus.

use crate::plant::kind::{Kind, PortType as P, port};

/// The kind `battery-switch`.
pub const KIND: Kind = Kind {
    name: "battery-switch",
    doc: "Ties the battery bus to the hot battery bus.",
    ports: &[port("in", P::Electrical), port("out", P::Electrical)],
    parameters: &[],
    faults: &["contact-open"],
};
