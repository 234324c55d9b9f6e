//! Joins accumulator and supply; open by spring, shut by pilot pressure from either system.

use crate::base::dimension::Dimension as D;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, open_port, optional, port};

/// The kind `isolation-valve`.
pub const KIND: Kind = Kind {
    name: "isolation-valve",
    doc: "Joins accumulator and supply; open by spring, shut by pilot pressure from either system.",
    ports: &[
        port("accumulator", P::Hydraulic),
        port("supply", P::Hydraulic),
        open_port("pilot", P::Hydraulic),
        open_port("drain", P::Hydraulic),
    ],
    parameters: &[
        optional("seat-leak", F::Quantity(D::Flow)),
        optional("pilot-leak", F::Quantity(D::Flow)),
        optional("shuts-above", F::Quantity(D::GaugePressure)),
    ],
    faults: &["pilot-seal-leak", "stuck-shut", "stuck-open"],
};
