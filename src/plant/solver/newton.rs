//! One implicit stage: pressures at which the volumes balance.

use super::law::FluidNow;
use super::matrix::Matrix;
use super::network::Network;
use super::store::Moment;

/// Rounds before a stage is given up and the step made shorter.
const ROUNDS: usize = 60;
/// No search goes below this gauge pressure, Pa: vacuum.
const FLOOR: f64 = -1.0e5;
/// How far a pressure may jump in the first round, Pa.
const FIRST_JUMP: f64 = 300e5;
/// Accepted change of a pressure in the last round, Pa.
const CLOSE: f64 = 0.5;

/// What a stage needs to know.
#[derive(Debug)]
pub struct Stage<'a> {
    /// The network.
    pub network: &'a Network,
    /// The fluid at the end of the stage.
    pub fluid: FluidNow,
    /// Temperatures, and seconds since the beginning of the step.
    pub moment: Moment,
    /// Seconds over which the flows at the end of the stage count.
    pub weight: f64,
    /// For each node the volume that must be held at the end, but for those flows, m3.
    pub target: &'a [f64],
}

/// Net flow into every node, m3/s, without derivatives.
pub fn inflow(network: &Network, pressures: &[f64], fluid: &FluidNow, into: &mut Vec<f64>) {
    into.clear();
    into.resize(network.len(), 0.0);
    for element in &network.elements {
        let flow = element
            .law
            .flow(pressures[element.from], pressures[element.to], fluid);
        into[element.from] -= flow.amount;
        into[element.to] += flow.amount;
    }
}

/// Volume held in every node, m3.
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

impl Stage<'_> {
    /// Finds the pressures, starting from those given. The node that did not settle comes back
    /// as the error; `matrix` is left factored at the solution.
    ///
    /// Newton's method on volumes. The jumps of brakes, pistons and one-way valves are kinks of
    /// continuous functions, so it ends in a few rounds or the step is too long.
    pub fn solve(&self, pressures: &mut [f64], matrix: &mut Matrix) -> Result<(), usize> {
        let size = self.network.len();
        for (node, pin) in self.network.pins.iter().enumerate() {
            if let Some(pin) = pin {
                pressures[node] = pin.at(self.moment.seconds);
            }
        }
        let mut residual = vec![0.0; size];
        let mut trust = vec![Trust::default(); size];
        let mut worst = 0;
        for _ in 0..ROUNDS {
            self.assemble(pressures, matrix, &mut residual);
            // Named before the elimination, which would carry it to every node.
            if let Some(node) = residual.iter().position(|volume| !volume.is_finite()) {
                return Err(node);
            }
            matrix.factor()?;
            matrix.solve(&mut residual);
            let mut largest = 0.0;
            for (node, change) in residual.iter().enumerate() {
                if !change.is_finite() {
                    return Err(node);
                }
                if change.abs() > largest {
                    (largest, worst) = (change.abs(), node);
                }
                let before = pressures[node];
                pressures[node] = (before + trust[node].limit(*change)).max(FLOOR.min(before));
            }
            if largest < CLOSE {
                return Ok(());
            }
        }
        Err(worst)
    }

    fn assemble(&self, pressures: &[f64], matrix: &mut Matrix, residual: &mut [f64]) {
        matrix.clear();
        residual.copy_from_slice(self.target);
        for (node, _, store) in &self.network.stores {
            let (volume, slope) = store.volume(pressures[*node], &self.moment);
            residual[*node] -= volume;
            matrix.add(*node, *node, slope);
        }
        let weight = self.weight;
        for element in &self.network.elements {
            let (from, to) = (element.from, element.to);
            let flow = element
                .law
                .flow(pressures[from], pressures[to], &self.fluid);
            residual[from] -= weight * flow.amount;
            residual[to] += weight * flow.amount;
            // A pinned pressure does not move: neither its row nor its column couples.
            let free = |node: usize| self.network.pins[node].is_none();
            if free(from) {
                matrix.add(from, from, weight * flow.by_from);
            }
            if free(to) {
                matrix.add(to, to, -weight * flow.by_to);
            }
            if free(from) && free(to) {
                matrix.add(from, to, weight * flow.by_to);
                matrix.add(to, from, -weight * flow.by_from);
            }
        }
        for (node, pin) in self.network.pins.iter().enumerate() {
            if pin.is_some() {
                residual[node] = 0.0;
                matrix.add(node, node, 1.0);
            }
        }
    }
}
