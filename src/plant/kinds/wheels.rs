//! Tyres on the ground, and the wind on what stands on them.
//! Rolling resistance is a share of the load: of the order of a public report on aeroplane tyres, value from memory.

use crate::base::dimension::Dimension as D;
use crate::plant::behaviour::Passive;
use crate::plant::kind::{Kind, ParameterForm as F, usual};

/// The kind `wheels`.
pub const KIND: Kind = Kind {
    name: "wheels",
    doc: "Tyres on the ground, and the wind on what stands on them.",
    ports: &[],
    parameters: &[
        usual("rolling", F::Number, 0.006),
        usual("drag-area", F::Quantity(D::Area), 24.0),
    ],
    faults: &["flat-spotted"],
    hand: None,
    behaviour: &Passive,
};
