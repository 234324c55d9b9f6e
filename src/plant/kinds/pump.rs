//! Pump with its pressure module.
//! Off, its side falls with a time constant into its reservoir, as system leakage makes it; what
//! flows back into it goes to that reservoir too.

use crate::base::dimension::Dimension as D;
use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Hand, Kind, ParameterForm as F, PortType as P, given, port, usual};
use crate::plant::memory::Memory;
use crate::plant::stamp::Stamp;
use crate::plant::view::View;

/// The kind `pump`.
pub const KIND: Kind = Kind {
    name: "pump",
    doc: "Pump with its pressure module.",
    ports: &[port("suction", P::Hydraulic), port("out", P::Hydraulic)],
    parameters: &[
        given("pressure", F::Quantity(D::GaugePressure)),
        usual("run-down", F::Quantity(D::Time), 0.0),
    ],
    faults: &["no-output", "low-pressure"],
    hand: Some(Hand {
        positions: &["off", "on"],
        follows: Some(("pumps", &[("off", "off"), ("on", "on")])),
    }),
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn holds(&self) -> &'static [&'static str] {
        &["out"]
    }

    fn stamps_every_step(&self) -> bool {
        true
    }

    fn stamp(&self, part: &View<'_>, stamp: &mut Stamp<'_>) {
        if runs(part) {
            stamp.pin("out", part.value("pressure"), None);
        } else {
            stamp.pin("out", part.memory.pressure, Some(part.value("run-down")));
        }
    }

    fn advance(&self, part: &View<'_>, memory: &mut Memory, seconds: f64) {
        let tau = part.value("run-down");
        memory.pressure = if runs(part) {
            part.value("pressure")
        } else if tau > 0.0 {
            memory.pressure * (-seconds / tau).exp()
        } else {
            0.0
        };
    }

    fn mode(&self, part: &View<'_>) -> u8 {
        u8::from(runs(part))
    }
}

/// Whether it gives pressure.
fn runs(part: &View<'_>) -> bool {
    part.hand() == "on" && !part.has("no-output")
}
