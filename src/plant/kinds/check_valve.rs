//! Lets fluid pass one way.

use crate::base::dimension::Dimension as D;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, optional, port};

/// The kind `check-valve`.
pub const KIND: Kind = Kind {
    name: "check-valve",
    doc: "Lets fluid pass one way.",
    ports: &[port("in", P::Hydraulic), port("out", P::Hydraulic)],
    parameters: &[
        optional("crack", F::Quantity(D::GaugePressure)),
        optional("reverse-leak", F::Quantity(D::Flow)),
    ],
    faults: &["reverse-leak", "stuck-open", "stuck-shut"],
};
