//! Gas over fluid behind a floating piston.

use crate::base::dimension::Dimension as D;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, given, optional, port};

/// The kind `accumulator`.
pub const KIND: Kind = Kind {
    name: "accumulator",
    doc: "Gas over fluid behind a floating piston.",
    ports: &[port("fluid", P::Hydraulic), port("gas", P::Gas)],
    parameters: &[
        given("gas-volume", F::Quantity(D::Volume)),
        optional("stroke", F::Quantity(D::Volume)),
        given("precharge", F::AtTemperature(D::GaugePressure)),
    ],
    faults: &[
        "gas-low",
        "gas-lost",
        "piston-seal",
        "overcharged",
        "piston-jammed",
    ],
};
