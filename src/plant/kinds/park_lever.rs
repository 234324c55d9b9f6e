//! The lever that raises the pawl.

use crate::plant::kind::{Kind, PortType as P, port};

/// The kind `park-lever`.
pub const KIND: Kind = Kind {
    name: "park-lever",
    doc: "The lever that raises the pawl.",
    ports: &[port("pawl", P::Mechanical)],
    parameters: &[],
    faults: &["rod-broken"],
};
