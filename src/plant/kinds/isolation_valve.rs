//! Joins accumulator and supply; open by spring, shut by pilot pressure from either system.
//! `hardens` is how much the pilot seal leaks more for each kelvin below 0 C.

use crate::base::dimension::Dimension as D;
use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, open_port, port, usual};
use crate::plant::physics::clearance::conductance;
use crate::plant::solver::law::Law;
use crate::plant::stamp::OPEN;
use crate::plant::stamp::Stamp;
use crate::plant::view::View;

/// The kind `isolation-valve`.
pub const KIND: Kind = Kind {
    name: "isolation-valve",
    doc: "Joins accumulator and supply; open by spring, shut by pilot pressure from either system.",
    ports: &[
        port("accumulator", P::Hydraulic),
        port("supply", P::Hydraulic),
        open_port("pilot", P::Hydraulic),
        open_port("second-pilot", P::Hydraulic),
        open_port("drain", P::Hydraulic),
    ],
    parameters: &[
        usual("seat-leak", F::Quantity(D::Flow), 0.0),
        usual("pilot-leak", F::Quantity(D::Flow), 0.0),
        usual("hardens", F::Number, 0.0),
        usual("shuts-above", F::Quantity(D::GaugePressure), 55e5),
    ],
    faults: &["pilot-seal-leak", "stuck-shut", "stuck-open"],
    hand: None,
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn stamp(&self, part: &View<'_>, stamp: &mut Stamp<'_>) {
        if is_open(part) {
            stamp.serve("accumulator", "supply", Law::Passage(OPEN), "open");
        } else {
            let seat = Law::leak(conductance(part.value("seat-leak")));
            stamp.leak("accumulator", "supply", seat, "seat");
        }
        let pilot = Law::Leak {
            conductance: conductance(part.value("pilot-leak")),
            hardens: part.value("hardens"),
        };
        stamp.leak("accumulator", "drain", pilot, "pilot seal");
    }

    fn mode(&self, part: &View<'_>) -> u8 {
        u8::from(is_open(part))
    }
}

/// Whether the spring holds it open.
pub fn is_open(part: &View<'_>) -> bool {
    let pilot = part.pressure("pilot").max(part.pressure("second-pilot"));
    let sprung = pilot <= part.value("shuts-above");
    (sprung || part.has("stuck-open")) && !part.has("stuck-shut")
}
