//! Drives the shut-off valve one way or the other and stays put without power.
//! The cut signals carry 1 plus the travel at which the limit switch takes the motor off; an
//! open port leaves the motor to its end stops.

use crate::base::dimension::Dimension as D;
use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, open_port, port, usual};
use crate::plant::levels::Drive;
use crate::plant::memory::Memory;
use crate::plant::view::View;

/// The kind `valve-motor`.
pub const KIND: Kind = Kind {
    name: "valve-motor",
    doc: "Drives the shut-off valve one way or the other and stays put without power.",
    ports: &[
        port("close", P::Electrical),
        port("open", P::Electrical),
        port("shaft", P::Mechanical),
        port("cam", P::Mechanical),
        open_port("cut-close", P::Signal),
        open_port("cut-open", P::Signal),
    ],
    parameters: &[usual("stroke", F::Quantity(D::Time), 3.0)],
    faults: &["open-circuit", "short-circuit", "gearbox-slips"],
    hand: None,
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn drive(&self, part: &View<'_>, drive: &mut Drive<'_>) {
        drive.put("cam", part.memory.position);
        if !part.has("gearbox-slips") {
            drive.put("shaft", part.memory.position);
        }
    }

    fn advance(&self, part: &View<'_>, memory: &mut Memory, seconds: f64) {
        // A jammed valve holds motor and cam where it is.
        let jam = part.jammed("shaft");
        if let Some(position) = jam {
            memory.position = position;
        }
        let Some((way, stop)) = running(part) else {
            return;
        };
        if jam.is_some() {
            memory.stalled[way] += seconds;
            return;
        }
        let stroke = part.value("stroke").max(1e-3);
        let left = (stop - memory.position).abs() * stroke;
        let ran = seconds.min(left);
        let direction = if way == 0 { 1.0 } else { -1.0 };
        memory.ran[way] += ran;
        memory.position = if ran >= left {
            stop
        } else {
            memory.position + direction * ran / stroke
        };
    }

    fn alarm(&self, part: &View<'_>) -> Option<f64> {
        let (_, stop) = running(part)?;
        let left = (stop - part.memory.position).abs() * part.value("stroke");
        (part.jammed("shaft").is_none() && left > 0.0).then_some(left.max(1e-3))
    }
}

/// Which way the motor runs (0 closes, 1 opens) and where it stops; `None` while it stands.
fn running(part: &View<'_>) -> Option<(usize, f64)> {
    if part.has("open-circuit") || part.has("short-circuit") {
        return None;
    }
    let cut = |port: &str, end: f64| {
        let level = part.level(port);
        if level > 0.0 { level - 1.0 } else { end }
    };
    let position = part.memory.position;
    let (close, open) = (cut("cut-close", 1.0), cut("cut-open", 0.0));
    if part.live("close") && !part.live("open") && position < close {
        Some((0, close))
    } else if part.live("open") && !part.live("close") && position > open {
        Some((1, open))
    } else {
        None
    }
}
