//! Brake assembly.

use crate::base::dimension::Dimension as D;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, optional, port};

/// The kind `brake`.
pub const KIND: Kind = Kind {
    name: "brake",
    doc: "Brake assembly.",
    ports: &[port("port", P::Hydraulic)],
    parameters: &[
        optional("piston-area", F::Quantity(D::Area)),
        optional("clearance", F::Quantity(D::Length)),
    ],
    faults: &[
        "seal-leak",
        "adjuster-let-go",
        "return-spring-broken",
        "stack-stuck",
    ],
};
