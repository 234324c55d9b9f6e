//! Lets the second supply in while the main one is low.

use crate::base::dimension::Dimension as D;
use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, port, usual};
use crate::plant::physics::clearance::conductance;
use crate::plant::solver::law::Law;
use crate::plant::stamp::OPEN;
use crate::plant::stamp::Stamp;
use crate::plant::view::View;

/// The kind `supply-changer`.
pub const KIND: Kind = Kind {
    name: "supply-changer",
    doc: "Lets the second supply in while the main one is low.",
    ports: &[
        port("in", P::Hydraulic),
        port("out", P::Hydraulic),
        port("pilot", P::Hydraulic),
    ],
    parameters: &[
        usual("opens-below", F::Quantity(D::GaugePressure), 100e5),
        usual("seat-leak", F::Quantity(D::Flow), 0.0),
    ],
    faults: &["stuck-shut", "stuck-open"],
    hand: None,
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn stamp(&self, part: &View<'_>, stamp: &mut Stamp<'_>) {
        if is_open(part) {
            stamp.serve("in", "out", Law::Passage(OPEN), "open");
        } else {
            let seat = Law::leak(conductance(part.value("seat-leak")));
            stamp.leak("in", "out", seat, "seat");
        }
    }

    fn mode(&self, part: &View<'_>) -> u8 {
        u8::from(is_open(part))
    }
}

fn is_open(part: &View<'_>) -> bool {
    let low = part.pressure("pilot") < part.value("opens-below");
    (low || part.has("stuck-open")) && !part.has("stuck-shut")
}
