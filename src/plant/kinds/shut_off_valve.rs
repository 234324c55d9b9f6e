//! Valve that shuts the common return of the normal brakes when the brake is parked.
//! The open area of a ball part-way closed falls with the square of what is left of its way: invented.

use crate::base::dimension::Dimension as D;
use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, given, port, usual};
use crate::plant::levels::Drive;
use crate::plant::memory::Memory;
use crate::plant::physics::clearance::conductance;
use crate::plant::solver::law::Law;
use crate::plant::stamp::Stamp;
use crate::plant::view::View;

/// The kind `shut-off-valve`.
pub const KIND: Kind = Kind {
    name: "shut-off-valve",
    doc: "Valve that shuts the common return of the normal brakes when the brake is parked.",
    ports: &[
        port("in", P::Hydraulic),
        port("out", P::Hydraulic),
        port("shaft", P::Mechanical),
    ],
    parameters: &[
        given("closed-leak", F::Quantity(D::Flow)),
        usual("open-area", F::Quantity(D::Area), 1e-5),
        usual("seat-area", F::Quantity(D::Area), 0.0),
        usual("outside-leak", F::Quantity(D::Flow), 0.0),
    ],
    faults: &["jammed-open", "jammed-closed", "seat-leak", "shaft-leak"],
    hand: None,
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn begin(&self, part: &View<'_>, memory: &mut Memory) {
        memory.position = f64::from(u8::from(part.has("jammed-closed")));
    }

    fn drive(&self, part: &View<'_>, drive: &mut Drive<'_>) {
        if part.has("jammed-open") || part.has("jammed-closed") {
            drive.jam("shaft", part.memory.position);
        }
    }

    fn stamp(&self, part: &View<'_>, stamp: &mut Stamp<'_>) {
        let gap = 1.0 - part.memory.position;
        let area = part.value("open-area") * gap * gap + part.value("seat-area");
        let closed = Law::leak(conductance(part.value("closed-leak")));
        stamp.leak("in", "out", closed, "closed seat");
        if area > 0.0 {
            stamp.leak("in", "out", Law::Orifice(area), "seat");
        }
        let outside = part.value("outside-leak");
        if outside > 0.0 {
            stamp.spill("in", Law::leak(conductance(outside)), "shaft");
        }
    }

    fn advance(&self, part: &View<'_>, memory: &mut Memory, _seconds: f64) {
        if part.jammed("shaft").is_none() && part.joined("shaft") {
            memory.position = part.level("shaft");
        }
    }
}
