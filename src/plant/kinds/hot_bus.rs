//! The hot battery bus: live whenever the battery is connected.

use crate::base::dimension::Dimension as D;
use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Hand, Kind, ParameterForm as F, PortType as P, given, port};
use crate::plant::levels::Drive;
use crate::plant::view::View;

/// The kind `hot-bus`.
pub const KIND: Kind = Kind {
    name: "hot-bus",
    doc: "The hot battery bus: live whenever the battery is connected.",
    ports: &[port("out", P::Electrical)],
    parameters: &[given("voltage", F::Quantity(D::Voltage))],
    faults: &["flat"],
    hand: Some(Hand {
        positions: &["connected", "disconnected"],
        follows: Some((
            "battery",
            &[
                ("connected-on", "connected"),
                ("connected-off", "connected"),
                ("disconnected", "disconnected"),
                ("on", "connected"),
                ("off", "connected"),
            ],
        )),
    }),
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn drive(&self, part: &View<'_>, drive: &mut Drive<'_>) {
        if part.hand() == "connected" && !part.has("flat") {
            drive.put("out", part.value("voltage"));
        }
    }
}
