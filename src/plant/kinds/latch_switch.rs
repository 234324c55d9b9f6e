//! Tells the valve motor that the latch holds, or that it was let go.

use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, PortType as P, port};
use crate::plant::levels::Drive;
use crate::plant::view::View;

/// The kind `latch-switch`.
pub const KIND: Kind = Kind {
    name: "latch-switch",
    doc: "Tells the valve motor that the latch holds, or that it was let go.",
    ports: &[
        port("latch", P::Signal),
        port("feed", P::Electrical),
        port("set", P::Electrical),
        port("released", P::Electrical),
    ],
    parameters: &[],
    faults: &["open-in-set", "stuck-in-set", "mis-set"],
    hand: None,
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn drive(&self, part: &View<'_>, drive: &mut Drive<'_>) {
        let holds = part.level("latch") > 0.5;
        let set = (holds || part.has("stuck-in-set")) && !part.has("mis-set");
        if set && !part.has("open-in-set") {
            drive.put("set", part.level("feed"));
        }
        if !set {
            drive.put("released", part.level("feed"));
        }
    }
}
