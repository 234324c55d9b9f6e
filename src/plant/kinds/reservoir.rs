//! Reservoir with its sight glass.

use crate::base::dimension::Dimension as D;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, optional, port};

/// The kind `reservoir`.
pub const KIND: Kind = Kind {
    name: "reservoir",
    doc: "Reservoir with its sight glass.",
    ports: &[port("suction", P::Hydraulic), port("return", P::Hydraulic)],
    parameters: &[optional("level", F::Quantity(D::Volume))],
    faults: &["gauge-drift", "leak"],
};
