//! Brake pressure by pedal travel, with feedback.
//! Supply at or above the command: it regulates about its null, and half the null leak is drawn
//! from the supply. Supply below the command, as in every parked aircraft: wide open, and the lap
//! leaks little. Released: the brake is open to return. A worn spool leaks by its whole figure from
//! brake to return and by half of it from supply to brake. `feel` is pedal effort in N per bar.

use crate::base::dimension::Dimension as D;
use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, port, usual};
use crate::plant::physics::clearance::conductance;
use crate::plant::physics::metering;
use crate::plant::solver::law::Law;
use crate::plant::stamp::OPEN;
use crate::plant::stamp::Stamp;
use crate::plant::view::View;

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
        usual("wide-leak", F::Quantity(D::Flow), 0.0),
        usual("null-leak", F::Quantity(D::Flow), 0.0),
        usual("worn-leak", F::Quantity(D::Flow), 0.0),
        usual("full-command", F::Quantity(D::GaugePressure), 212e5),
        usual("sticks-at", F::Quantity(D::GaugePressure), 0.0),
        usual("outside-leak", F::Quantity(D::Flow), 0.0),
        usual("feel", F::Number, 1.15),
    ],
    faults: &[
        "spool-worn",
        "sticks-applied",
        "spring-broken",
        "leaks-outside",
    ],
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
        let command = command(part);
        let flow = |name: &str| conductance(part.value(name));
        let (wide, null, worn) = (flow("wide-leak"), flow("null-leak"), flow("worn-leak"));
        let applied = command > 0.0;
        let land = if applied { 0.5 * null } else { wide };
        let land = land + 0.5 * worn;
        if applied {
            let law = Law::MeterIn {
                command,
                open: OPEN,
                land,
            };
            stamp.serve("supply", "brake", law, "supply to brake");
        } else {
            // A released spool opens nothing, even for a brake line that shrinks below the air.
            stamp.leak("supply", "brake", Law::leak(land), "supply to brake");
        }
        let law = if applied {
            Law::MeterOut {
                command,
                open: OPEN,
                wide: wide + worn,
                null: null + worn,
            }
        } else {
            Law::Passage(OPEN)
        };
        stamp.leak("brake", "return", law, "brake to return");
        let outside = flow("outside-leak");
        if outside > 0.0 {
            stamp.spill("supply", Law::leak(outside), "outside");
        }
    }
}

/// What the pedal asks for, Pa.
pub fn pedal_command(part: &View<'_>) -> f64 {
    metering::command(part.level("command"), part.value("full-command"))
}

/// What the valve gives, Pa: a spool that sticks gives something after release.
pub fn command(part: &View<'_>) -> f64 {
    pedal_command(part).max(part.value("sticks-at"))
}
