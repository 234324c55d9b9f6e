//! Both seats' pedals with their cross-rods: foot effort in, travel to the left and right valves out.

use crate::plant::kind::{Kind, PortType as P, port};

/// The kind `pedals`.
pub const KIND: Kind = Kind {
    name: "pedals",
    doc: "Both seats' pedals with their cross-rods: foot effort in, travel to the left and right valves out.",
    ports: &[
        port("latch", P::Mechanical),
        port("left", P::Mechanical),
        port("right", P::Mechanical),
    ],
    parameters: &[],
    faults: &["pivot-seized", "return-spring-broken", "cross-rod-detached"],
};
