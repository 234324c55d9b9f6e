//! Opens above its cracking pressure; weeps a little.

use crate::base::dimension::Dimension as D;
use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, port, usual};
use crate::plant::physics::clearance::conductance;
use crate::plant::solver::law::Law;
use crate::plant::stamp::OPEN;
use crate::plant::stamp::Stamp;
use crate::plant::view::View;

/// The kind `relief-valve`.
pub const KIND: Kind = Kind {
    name: "relief-valve",
    doc: "Opens above its cracking pressure; weeps a little.",
    ports: &[port("in", P::Hydraulic), port("out", P::Hydraulic)],
    parameters: &[
        usual("crack", F::Quantity(D::GaugePressure), 241e5),
        usual("seat-leak", F::Quantity(D::Flow), 0.0),
    ],
    faults: &["weeps", "cracks-low"],
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
        let law = Law::OneWay {
            open: OPEN,
            crack: part.value("crack"),
            leak: conductance(part.value("seat-leak")),
        };
        stamp.leak("in", "out", law, "seat");
    }
}
