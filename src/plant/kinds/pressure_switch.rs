//! Makes its contact above a pressure.

use crate::base::dimension::Dimension as D;
use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, port, usual};
use crate::plant::levels::Drive;
use crate::plant::view::View;

/// The kind `pressure-switch`.
pub const KIND: Kind = Kind {
    name: "pressure-switch",
    doc: "Makes its contact above a pressure.",
    ports: &[port("fluid", P::Hydraulic), port("out", P::Signal)],
    parameters: &[usual("makes-above", F::Quantity(D::GaugePressure), 100e5)],
    faults: &["drifted", "does-not-make"],
    hand: None,
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn drive(&self, part: &View<'_>, drive: &mut Drive<'_>) {
        if part.pressure("fluid") > part.value("makes-above") && !part.has("does-not-make") {
            drive.put("out", 1.0);
        }
    }
}
