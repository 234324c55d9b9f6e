//! Pump with its pressure module.

use crate::base::dimension::Dimension as D;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, given, optional, port};

/// The kind `pump`.
pub const KIND: Kind = Kind {
    name: "pump",
    doc: "Pump with its pressure module.",
    ports: &[port("suction", P::Hydraulic), port("out", P::Hydraulic)],
    parameters: &[
        given("pressure", F::Quantity(D::GaugePressure)),
        optional("run-down", F::Quantity(D::Time)),
    ],
    faults: &["no-output", "low-pressure"],
};
