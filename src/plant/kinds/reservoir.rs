//! Reservoir with its sight glass.
//! How finely the glass can be read is data: a small reservoir tells a smaller change.

use crate::base::dimension::Dimension as D;
use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, port, usual};
use crate::plant::stamp::Stamp;
use crate::plant::view::View;

/// The kind `reservoir`.
pub const KIND: Kind = Kind {
    name: "reservoir",
    doc: "Reservoir with its sight glass.",
    ports: &[port("suction", P::Hydraulic), port("return", P::Hydraulic)],
    parameters: &[
        usual("level", F::Quantity(D::Volume), 0.0),
        usual("readable-to", F::Quantity(D::Volume), 0.4e-3),
    ],
    faults: &["gauge-drift", "leak"],
    hand: None,
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn only_stamps(&self) -> bool {
        true
    }

    fn holds(&self) -> &'static [&'static str] {
        &["suction", "return"]
    }

    fn stamp(&self, _part: &View<'_>, stamp: &mut Stamp<'_>) {
        stamp.pin("suction", 0.0, None);
        stamp.pin("return", 0.0, None);
    }
}
