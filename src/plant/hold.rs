//! How long a parking holds: pressure over the hours, until it moves or the hours are over.

use super::error::PlantError;
use super::handle::Handle;
use super::kinds::brake;
use crate::base::pressure::ATMOSPHERE;

/// Hours between two samples.
const SAMPLED_EVERY: f64 = 0.5;

/// What came of a parking.
#[derive(Debug, Clone, PartialEq)]
pub struct Hold {
    /// Hours until the brakes hold less than what pushes; `None` where that does not happen.
    pub hours_to_creep: Option<f64>,
    /// Hours until the accumulator piston reaches its fluid end.
    pub hours_to_bottom: Option<f64>,
    /// Pressures, every half hour and at the end.
    pub samples: Vec<Sample>,
}

/// Pressures at one time, gauge, Pa.
#[derive(Debug, Clone, PartialEq)]
pub struct Sample {
    /// Hours since the pumps stopped.
    pub hours: f64,
    /// Gas of the first accumulator.
    pub gas: Option<f64>,
    /// Fluid beside it.
    pub fluid: Option<f64>,
    /// Each brake with its id.
    pub brakes: Vec<(String, f64)>,
    /// The return that the park valve shuts.
    pub shut_return: Option<f64>,
}

impl Handle {
    /// Lets hours pass, samples them, and watches until it moves or the horizon is reached.
    ///
    /// `hours` are sampled and always played; `horizon` is how far the search for the movement
    /// goes. The plant is left where the search ended.
    pub fn hold(&mut self, hours: f64, horizon: f64) -> Result<Hold, PlantError> {
        let mut hold = Hold {
            hours_to_creep: None,
            hours_to_bottom: None,
            samples: vec![self.sample()],
        };
        let begin = self.hours();
        let mut sampled = 0_u32;
        self.note(&mut hold, begin);
        loop {
            let now = self.hours() - begin;
            let playing = now < hours - 1e-9;
            if !playing && (hold.hours_to_creep.is_some() || now >= horizon - 1e-9) {
                return Ok(hold);
            }
            let next = f64::from(sampled + 1) * SAMPLED_EVERY;
            let next = if playing { next.min(hours) } else { next };
            if next - now > 1e-9 {
                self.advance((next - now) * 3600.0)?;
                self.note(&mut hold, begin);
            }
            if begin + next - self.hours() <= 1e-9 {
                sampled += 1;
                if playing {
                    hold.samples.push(self.sample());
                }
            }
        }
    }

    fn note(&self, hold: &mut Hold, begin: f64) {
        let now = self.hours() - begin;
        if hold.hours_to_creep.is_none() && self.excess() > 0.0 {
            hold.hours_to_creep = Some(now);
        }
        if hold.hours_to_bottom.is_none() && self.bottomed() {
            hold.hours_to_bottom = Some(now);
        }
    }

    /// Whether an accumulator holds no fluid.
    pub fn bottomed(&self) -> bool {
        let mut accumulators = self.parts_of("accumulator");
        accumulators.any(|at| {
            let view = self.view(at);
            view.kind.behaviour.mode(&view) == 1
        })
    }

    /// Places of all parts of a kind.
    pub(super) fn parts_of(&self, kind: &'static str) -> impl Iterator<Item = usize> + '_ {
        let parts = self.aircraft.parts.iter().enumerate();
        parts
            .filter(move |(_, part)| part.kind.name == kind)
            .map(|(at, _)| at)
    }

    /// Pressures now.
    pub fn sample(&self) -> Sample {
        let store = self.parts_of("accumulator").next().map(|at| self.view(at));
        let valve = self.parts_of("shut-off-valve").next();
        let brakes = self.parts_of("brake").map(|at| {
            let id = self.aircraft.parts[at].id.clone();
            (id, self.view(at).pressure("port"))
        });
        Sample {
            hours: self.hours(),
            gas: store.and_then(|view| Some(view.memory.gas?.pressure() - ATMOSPHERE)),
            fluid: store.map(|view| view.pressure("fluid")),
            brakes: brakes.collect(),
            shut_return: valve.map(|at| self.view(at).pressure("in")),
        }
    }

    /// Brakes that look clamped, and all brakes.
    pub fn clamped(&self) -> (usize, usize) {
        let count = self
            .parts_of("brake")
            .filter(|at| brake::looks_clamped(&self.view(*at)))
            .count();
        (count, self.parts_of("brake").count())
    }
}
