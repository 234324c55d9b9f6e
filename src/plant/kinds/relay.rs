//! Park relay: pulled in by the closed limit switch, two contacts.

use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, PortType as P, port};
use crate::plant::levels::Drive;
use crate::plant::view::View;

/// The kind `relay`.
pub const KIND: Kind = Kind {
    name: "relay",
    doc: "Park relay: pulled in by the closed limit switch, two contacts.",
    ports: &[
        port("coil", P::Signal),
        port("feed", P::Electrical),
        port("light", P::Electrical),
        port("caption", P::Electrical),
    ],
    parameters: &[],
    faults: &["does-not-pull-in", "contacts-welded", "one-contact-open"],
    hand: None,
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn drive(&self, part: &View<'_>, drive: &mut Drive<'_>) {
        if pulled_in(part) || part.has("contacts-welded") {
            let feed = part.level("feed");
            if !part.has("one-contact-open") {
                drive.put("light", feed);
            }
            drive.put("caption", feed);
        }
    }

    fn mode(&self, part: &View<'_>) -> u8 {
        u8::from(pulled_in(part))
    }
}

/// Whether the coil holds the contacts: it needs the limit switch and enough volts.
pub fn pulled_in(part: &View<'_>) -> bool {
    part.live("feed") && part.level("coil") > 0.5 && !part.has("does-not-pull-in")
}
