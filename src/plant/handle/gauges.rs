//! What can be read inside the plant: pressures, flows, the fluid account, the ground.

use super::Handle;
use crate::base::pressure::GaugePressure;
use crate::plant::account::Balance;
use crate::plant::ground::Ground;
use crate::plant::physics::gas_charge::GasCharge;
use crate::plant::physics::holding::Motion;

/// A flow through a part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Passing {
    /// The part, by its place.
    pub part: usize,
    /// Which way through it, in words.
    pub way: &'static str,
    /// Whether the way is there to pass fluid on, and not a leak or a return.
    pub serves: bool,
    /// Nodes at its ends.
    pub ends: (usize, usize),
    /// m3/s from the first end to the second.
    pub flow: f64,
    /// Gauge pressures at its ends, Pa.
    pub pressures: (f64, f64),
}

impl Passing {
    /// Whether another flow goes the same way through the same part.
    pub fn is_same_way(&self, other: &Self) -> bool {
        (self.part, self.way, self.ends) == (other.part, other.way, other.ends)
    }
}

impl Handle {
    /// Pressure at a port; `None` where there is no such hydraulic port or it is open.
    pub fn pressure(&self, part: &str, port: &str) -> Option<GaugePressure> {
        let at = self.part(part).ok()?;
        let net = self.wiring.net(&self.aircraft, at, port)?;
        let node = self.wiring.nodes.get(net).copied().flatten()?;
        GaugePressure::from_pascals(*self.pressures.get(node)?)
    }

    /// Pressure of every hydraulic net with its name, in the order of the document.
    pub fn pressures(&self) -> Vec<(String, GaugePressure)> {
        let named = |node: usize| {
            let pressure = GaugePressure::from_pascals(self.pressures[node])?;
            Some((self.wiring.node_name(&self.aircraft, node), pressure))
        };
        (0..self.wiring.outside).filter_map(named).collect()
    }

    /// Every flow, part by part.
    pub fn flows(&self) -> Vec<Passing> {
        let fluid = self.fluid_at(self.climate.now());
        let one = |element: &crate::plant::solver::network::Element| {
            let (from, to) = (self.pressures[element.from], self.pressures[element.to]);
            Passing {
                part: element.part,
                way: element.way,
                serves: element.serves,
                ends: (element.from, element.to),
                flow: element.law.flow(from, to, &fluid).amount,
                pressures: (from, to),
            }
        };
        self.network.elements.iter().map(one).collect()
    }

    /// Flows through one part.
    pub fn flows_of(&self, part: &str) -> Vec<Passing> {
        let at = self.part(part).ok();
        let mut flows = self.flows();
        flows.retain(|passing| Some(passing.part) == at);
        flows
    }

    /// Where the fluid is and went since the account was opened.
    pub fn balance(&self) -> Balance {
        self.account
            .balance(&self.aircraft, &self.wiring, self.stored())
    }

    /// Fluid that passed a boundary since the account was opened, either way, m3.
    pub fn moved_fluid(&self) -> f64 {
        self.account.moved
    }

    /// The gas of a part, where it holds any.
    pub fn gas(&self, part: &str) -> Option<GasCharge> {
        self.memory.get(self.part(part).ok()?)?.gas
    }

    /// Temperature of fluid and gas wall, K.
    pub fn temperature(&self) -> f64 {
        self.climate.now()
    }

    /// Slope, wind, thrust and tyres.
    pub fn ground(&self) -> &Ground {
        &self.ground
    }

    /// How far it has moved and how fast it is.
    pub fn motion(&self) -> Motion {
        self.motion
    }

    /// Force left over against the brakes, N; above 0 it moves.
    pub fn excess(&self) -> f64 {
        self.ground.excess(self.brakes_hold(&self.pressures))
    }

    /// The gauge pressure (Pa) that holds the aircraft where all brakes stand at it alike; `None`
    /// where it stands without brakes, or where no pressure up to twice the pumps' holds it.
    pub fn holds_from(&self) -> Option<f64> {
        let excess = |pressure: f64| {
            let alike = vec![pressure; self.pressures.len()];
            self.ground.excess(self.brakes_hold(&alike))
        };
        let (mut low, mut high) = (0.0, 2.0 * self.pump_pressure());
        if excess(low) <= 0.0 || excess(high) > 0.0 {
            return None;
        }
        // Halved until a thousandth of a bar is left.
        while high - low > 100.0 {
            let middle = 0.5 * (low + high);
            if excess(middle) > 0.0 {
                low = middle;
            } else {
                high = middle;
            }
        }
        Some(high)
    }
}
