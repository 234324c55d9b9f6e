//! Flight-deck gauge of the transmitter; parks below its scale without power.

use crate::base::dimension::Dimension as D;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, optional, port};

/// The kind `indicator`.
pub const KIND: Kind = Kind {
    name: "indicator",
    doc: "Flight-deck gauge of the transmitter; parks below its scale without power.",
    ports: &[port("signal", P::Signal), port("feed", P::Electrical)],
    parameters: &[optional("error", F::Quantity(D::GaugePressure))],
    faults: &["dead", "sticky"],
};
