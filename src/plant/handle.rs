//! The plant as something to work on: set anything at any moment, let time pass, read everything.
//!
//! The commands, the tests, and whatever else plays the aircraft go through this one type. It is a
//! value: a clone is another aircraft in the same state, so a check that would disturb the plant
//! is tried on a clone.

mod act;
mod assembly;
mod beginning;
mod change;
mod drain;
mod gauges;
mod pace;
mod passage;

pub use beginning::Start;
pub use change::Change;
pub use drain::{BEYOND, Leg};
pub use gauges::Passing;

use std::sync::Arc;

use self::pace::Pace;
use super::account::Account;
use super::aircraft::{Aircraft, Fluid};
use super::climate::Climate;
use super::error::PlantError;
use super::ground::Ground;
use super::kinds::brake::Clamp;
use super::levels::Levels;
use super::memory::Memory;
use super::physics::holding::{Motion, Push};
use super::physics::viscosity::{Walther, density};
use super::setting::PartNow;
use super::solver::known::KnownSteps;
use super::solver::network::Network;
use super::solver::step::Solver;
use super::view::View;
use super::wiring::Wiring;
use crate::base::physical::Mass;
use crate::base::quantity::Quantity;

/// Break-away coefficient of the reference figures: a rolling figure, from memory.
const BREAK_AWAY: f64 = 0.008;

/// One aircraft with everything that changes on it.
#[derive(Debug, Clone)]
pub struct Handle {
    pub(super) aircraft: Arc<Aircraft>,
    pub(super) wiring: Arc<Wiring>,
    fluid: Fluid,
    walther: Walther,
    /// Dynamic viscosity at 15 C, Pa s.
    thickness_at_15: f64,
    clamps: Vec<Clamp>,
    now: Vec<PartNow>,
    memory: Vec<Memory>,
    pub(super) levels: Levels,
    pressures: Vec<f64>,
    left_over: Vec<f64>,
    network: Network,
    solver: Solver,
    seconds: f64,
    pace: Pace,
    steps: u64,
    climate: Climate,
    ground: Ground,
    motion: Motion,
    account: Account,
    wear: f64,
}

impl Handle {
    /// A plant at rest: nothing charged, lever down, pumps off.
    ///
    /// Errors: the document lacks the fluid or has no hydraulic net; two supplies feed one net.
    pub fn new(aircraft: Arc<Aircraft>) -> Result<Self, PlantError> {
        let missing = |missing: &str| PlantError::Missing {
            aircraft: aircraft.id.clone(),
            missing: missing.to_owned(),
        };
        let fluid = aircraft.fluid.clone().ok_or_else(|| missing("`fluid`"))?;
        let wiring = Wiring::new(&aircraft);
        if wiring.net_of_node.is_empty() {
            return Err(missing("hydraulic link"));
        }
        let kelvin = aircraft
            .environment
            .temperature
            .map_or(288.15, Quantity::si);
        let walther = Walther::through(fluid.viscosity);
        let now = aircraft.parts.iter().map(|part| PartNow::new(part, 1.0));
        let mut handle = Self {
            now: now.collect(),
            memory: vec![Memory::default(); aircraft.parts.len()],
            levels: Levels::nothing(wiring.nodes.len()),
            pressures: vec![0.0; wiring.outside + 1],
            left_over: vec![0.0; wiring.outside + 1],
            network: Network::default(),
            solver: Solver::default(),
            seconds: 0.0,
            pace: Pace::default(),
            steps: 0,
            climate: Climate::steady(kelvin),
            thickness_at_15: walther.viscosity(288.15)
                * density(fluid.density, fluid.expansion, 288.15),
            walther,
            clamps: Vec::new(),
            ground: ground_of(&aircraft),
            motion: Motion::default(),
            account: Account::default(),
            wear: 1.0,
            fluid,
            wiring: Arc::new(wiring),
            aircraft,
        };
        handle.fit_clamps();
        handle.begin_memory();
        handle.settle_levels()?;
        handle.assemble()?;
        handle.open_account();
        Ok(handle)
    }

    /// Shares solved steps with other plants from now on.
    pub fn share(&mut self, steps: &KnownSteps) {
        self.solver.share(steps);
    }

    /// The aircraft.
    pub fn aircraft(&self) -> &Aircraft {
        &self.aircraft
    }

    /// Hours since the beginning.
    pub fn hours(&self) -> f64 {
        self.seconds / 3600.0
    }

    /// Steps taken since the plant was made.
    pub fn steps(&self) -> u64 {
        self.steps
    }

    /// A part as its behaviour sees it.
    pub(super) fn view(&self, part: usize) -> View<'_> {
        self.view_with(
            part,
            &self.memory[part],
            &self.pressures,
            self.climate.now(),
        )
    }

    fn view_with<'a>(
        &'a self,
        part: usize,
        memory: &'a Memory,
        pressures: &'a [f64],
        temperature: f64,
    ) -> View<'a> {
        View {
            kind: self.aircraft.parts[part].kind,
            now: &self.now[part],
            memory,
            nets: &self.wiring.nets[part],
            nodes: &self.wiring.nodes,
            levels: &self.levels,
            pressures,
            fluid: &self.fluid,
            temperature,
        }
    }

    fn begin_memory(&mut self) {
        for at in 0..self.memory.len() {
            let mut memory = Memory::default();
            let kind = self.aircraft.parts[at].kind;
            let view = self.view_with(at, &memory, &self.pressures, self.climate.now());
            let mut begun = memory;
            kind.behaviour.begin(&view, &mut begun);
            memory = begun;
            self.memory[at] = memory;
        }
    }
}

/// What pushes an aircraft where its document leaves it, and what its tyres give.
fn ground_of(aircraft: &Aircraft) -> Ground {
    let wheels = aircraft.parts.iter().find(|p| p.kind.name == "wheels");
    let tyre =
        |name: &str| wheels.map_or(0.0, |part| PartNow::new(part, 1.0).value(part.kind, name));
    Ground {
        push: Push {
            mass: aircraft.mass.map_or(0.0, Mass::kilograms),
            slope: aircraft.environment.slope.map_or(0.0, Quantity::si),
            wind: aircraft.environment.wind.map_or(0.0, Quantity::si),
            drag_area: tyre("drag-area"),
            thrust: 0.0,
        },
        break_away: BREAK_AWAY,
        rolling: tyre("rolling"),
    }
}
