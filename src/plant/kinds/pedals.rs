//! Pedals of one seat, left and right.

use crate::base::dimension::Dimension as D;
use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, port, usual};
use crate::plant::levels::Drive;
use crate::plant::view::View;

/// The kind `pedals`.
pub const KIND: Kind = Kind {
    name: "pedals",
    doc: "Pedals of one seat, left and right.",
    ports: &[port("left", P::Mechanical), port("right", P::Mechanical)],
    parameters: &[usual("spring", F::Quantity(D::Force), 60.0)],
    faults: &["pivot-seized", "return-spring-broken"],
    hand: None,
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn drive(&self, part: &View<'_>, drive: &mut Drive<'_>) {
        // A seized pivot holds its pedals where the springs left them.
        if part.has("pivot-seized") {
            return;
        }
        let [left, right] = part.now.feet;
        drive.put("left", left);
        drive.put("right", right);
    }
}
