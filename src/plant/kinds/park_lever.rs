//! The lever that raises the pawl.

use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Hand, Kind, PortType as P, port};
use crate::plant::levels::Drive;
use crate::plant::view::View;

/// The kind `park-lever`.
pub const KIND: Kind = Kind {
    name: "park-lever",
    doc: "The lever that raises the pawl.",
    ports: &[port("pawl", P::Mechanical)],
    parameters: &[],
    faults: &["rod-broken"],
    hand: Some(Hand {
        positions: &["down", "up"],
        follows: Some(("lever", &[("down", "down"), ("up", "up")])),
    }),
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn drive(&self, part: &View<'_>, drive: &mut Drive<'_>) {
        let up = part.hand() == "up" && !part.has("rod-broken");
        drive.put("pawl", f64::from(u8::from(up)));
    }
}
