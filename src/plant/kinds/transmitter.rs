//! Turns gas pressure into a resistance.

use crate::base::dimension::Dimension as D;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, optional, port};

/// The kind `transmitter`.
pub const KIND: Kind = Kind {
    name: "transmitter",
    doc: "Turns gas pressure into a resistance.",
    ports: &[port("gas", P::Gas), port("signal", P::Signal)],
    parameters: &[
        optional("zero", F::Quantity(D::Resistance)),
        optional("error", F::Quantity(D::GaugePressure)),
    ],
    faults: &["reads-high", "reads-low", "open-circuit", "short-circuit"],
};
