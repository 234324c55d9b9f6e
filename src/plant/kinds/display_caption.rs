//! Caption on the flight-deck display; needs the display powered.

use crate::plant::behaviour::Passive;
use crate::plant::kind::{Hand, Kind, PortType as P, open_port, port};

/// The kind `display-caption`.
pub const KIND: Kind = Kind {
    name: "display-caption",
    doc: "Caption on the flight-deck display; needs the display powered.",
    ports: &[
        port("feed", P::Electrical),
        open_port("display", P::Electrical),
    ],
    parameters: &[],
    faults: &["input-dead"],
    hand: Some(Hand {
        positions: &["display-on", "display-off"],
        follows: None,
    }),
    behaviour: &Passive,
};
