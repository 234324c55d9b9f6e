//! Park relay: pulled in by the closed limit switch, two contacts.

use crate::plant::kind::{Kind, PortType as P, port};

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
};
