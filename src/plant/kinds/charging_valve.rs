//! Gas charging valve with the direct-reading gauge.
//! A leak is told as the time in which the gas falls to 37 %; 0 means tight.

use crate::base::dimension::Dimension as D;
use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, port, usual};
use crate::plant::levels::Drive;
use crate::plant::view::View;

/// The kind `charging-valve`.
pub const KIND: Kind = Kind {
    name: "charging-valve",
    doc: "Gas charging valve with the direct-reading gauge.",
    ports: &[port("gas", P::Gas)],
    parameters: &[
        usual("gauge-error", F::Quantity(D::GaugePressure), 0.0),
        usual("gauge-offset", F::Quantity(D::GaugePressure), 0.0),
        usual("leak-time", F::Quantity(D::Time), 0.0),
    ],
    faults: &["leak", "gauge-drift", "core-loose"],
    hand: None,
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn drive(&self, part: &View<'_>, drive: &mut Drive<'_>) {
        let severity = part
            .now
            .severity("leak")
            .max(part.now.severity("core-loose"));
        let time = part.value("leak-time");
        if time > 0.0 && severity > 0.0 {
            drive.lose("gas", severity / time);
        }
    }
}
