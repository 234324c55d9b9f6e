//! Valve that shuts the common return of the normal brakes when the brake is parked.

use crate::base::dimension::Dimension as D;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, given, optional, port};

/// The kind `shut-off-valve`.
pub const KIND: Kind = Kind {
    name: "shut-off-valve",
    doc: "Valve that shuts the common return of the normal brakes when the brake is parked.",
    ports: &[
        port("in", P::Hydraulic),
        port("out", P::Hydraulic),
        port("shaft", P::Mechanical),
    ],
    parameters: &[
        given("closed-leak", F::Quantity(D::Flow)),
        optional("stroke", F::Quantity(D::Time)),
        optional("seat-area", F::Quantity(D::Area)),
    ],
    faults: &["jammed-open", "jammed-closed", "seat-leak", "shaft-leak"],
};
