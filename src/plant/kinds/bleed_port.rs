//! Bleed or test port: a gauge can be put on it.

use crate::base::dimension::Dimension as D;
use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, port, usual};
use crate::plant::physics::clearance::conductance;
use crate::plant::solver::law::Law;
use crate::plant::stamp::Stamp;
use crate::plant::view::View;

/// The kind `bleed-port`.
pub const KIND: Kind = Kind {
    name: "bleed-port",
    doc: "Bleed or test port: a gauge can be put on it.",
    ports: &[port("fluid", P::Hydraulic)],
    parameters: &[usual("outside-leak", F::Quantity(D::Flow), 0.0)],
    faults: &["left-loose"],
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
        let leak = part.value("outside-leak");
        if leak > 0.0 {
            stamp.spill("fluid", Law::leak(conductance(leak)), "port");
        }
    }
}
