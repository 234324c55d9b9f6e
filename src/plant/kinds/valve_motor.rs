//! Drives the shut-off valve one way or the other and stays put without power.

use crate::plant::kind::{Kind, PortType as P, port};

/// The kind `valve-motor`.
pub const KIND: Kind = Kind {
    name: "valve-motor",
    doc: "Drives the shut-off valve one way or the other and stays put without power.",
    ports: &[
        port("close", P::Electrical),
        port("open", P::Electrical),
        port("shaft", P::Mechanical),
        port("cam", P::Mechanical),
    ],
    parameters: &[],
    faults: &["open-circuit", "short-circuit", "gearbox-slips"],
};
