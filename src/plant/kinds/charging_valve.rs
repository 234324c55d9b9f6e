//! Gas charging valve with the direct-reading gauge.

use crate::base::dimension::Dimension as D;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, optional, port};

/// The kind `charging-valve`.
pub const KIND: Kind = Kind {
    name: "charging-valve",
    doc: "Gas charging valve with the direct-reading gauge.",
    ports: &[port("gas", P::Gas)],
    parameters: &[optional("gauge-error", F::Quantity(D::GaugePressure))],
    faults: &["leak", "gauge-drift", "core-loose"],
};
