//! Line, hose or fitting: the fluid in it, and what comes out of it.
//! Air is told as its volume at one atmosphere.

use crate::base::dimension::Dimension as D;
use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, given, port, usual};
use crate::plant::physics::clearance::conductance;
use crate::plant::solver::law::Law;
use crate::plant::solver::store::Store;
use crate::plant::stamp::Stamp;
use crate::plant::view::View;

/// The kind `line`.
pub const KIND: Kind = Kind {
    name: "line",
    doc: "Line, hose or fitting: the fluid in it, and what comes out of it.",
    ports: &[port("fluid", P::Hydraulic)],
    parameters: &[
        given("volume", F::Quantity(D::Volume)),
        usual("air", F::Quantity(D::Volume), 0.0),
        usual("swell-per-bar", F::Quantity(D::Volume), 0.0),
        usual("outside-leak", F::Quantity(D::Flow), 0.0),
        usual("burst-area", F::Quantity(D::Area), 0.0),
    ],
    faults: &["fitting-weeps", "hose-swells", "air-in", "burst"],
    hand: None,
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

impl Behaviour for Works {
    fn only_stamps(&self) -> bool {
        true
    }

    fn stamp(&self, part: &View<'_>, stamp: &mut Stamp<'_>) {
        let line = Store::Line {
            volume: part.value("volume"),
            bulk_modulus: part.fluid.bulk_modulus,
            expansion: part.fluid.expansion,
            swelling: part.value("swell-per-bar") / 1e5,
        };
        stamp.store("fluid", line);
        let air = part.value("air");
        if air > 0.0 {
            stamp.store("fluid", Store::Air(air));
        }
        let leak = part.value("outside-leak");
        if leak > 0.0 {
            stamp.spill("fluid", Law::leak(conductance(leak)), "fitting");
        }
        let burst = part.value("burst-area");
        if burst > 0.0 {
            stamp.spill("fluid", Law::Orifice(burst), "burst");
        }
    }
}
