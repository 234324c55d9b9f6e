//! One implicit stage: pressures at which the volumes balance.

use super::law::{FluidLaw, FluidNow};
use super::matrix::Matrix;
use super::network::Network;
use super::store::{Moment, MovingPiston, Store, air, line, vapour};
use crate::plant::physics::brake_stack::Stack;

/// Rounds before a stage is given up and the step made shorter.
const ROUNDS: usize = 60;
/// No search goes below this gauge pressure, Pa: vacuum.
const FLOOR: f64 = -1.0e5;
/// How far a pressure may jump in the first round, Pa.
const FIRST_JUMP: f64 = 300e5;
/// Accepted change of a pressure in the last round, Pa.
const CLOSE: f64 = 0.5;

/// Volume held in every node at the beginning of a step, m3.
pub fn held(network: &Network, pressures: &[f64], moment: &Moment, into: &mut Vec<f64>) {
    into.clear();
    into.resize(network.len(), 0.0);
    for (node, _, store) in &network.stores {
        into[*node] += store.volume(pressures[*node], moment).0;
    }
}

/// How far the search may move one pressure in a round.
///
/// Going back and forth over a kink, a long jump lands on its far side again; the reach is halved
/// with every turn and grows while the direction stays.
#[derive(Debug, Clone, Copy)]
struct Trust {
    reach: f64,
    last: f64,
}

impl Default for Trust {
    fn default() -> Self {
        Self {
            reach: FIRST_JUMP,
            last: 0.0,
        }
    }
}

impl Trust {
    fn limit(&mut self, change: f64) -> f64 {
        if change * self.last < 0.0 {
            self.reach = 0.5 * self.reach.min(self.last.abs());
        } else {
            self.reach *= 1.6;
        }
        let limited = change.clamp(-self.reach, self.reach);
        self.last = limited;
        limited
    }
}

/// What a stage needs to know of its end.
#[derive(Debug, Clone, Copy)]
pub struct End {
    /// The fluid.
    pub fluid: FluidNow,
    /// Temperatures, and seconds since the beginning of the step.
    pub moment: Moment,
    /// Seconds over which the flows at the end of the stage count.
    pub weight: f64,
}

/// A flow between two nodes.
#[derive(Debug, Clone, Copy)]
struct Way<L> {
    from: usize,
    to: usize,
    /// Its place in the network, which is that of its pair in the matrix.
    pair: usize,
    law: L,
}

/// What a node holds whose volume is no straight line over pressure.
#[derive(Debug, Clone, Copy)]
enum Bent {
    Air(f64),
    Brake(Stack),
    Gas(MovingPiston),
}

/// One stage, with room for its numbers kept from one to the next.
///
/// What does not change while pressures are searched for is worked out once: straight laws and
/// lines are the most, and go into the matrix before the first round.
#[derive(Debug, Clone, Default)]
pub struct Stage {
    matrix: Matrix,
    weight: f64,
    straight: Vec<Way<f64>>,
    bent: Vec<Way<FluidLaw>>,
    /// Node, change of volume with pressure, and what the fluid shrank.
    lines: Vec<(usize, f64, f64)>,
    vessels: Vec<(usize, Bent)>,
    residual: Vec<f64>,
    trust: Vec<Trust>,
}

impl Stage {
    /// Takes the pattern of a network.
    pub fn shape(&mut self, network: &Network) {
        let pairs = network.elements.iter().map(|e| (e.from, e.to));
        self.matrix
            .shape(pairs, network.pins.iter().map(Option::is_none));
    }

    /// Puts the end of the stage into the laws and stores of the network that gave the shape.
    pub fn prepare(&mut self, network: &Network, end: &End) {
        self.weight = end.weight;
        self.straight.clear();
        self.bent.clear();
        self.lines.clear();
        self.vessels.clear();
        self.matrix.clear();
        for (pair, element) in network.elements.iter().enumerate() {
            let (from, to) = (element.from, element.to);
            match element.law.with(&end.fluid) {
                FluidLaw::Straight(law) => {
                    let slope = end.weight * law;
                    self.matrix.couple(pair, slope, -slope);
                    self.straight.push(Way {
                        from,
                        to,
                        pair,
                        law,
                    });
                }
                law => self.bent.push(Way {
                    from,
                    to,
                    pair,
                    law,
                }),
            }
        }
        for (node, _, store) in &network.stores {
            match store {
                Store::Line {
                    volume,
                    bulk_modulus,
                    expansion,
                    swelling,
                } => {
                    let stiffness = (*bulk_modulus, *swelling);
                    let (slope, shrunk) = line(*volume, stiffness, (*expansion, end.moment.fluid));
                    self.matrix.add(*node, slope);
                    self.lines.push((*node, slope, shrunk));
                }
                Store::Air(volume) => self.vessels.push((*node, Bent::Air(*volume))),
                Store::Brake(stack) => self.vessels.push((*node, Bent::Brake(*stack))),
                Store::Gas(piston) => {
                    let moving = piston.until(&end.moment);
                    self.vessels.push((*node, Bent::Gas(moving)));
                }
            }
        }
        self.matrix.keep();
    }

