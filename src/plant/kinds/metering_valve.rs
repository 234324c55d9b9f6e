//! Brake pressure by pedal travel, with feedback.

use crate::base::dimension::Dimension as D;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, optional, port};

/// The kind `metering-valve`.
pub const KIND: Kind = Kind {
    name: "metering-valve",
    doc: "Brake pressure by pedal travel, with feedback.",
    ports: &[
        port("supply", P::Hydraulic),
        port("brake", P::Hydraulic),
        port("return", P::Hydraulic),
        port("command", P::Mechanical),
    ],
    parameters: &[
        optional("wide-leak", F::Quantity(D::Flow)),
        optional("null-leak", F::Quantity(D::Flow)),
        optional("full-command", F::Quantity(D::GaugePressure)),
    ],
    faults: &[
        "spool-worn",
        "sticks-applied",
        "spring-broken",
        "leaks-outside",
    ],
};
