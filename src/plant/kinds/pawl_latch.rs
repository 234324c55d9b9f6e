//! Holds the pedals down while the pawl is loaded; a harder press on the pedals lets it go.

use crate::plant::kind::{Kind, PortType as P, port};

/// The kind `pawl-latch`.
pub const KIND: Kind = Kind {
    name: "pawl-latch",
    doc: "Holds the pedals down while the pawl is loaded; a harder press on the pedals lets it go.",
    ports: &[
        port("lever", P::Mechanical),
        port("pedals", P::Mechanical),
        port("switch", P::Signal),
    ],
    parameters: &[],
    faults: &["pawl-worn", "spring-weak", "dirty"],
};
