//! Caption on the flight-deck display; needs the display powered.

use crate::plant::kind::{Kind, PortType as P, port};

/// The kind `display-caption`.
pub const KIND: Kind = Kind {
    name: "display-caption",
    doc: "Caption on the flight-deck display; needs the display powered.",
    ports: &[port("feed", P::Electrical)],
    parameters: &[],
    faults: &["input-dead"],
};
