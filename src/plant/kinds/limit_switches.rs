//! Cam on the motor shaft with cut-out and signal contacts; reports the cam, not the valve.
//! The motor has a cut-out contact of its own: a signal contact that does not make leaves the motor
//! running as it should. A contact that is always made takes both.

use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, open_port, port, usual};
use crate::plant::levels::Drive;
use crate::plant::view::View;

/// The kind `limit-switches`.
pub const KIND: Kind = Kind {
    name: "limit-switches",
    doc: "Cam on the motor shaft with cut-out and signal contacts; reports the cam, not the valve.",
    ports: &[
        port("cam", P::Mechanical),
        port("closed", P::Signal),
        open_port("cut-close", P::Signal),
        open_port("cut-open", P::Signal),
    ],
    parameters: &[usual("slip", F::Number, 0.0)],
    faults: &["closed-does-not-make", "closed-always-made", "cam-slipped"],
    hand: None,
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn drive(&self, part: &View<'_>, drive: &mut Drive<'_>) {
        let always = part.has("closed-always-made");
        let threshold = if always {
            0.0
        } else {
            1.0 - part.value("slip")
        };
        drive.put("cut-close", 1.0 + threshold);
        drive.put("cut-open", 1.0);
        let made = part.level("cam") >= threshold - 1e-9;
        if made && !part.has("closed-does-not-make") {
            drive.put("closed", 1.0);
        }
    }
}
