//! Anti-skid valves of one side; leak to their return through the nozzles.
//! One nozzle for each valve. A valve stuck in dump cuts its brake off from the metered side and
//! joins it to the return, so that a parked brake is filled again from the blocked return.

use crate::base::dimension::Dimension as D;
use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, open_port, port, usual};
use crate::plant::solver::law::Law;
use crate::plant::stamp::OPEN;
use crate::plant::stamp::Stamp;
use crate::plant::view::View;

/// The kind `anti-skid-module`.
pub const KIND: Kind = Kind {
    name: "anti-skid-module",
    doc: "Anti-skid valves of one side; leak to their return through the nozzles.",
    ports: &[
        port("in", P::Hydraulic),
        port("out-1", P::Hydraulic),
        open_port("out-2", P::Hydraulic),
        open_port("out-3", P::Hydraulic),
        open_port("out-4", P::Hydraulic),
        port("return", P::Hydraulic),
    ],
    parameters: &[
        usual("nozzle-area", F::Quantity(D::Area), 5e-9),
        usual("dumped-valve", F::Number, 0.0),
    ],
    faults: &["leak-high", "valve-in-dump", "clogged"],
    hand: None,
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

const OUTS: [&str; 4] = ["out-1", "out-2", "out-3", "out-4"];

impl Behaviour for Works {
    fn only_stamps(&self) -> bool {
        true
    }

    fn stamp(&self, part: &View<'_>, stamp: &mut Stamp<'_>) {
        let area = part.value("nozzle-area");
        let dumped = part.value("dumped-valve");
        let joined: Vec<&str> = OUTS.into_iter().filter(|out| part.joined(out)).collect();
        let valves = u32::try_from(joined.len()).unwrap_or(0);
        stamp.leak(
            "in",
            "return",
            Law::Orifice(area * f64::from(valves)),
            "nozzles",
        );
        for (number, out) in (1_u8..).zip(joined) {
            if (f64::from(number) - dumped).abs() < 0.5 {
                stamp.leak(out, "return", Law::Passage(OPEN), "dump");
            } else {
                stamp.serve("in", out, Law::Passage(OPEN), "to brake");
            }
        }
    }
}
