//! Brake assembly.
//! Bedding and stiffness of the stack are those of the demo aircraft, invented.

use crate::base::dimension::Dimension as D;
use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, port, usual};
use crate::plant::physics::brake_stack::{Friction, Stack, holding_force};
use crate::plant::physics::clearance::conductance;
use crate::plant::solver::law::Law;
use crate::plant::solver::store::Store;
use crate::plant::stamp::Stamp;
use crate::plant::view::View;

/// The kind `brake`.
pub const KIND: Kind = Kind {
    name: "brake",
    doc: "Brake assembly.",
    ports: &[port("port", P::Hydraulic)],
    parameters: &[
        usual("piston-area", F::Quantity(D::Area), 58e-4),
        usual("clearance", F::Quantity(D::Length), 2.8e-3),
        usual("preload", F::Quantity(D::GaugePressure), 7e5),
        usual("contact", F::Quantity(D::GaugePressure), 10.5e5),
        usual("looks-clamped", F::Quantity(D::GaugePressure), 15e5),
        usual("hose-per-bar", F::Quantity(D::Volume), 0.015e-6),
        usual("friction", F::Number, 0.18),
        usual("faces", F::Number, 9.0),
        usual("mean-radius", F::Quantity(D::Length), 0.165),
        usual("tyre-radius", F::Quantity(D::Length), 0.56),
        usual("outside-leak", F::Quantity(D::Flow), 0.0),
    ],
    faults: &[
        "seal-leak",
        "adjuster-let-go",
        "return-spring-broken",
        "stack-stuck",
    ],
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
        stamp.store("port", Store::Brake(stack(part)));
        let leak = part.value("outside-leak");
        if leak > 0.0 {
            stamp.spill("port", Law::leak(conductance(leak)), "piston seal");
        }
    }
}

/// The stack of the brake.
pub fn stack(part: &View<'_>) -> Stack {
    let preload = if part.has("return-spring-broken") {
        0.0
    } else {
        part.value("preload")
    };
    Stack {
        area: part.value("piston-area"),
        clearance: part.value("clearance"),
        preload,
        contact: part.value("contact"),
        bedding: (2.9e-6, 40e5),
        slope: 0.0161e-6 / 1e5,
        hose: part.value("hose-per-bar") / 1e5,
    }
}

/// What turns the pressure of a brake into a force at its tyre.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Clamp {
    stack: Stack,
    friction: Friction,
    node: Option<usize>,
}

impl Clamp {
    /// Force in N that the brake holds at the tyre with the pressures of all nodes, Pa.
    pub fn holds(&self, pressures: &[f64]) -> f64 {
        let pressure = self.node.and_then(|node| pressures.get(node));
        holding_force(
            &self.stack,
            &self.friction,
            pressure.copied().unwrap_or(0.0),
        )
    }
}

/// How the brake clamps with its settings of now.
pub fn clamp(part: &View<'_>) -> Clamp {
    Clamp {
        stack: stack(part),
        friction: Friction {
            coefficient: part.value("friction"),
            faces: part.value("faces"),
            mean_radius: part.value("mean-radius"),
            tyre_radius: part.value("tyre-radius"),
        },
        node: part.node("port"),
    }
}

/// Whether it looks clamped from outside. A closed gap proves the contact pressure, not the grip;
/// the figure that is asked for lies a little above it.
pub fn looks_clamped(part: &View<'_>) -> bool {
    part.pressure("port") >= part.value("looks-clamped")
}
