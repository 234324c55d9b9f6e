//! Lets fluid pass one way.

use crate::base::dimension::Dimension as D;
use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, port, usual};
use crate::plant::physics::clearance::conductance;
use crate::plant::solver::law::Law;
use crate::plant::stamp::OPEN;
use crate::plant::stamp::Stamp;
use crate::plant::view::View;

/// The kind `check-valve`.
pub const KIND: Kind = Kind {
    name: "check-valve",
    doc: "Lets fluid pass one way.",
    ports: &[port("in", P::Hydraulic), port("out", P::Hydraulic)],
    parameters: &[
        usual("crack", F::Quantity(D::GaugePressure), 0.3e5),
        usual("reverse-leak", F::Quantity(D::Flow), 0.0),
    ],
    faults: &["reverse-leak", "stuck-open", "stuck-shut"],
    hand: None,
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn only_stamps(&self) -> bool {
        true
    }

    fn stamp(&self, part: &View<'_>, stamp: &mut Stamp<'_>) {
        let leak = conductance(part.value("reverse-leak"));
        if part.has("stuck-open") {
            stamp.serve("in", "out", Law::Passage(OPEN), "stuck open");
            return;
        }
        // Forward flow serves; what seeps back is a leak, and is shown as one.
        if !part.has("stuck-shut") {
            let law = Law::OneWay {
                open: OPEN,
                crack: part.value("crack"),
                leak: 0.0,
            };
            stamp.serve("in", "out", law, "forward");
        }
        stamp.leak("out", "in", Law::leak(leak), "back");
    }
}
