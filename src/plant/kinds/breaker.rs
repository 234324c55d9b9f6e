//! Circuit breaker.

use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Hand, Kind, PortType as P, port};
use crate::plant::levels::Drive;
use crate::plant::view::View;

/// The kind `breaker`.
pub const KIND: Kind = Kind {
    name: "breaker",
    doc: "Circuit breaker.",
    ports: &[port("in", P::Electrical), port("out", P::Electrical)],
    parameters: &[],
    faults: &["open", "will-not-latch"],
    hand: Some(Hand {
        positions: &["in", "out"],
        follows: None,
    }),
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn drive(&self, part: &View<'_>, drive: &mut Drive<'_>) {
        if part.hand() == "in" && !part.has("open") && !part.has("will-not-latch") {
            drive.put("out", part.level("in"));
        }
    }
}
