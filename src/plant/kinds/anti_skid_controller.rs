//! Drives the anti-skid valves while rolling; off when parked.

use crate::plant::behaviour::Passive;
use crate::plant::kind::{Kind, PortType as P, open_port};

/// The kind `anti-skid-controller`.
pub const KIND: Kind = Kind {
    name: "anti-skid-controller",
    doc: "Drives the anti-skid valves while rolling; off when parked.",
    ports: &[open_port("feed", P::Electrical)],
    parameters: &[],
    faults: &["no-output"],
    hand: None,
    behaviour: &Passive,
};
