//! The hot battery bus: live whenever the battery is connected.

use crate::base::dimension::Dimension as D;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, given, port};

/// The kind `hot-bus`.
pub const KIND: Kind = Kind {
    name: "hot-bus",
    doc: "The hot battery bus: live whenever the battery is connected.",
    ports: &[port("out", P::Electrical)],
    parameters: &[given("voltage", F::Quantity(D::Voltage))],
    faults: &["flat"],
};
