//! A lamp.

use crate::plant::behaviour::Passive;
use crate::plant::kind::{Kind, PortType as P, port};

/// The kind `indicator-light`.
pub const KIND: Kind = Kind {
    name: "indicator-light",
    doc: "A lamp.",
    ports: &[port("feed", P::Electrical)],
    parameters: &[],
    faults: &["open"],
    hand: None,
    behaviour: &Passive,
};
