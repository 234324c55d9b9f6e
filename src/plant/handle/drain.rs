//! Where the store drains to: the strongest flow followed from part to part, as solved.

use super::{Handle, Passing};

/// Flows below this are not followed, m3/s: 0.05 mL/min, a drop a minute.
const FOLLOWED: f64 = 0.05e-6 / 60.0;

/// What goes beyond a healthy aircraft by less than this is none, m3/s: 0.5 mL/min, less than what
/// the in-limit leaks change by when a pressure beside them does: judgement.
pub const BEYOND: f64 = 0.5e-6 / 60.0;

/// One part on the way of the fluid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Leg {
    /// The part, by its place.
    pub part: usize,
    /// Which way through it, in words.
    pub way: &'static str,
    /// m3/s.
    pub flow: f64,
    /// Gauge pressure before and behind it, Pa.
    pub pressures: (f64, f64),
    /// Whether it lets the fluid out into the open.
    pub overboard: bool,
}

impl Handle {
    /// The way on which most of the stored fluid leaves just now, from the store on.
    ///
    /// At each node the strongest flow away from it is followed, until it comes out into the open,
    /// into a reservoir, or to a node from which nothing flows on. Complexity: flows times legs.
    pub fn drain(&self) -> Vec<Leg> {
        self.followed(&self.flows(), FOLLOWED)
    }

    /// The way on which more leaves than leaves another plant in the same state: what a fault
    /// drains beside a healthy aircraft, whose in-limit leaks are none of its doing.
    ///
    /// The flow of each leg is what goes beyond; none where nothing does. Complexity: flows
    /// squared.
    pub fn drain_beyond(&self, other: &Self) -> Vec<Leg> {
        let theirs = other.flows();
        let mut flows = self.flows();
        for passing in &mut flows {
            let same = theirs.iter().find(|their| their.is_same_way(passing));
            passing.flow -= same.map_or(0.0, |their| their.flow);
        }
        self.followed(&flows, BEYOND)
    }

    fn followed(&self, flows: &[Passing], least: f64) -> Vec<Leg> {
        let store = self.parts_of("accumulator").next();
        let Some(mut node) = store.and_then(|at| self.view(at).node("fluid")) else {
            return Vec::new();
        };
        let mut legs = Vec::new();
        let mut seen = vec![node];
        loop {
            let away = flows.iter().filter_map(|passing| {
                let (from, to) = passing.ends;
                let (flow, next, pressures) = if from == node {
                    (passing.flow, to, passing.pressures)
                } else if to == node {
                    let (before, behind) = passing.pressures;
                    (-passing.flow, from, (behind, before))
                } else {
                    return None;
                };
                let leg = Leg {
                    part: passing.part,
                    way: passing.way,
                    flow,
                    pressures,
                    overboard: next == self.wiring.outside,
                };
                (flow > least && !seen.contains(&next)).then_some((leg, next))
            });
            let strongest = away.reduce(|a, b| if b.0.flow > a.0.flow { b } else { a });
            let Some((leg, next)) = strongest else {
                return legs;
            };
            legs.push(leg);
            if leg.overboard {
                return legs;
            }
            node = next;
            seen.push(node);
        }
    }

    /// Whether a node is the open air.
    pub fn is_outside(&self, node: usize) -> bool {
        node == self.wiring.outside
    }

    /// What stands on a net: gauge pressure in Pa, volts, or travel and signal from 0 to 1.
    pub fn level_of_net(&self, net: usize) -> f64 {
        match self.wiring.nodes.get(net).copied().flatten() {
            Some(node) => self.pressures.get(node).copied().unwrap_or(0.0),
            None => self.levels.value.get(net).copied().unwrap_or(0.0),
        }
    }
}
