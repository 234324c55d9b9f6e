//! Ground power on the main bus, and on the battery bus while the battery switch is on.

use crate::base::dimension::Dimension as D;
use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Hand, Kind, ParameterForm as F, PortType as P, port, usual};
use crate::plant::levels::Drive;
use crate::plant::view::View;

/// The kind `external-power`.
pub const KIND: Kind = Kind {
    name: "external-power",
    doc: "Ground power on the main bus, and on the battery bus while the battery switch is on.",
    ports: &[port("bus", P::Electrical)],
    parameters: &[usual("voltage", F::Quantity(D::Voltage), 28.0)],
    faults: &["dead"],
    hand: Some(Hand {
        positions: &["none", "external"],
        follows: Some(("power", &[("none", "none"), ("external", "external")])),
    }),
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn drive(&self, part: &View<'_>, drive: &mut Drive<'_>) {
        if part.hand() == "external" && !part.has("dead") {
            drive.put("bus", part.value("voltage"));
        }
    }
}
