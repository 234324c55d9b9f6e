//! One step in time: two implicit stages of second order that do not ring on stiff passages.
//!
//! The method is the two-stage singly diagonal Runge-Kutta method with gamma = 1 - 1/sqrt(2),
//! which is L-stable and ends on its last stage (standard texts on stiff equations, from memory).
//! Volumes are balanced, not capacities, so nothing is lost at a kink.

use super::known::{Given, KnownSteps, Sharing};
use super::law::FluidNow;
use super::network::Network;
use super::newton::{End, Stage, held};
use super::store::Moment;

/// 1 - 1/sqrt(2).
pub const GAMMA: f64 = 1.0 - std::f64::consts::FRAC_1_SQRT_2;

/// Error of one step that is accepted: this much, Pa, and this share of the pressure.
const TOLERANCE: (f64, f64) = (0.2e5, 5e-3);

/// The search for rest ends with a step this long, and gives up below the other, s.
const LONGEST_AT_REST: f64 = 1e6;
const SHORTEST_AT_REST: f64 = 1e-6;

/// What surrounds the network at one moment of a step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conditions {
    /// The fluid.
    pub fluid: FluidNow,
    /// Temperatures, and seconds since the beginning of the step.
    pub moment: Moment,
}

impl Conditions {
    /// A stage that ends here, with its flows counting for some seconds.
    fn ends(&self, weight: f64) -> End {
        End {
            fluid: self.fluid,
            moment: self.moment,
            weight,
        }
    }
}

/// The end of a step.
#[derive(Debug, Clone, PartialEq)]
pub struct Stepped {
    /// Gauge pressures, Pa.
    pub pressures: Vec<f64>,
    /// Volume that arrived in every node during the step, m3; it counts for pinned nodes.
    pub arrived: Vec<f64>,
    /// Volume that the search left over in every node, m3: the next step takes it up, so that
    /// nothing is lost however near the search came.
    pub left_over: Vec<f64>,
    /// Estimated error over the accepted one: above 1 the step was too long.
    pub error: f64,
}

/// Room for the numbers of a step, kept from one to the next.
#[derive(Debug, Clone, Default)]
pub struct Solver {
    stage: Stage,
    sharing: Sharing,
    change: Vec<f64>,
    start: Vec<f64>,
    first: Vec<f64>,
    last: Vec<f64>,
    end: Vec<f64>,
}

impl Solver {
    /// Shares solved steps with other solvers from now on. Whoever shares says when the network is
    /// stamped anew: see [`Solver::meet_network`].
    pub fn share(&mut self, steps: &KnownSteps) {
        self.sharing.share(steps);
    }

    /// Says that the next step may meet a network that differs in more than gas and pinned
    /// pressures.
    pub fn meet_network(&mut self) {
        self.sharing.forget_network();
    }

    /// Takes one step. The node that did not settle comes back as the error.
    pub fn step(&mut self, given: &Given<'_>) -> Result<Stepped, usize> {
        if let Some(known) = self.sharing.find(given) {
            return known;
        }
        let solved = self.solve(given);
        self.sharing.keep(&solved);
        solved
    }

    fn solve(&mut self, given: &Given<'_>) -> Result<Stepped, usize> {
        let Given {
            network,
            pressures,
            left_over,
            conditions,
            seconds,
        } = *given;
        self.stage.shape(network);
        let [begin, middle, end] = conditions;
        held(network, pressures, &begin.moment, &mut self.start);
        for (start, left) in self.start.iter_mut().zip(left_over) {
            *start += left;
        }
        let mut found = pressures.to_vec();
        let weight = GAMMA * seconds;
        self.stage.prepare(network, &middle.ends(weight));
        let passed = middle.moment.seconds;
        self.stage.solve(network, &self.start, passed, &mut found)?;
        self.stage.inflow(&found, &mut self.first);
        let rest = (1.0 - GAMMA) * seconds;
        for (target, flow) in self.start.iter_mut().zip(&self.first) {
            *target += rest * flow;
        }
        self.stage.prepare(network, &end.ends(weight));
        let passed = end.moment.seconds;
        self.stage.solve(network, &self.start, passed, &mut found)?;
        self.stage.inflow(&found, &mut self.last);
        self.stage.held(&found, &mut self.end);
        let left_over = self.left_over(network, weight);
        let both = self.first.iter().zip(&self.last);
        let arrived = both.clone().map(|(a, b)| rest * a + weight * b).collect();
        self.change.clear();
        self.change.extend(both.map(|(a, b)| rest * (a - b)));
        self.stage.solve_again(&mut self.change);
        let (least, share) = TOLERANCE;
        let scaled = self
            .change
            .iter()
            .zip(&found)
            .map(|(change, pressure)| change.abs() / (least + share * pressure.abs()));
        Ok(Stepped {
            error: scaled.fold(0.0, f64::max),
            pressures: found,
            arrived,
            left_over,
        })
    }

    /// What must be held at the end and is not, in every free node.
    fn left_over(&self, network: &Network, weight: f64) -> Vec<f64> {
        let balance = self.start.iter().zip(&self.last).zip(&self.end);
        balance
            .zip(&network.pins)
            .map(|(((target, flow), held), pin)| match pin {
                Some(_) => 0.0,
                None => target + weight * flow - held,
            })
            .collect()
    }

    /// Pressures at rest with the flows alone, as if nothing held any volume.
    ///
    /// One very long step from the pressures given; pinned nodes stay.
    pub fn at_rest(
        &mut self,
        network: &Network,
        pressures: &[f64],
        conditions: &Conditions,
    ) -> Result<Vec<f64>, usize> {
        self.stage.shape(network);
        held(network, pressures, &conditions.moment, &mut self.start);
        let mut found = pressures.to_vec();
        // Longer and longer steps, so that the first does not have to jump from nothing; shorter
        // ones where a vessel of many litres stands behind a kink.
        let mut seconds = 1e-2;
        loop {
            let mut tried = found.clone();
            self.stage.prepare(network, &conditions.ends(seconds));
            let passed = conditions.moment.seconds;
            let settled = self.stage.solve(network, &self.start, passed, &mut tried);
            match settled {
                Err(node) if seconds < SHORTEST_AT_REST => return Err(node),
                Err(_) => seconds *= 0.2,
                Ok(()) if seconds >= LONGEST_AT_REST => return Ok(tried),
                Ok(()) => {
                    found = tried;
                    held(network, &found, &conditions.moment, &mut self.start);
                    seconds *= 100.0;
                }
            }
        }
    }
}
