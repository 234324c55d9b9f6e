//! Cam on the motor shaft with cut-out and signal contacts; reports the cam, not the valve.

use crate::plant::kind::{Kind, PortType as P, port};

/// The kind `limit-switches`.
pub const KIND: Kind = Kind {
    name: "limit-switches",
    doc: "Cam on the motor shaft with cut-out and signal contacts; reports the cam, not the valve.",
    ports: &[port("cam", P::Mechanical), port("closed", P::Signal)],
    parameters: &[],
    faults: &["closed-does-not-make", "closed-always-made", "cam-slipped"],
};
