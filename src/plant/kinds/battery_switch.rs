//! Ties the battery bus to the hot battery bus.

use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Hand, Kind, PortType as P, port};
use crate::plant::levels::Drive;
use crate::plant::view::View;

/// The kind `battery-switch`.
pub const KIND: Kind = Kind {
    name: "battery-switch",
    doc: "Ties the battery bus to the hot battery bus.",
    ports: &[port("in", P::Electrical), port("out", P::Electrical)],
    parameters: &[],
    faults: &["contact-open"],
    hand: Some(Hand {
        positions: &["off", "on"],
        follows: Some((
            "battery",
            &[
                ("connected-on", "on"),
                ("connected-off", "off"),
                ("disconnected", "off"),
                ("on", "on"),
                ("off", "off"),
            ],
        )),
    }),
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn drive(&self, part: &View<'_>, drive: &mut Drive<'_>) {
        if part.hand() == "on" && !part.has("contact-open") {
            drive.put("out", part.level("in"));
        }
    }
}