    /// Finds the pressures at which every node holds its target and what flows in, starting from
    /// those given. The node that did not settle comes back as the error; the matrix is left
    /// factored at the solution.
    ///
    /// Newton's method on volumes. The jumps of brakes, pistons and one-way valves are kinks of
    /// continuous functions, so it ends in a few rounds or the step is too long.
    pub fn solve(
        &mut self,
        network: &Network,
        target: &[f64],
        seconds: f64,
        pressures: &mut [f64],
    ) -> Result<(), usize> {
        for (pressure, pin) in pressures.iter_mut().zip(&network.pins) {
            if let Some(pin) = pin {
                *pressure = pin.at(seconds);
            }
        }
        self.trust.clear();
        self.trust.resize(network.len(), Trust::default());
        let mut worst = 0;
        for _ in 0..ROUNDS {
            self.assemble(target, pressures);
            // Named before the elimination, which would carry it to every node.
            let free = self.residual.iter().zip(&network.pins);
            let mut volumes = free.enumerate();
            if let Some((node, _)) =
                volumes.find(|(_, (volume, pin))| pin.is_none() && !volume.is_finite())
            {
                return Err(node);
            }
            if self.matrix.factor().is_err() {
                // Where elimination gives up depends on its order; the stiffest net is to blame.
                self.assemble(target, pressures);
                return Err(self.matrix.stiffest());
            }
            self.matrix.solve(&mut self.residual);
            let mut largest = 0.0;
            for (node, change) in self.residual.iter().enumerate() {
                if !change.is_finite() {
                    return Err(node);
                }
                if change.abs() > largest {
                    (largest, worst) = (change.abs(), node);
                }
                let before = pressures[node];
                pressures[node] = (before + self.trust[node].limit(*change)).max(FLOOR.min(before));
            }
            if largest < CLOSE {
                return Ok(());
            }
        }
        Err(worst)
    }

    fn assemble(&mut self, target: &[f64], pressures: &[f64]) {
        self.matrix.restore();
        self.residual.clear();
        self.residual.extend_from_slice(target);
        let residual = &mut self.residual;
        for (node, slope, shrunk) in &self.lines {
            let pressure = pressures[*node];
            let (taken, by_pressure) = vapour(pressure);
            residual[*node] -= slope * pressure - shrunk + taken;
            if by_pressure > 0.0 {
                self.matrix.add(*node, by_pressure);
            }
        }
        for (node, vessel) in &mut self.vessels {
            let (volume, slope) = vessel.held(pressures[*node]);
            residual[*node] -= volume;
            self.matrix.add(*node, slope);
        }
        for way in &self.straight {
            let amount = self.weight * way.law * (pressures[way.from] - pressures[way.to]);
            residual[way.from] -= amount;
            residual[way.to] += amount;
        }
        for way in &self.bent {
            let flow = way.law.flow(pressures[way.from], pressures[way.to]);
            let amount = self.weight * flow.amount;
            residual[way.from] -= amount;
            residual[way.to] += amount;
            let (by_from, by_to) = (self.weight * flow.by_from, self.weight * flow.by_to);
            self.matrix.couple(way.pair, by_from, by_to);
        }
    }

    /// Solves with the factors that the search left.
    pub fn solve_again(&self, right: &mut [f64]) {
        self.matrix.solve(right);
    }

    /// Net flow into every node at the end of the stage, m3/s.
    pub fn inflow(&self, pressures: &[f64], into: &mut Vec<f64>) {
        into.clear();
        into.resize(pressures.len(), 0.0);
        for way in &self.straight {
            let amount = way.law * (pressures[way.from] - pressures[way.to]);
            into[way.from] -= amount;
            into[way.to] += amount;
        }
        for way in &self.bent {
            let amount = way.law.flow(pressures[way.from], pressures[way.to]).amount;
            into[way.from] -= amount;
            into[way.to] += amount;
        }
    }

    /// Volume held in every node at the end of the stage, m3.
    pub fn held(&mut self, pressures: &[f64], into: &mut Vec<f64>) {
        into.clear();
        into.resize(pressures.len(), 0.0);
        for (node, slope, shrunk) in &self.lines {
            let pressure = pressures[*node];
            into[*node] += slope * pressure - shrunk + vapour(pressure).0;
        }
        for (node, vessel) in &mut self.vessels {
            into[*node] += vessel.held(pressures[*node]).0;
        }
    }
}

impl Bent {
    fn held(&mut self, pressure: f64) -> (f64, f64) {
        match self {
            Self::Air(volume) => air(*volume, pressure),
            Self::Brake(stack) => stack.volume(pressure),
            Self::Gas(moving) => moving.held(pressure),
        }
    }
}
