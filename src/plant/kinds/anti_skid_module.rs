//! Anti-skid valves of one side; leak to their return through the nozzles.

use crate::base::dimension::Dimension as D;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, optional, port};

/// The kind `anti-skid-module`.
pub const KIND: Kind = Kind {
    name: "anti-skid-module",
    doc: "Anti-skid valves of one side; leak to their return through the nozzles.",
    ports: &[
        port("in", P::Hydraulic),
        port("out", P::Hydraulic),
        port("return", P::Hydraulic),
    ],
    parameters: &[optional("nozzle-leak", F::Quantity(D::Flow))],
    faults: &["leak-high", "valve-in-dump", "clogged"],
};
