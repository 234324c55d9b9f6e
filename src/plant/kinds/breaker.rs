//! Circuit breaker of the park valve.

use crate::plant::kind::{Kind, PortType as P, port};

/// The kind `breaker`.
pub const KIND: Kind = Kind {
    name: "breaker",
    doc: "Circuit breaker of the park valve.",
    ports: &[port("in", P::Electrical), port("out", P::Electrical)],
    parameters: &[],
    faults: &["open", "will-not-latch"],
};
