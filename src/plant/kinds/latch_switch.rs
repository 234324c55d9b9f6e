//! Tells the valve motor that the latch holds, or that it was let go.

use crate::plant::kind::{Kind, PortType as P, port};

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
};
