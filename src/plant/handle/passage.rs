//! Time passing: steps as long as the pressures allow, each ending where something changes.

use super::Handle;
use crate::plant::error::PlantError;
use crate::plant::memory::Memory;
use crate::plant::physics::viscosity;
use crate::plant::solver::known::Given;
use crate::plant::solver::law::FluidNow;
use crate::plant::solver::step::{Conditions, GAMMA, Stepped};
use crate::plant::solver::store::Moment;

/// Shortest step before a net is said to have no pressure, s.
const SHORTEST: f64 = 1e-7;
/// Longest stretch of a roll with one force, s.
const ROLLING: f64 = 0.25;
/// A roll is followed this far, m; beyond it nothing on the stand is as it was.
const FOLLOWED: f64 = 30.0;

impl Handle {
    /// Lets some seconds pass.
    ///
    /// Errors: a net for which no pressure is found, or one that never settles, each by its name.
    pub fn step(&mut self, seconds: f64) -> Result<(), PlantError> {
        let end = self.seconds + seconds.max(0.0);
        while end - self.seconds > 1e-9 {
            self.advance(end - self.seconds)?;
        }
        Ok(())
    }

    /// Lets at most some seconds pass, in one step of the solver.
    pub fn advance(&mut self, at_most: f64) -> Result<(), PlantError> {
        let modes = self.modes(|_, at| &self.memory[at], &self.pressures);
        let bound = self.bound(at_most);
        let mut seconds = self.pace.first_try(bound);
        loop {
            let conditions = self.conditions(seconds);
            let tried = self.solver.step(&Given {
                network: &self.network,
                pressures: &self.pressures,
                left_over: &self.left_over,
                conditions: &conditions,
                seconds,
            });
            let stepped = match tried {
                Err(node) if seconds < SHORTEST => return Err(self.no_pressure(node)),
                Err(_) => {
                    seconds = self.pace.after_no_pressure(seconds);
                    continue;
                }
                Ok(stepped) => stepped,
            };
            if let Some(shorter) = self.pace.after_error(stepped.error, seconds) {
                seconds = shorter;
                continue;
            }
            let memory = self.remembered(&stepped.pressures, seconds);
            let changed = self.modes(|place, _| &memory[place], &stepped.pressures) != modes;
            let shorter = changed.then(|| self.pace.after_change(self.seconds, seconds));
            if let Some(shorter) = shorter.flatten() {
                seconds = shorter;
                continue;
            }
            self.pace.take(stepped.error, seconds, bound);
            return self.accept(stepped, memory, seconds, changed);
        }
    }

    pub(super) fn no_pressure(&self, node: usize) -> PlantError {
        PlantError::NoPressure {
            net: self.wiring.node_name(&self.aircraft, node),
            hours: self.hours(),
        }
    }

    /// The longest step that ends before something is known to change.
    fn bound(&self, at_most: f64) -> f64 {
        let alarms = self
            .wiring
            .active
            .iter()
            .filter_map(|&at| self.aircraft.parts[at].kind.behaviour.alarm(&self.view(at)));
        let bend = self.climate.next_bend(self.seconds);
        alarms
            .chain(bend)
            .fold(at_most.min(self.pace.bound(self.seconds)), f64::min)
            .max(1e-6)
    }

    fn conditions(&self, seconds: f64) -> [Conditions; 3] {
        let times = [0.0, GAMMA * seconds, seconds];
        let [begin, middle, end] = times.map(|passed| self.climate.after(self.seconds, passed));
        let first = self.fluid_at(begin);
        // In steady weather all three are the same.
        let fluid = |temperature: f64| {
            if temperature.to_bits() == begin.to_bits() {
                first
            } else {
                self.fluid_at(temperature)
            }
        };
        let at = |temperature: f64, seconds: f64| Conditions {
            fluid: fluid(temperature),
            moment: moment(temperature, seconds),
        };
        [at(begin, times[0]), at(middle, times[1]), at(end, times[2])]
    }

    /// The fluid at a temperature in kelvin.
    pub(super) fn fluid_at(&self, temperature: f64) -> FluidNow {
        let density = |kelvin| viscosity::density(self.fluid.density, self.fluid.expansion, kelvin);
        FluidNow {
            density: density(temperature),
            thinness: self.thickness_at_15
                / (self.walther.viscosity(temperature) * density(temperature)),
            temperature,
        }
    }

    /// What every active part remembers after a step, in their order; the others stay as they are.
    fn remembered(&self, pressures: &[f64], seconds: f64) -> Vec<Memory> {
        let temperature = self.climate.after(self.seconds, seconds);
        let one = |&at: &usize| {
            let mut remembered = self.memory[at];
            let view = self.view_with(at, &self.memory[at], pressures, temperature);
            let behaviour = self.aircraft.parts[at].kind.behaviour;
            behaviour.advance(&view, &mut remembered, seconds);
            remembered
        };
        self.wiring.active.iter().map(one).collect()
    }

    /// In which way every part works; a step holds at most one change of it. The memory of an
    /// active part is asked for by its place among them and its place among all.
    fn modes<'a>(
        &'a self,
        memory: impl Fn(usize, usize) -> &'a Memory,
        pressures: &'a [f64],
    ) -> Vec<u8> {
        let one = |(place, &at): (usize, &usize)| {
            let view = self.view_with(at, memory(place, at), pressures, self.climate.now());
            self.aircraft.parts[at].kind.behaviour.mode(&view)
        };
        let moves = u8::from(self.ground.excess(self.brakes_hold(pressures)) > 0.0);
        let parts = self.wiring.active.iter().enumerate().map(one);
        parts.chain([moves]).collect()
    }

    /// Force in N that all brakes hold at the tyres.
    pub(super) fn brakes_hold(&self, pressures: &[f64]) -> f64 {
        self.clamps.iter().map(|clamp| clamp.holds(pressures)).sum()
    }

    fn accept(
        &mut self,
        stepped: Stepped,
        memory: Vec<Memory>,
        seconds: f64,
        other_mode: bool,
    ) -> Result<(), PlantError> {
        for (node, pin) in self.network.pins.iter().enumerate() {
            if let Some(pin) = pin {
                let arrived = stepped.arrived[node];
                self.account.arrived[pin.account] += arrived;
                self.account.moved += arrived.abs();
            }
        }
        let pairs = || {
            let active = self.wiring.active.iter();
            active
                .zip(&memory)
                .map(|(&at, new)| (new, &self.memory[at]))
        };
        let restless = pairs().any(|(new, old)| {
            new.engaged != old.engaged || (new.position - old.position).abs() > 1e-12
        });
        let stands = !other_mode && pairs().all(|(new, old)| new.stands_like(old));
        let held = self.brakes_hold(&self.pressures);
        self.pressures = stepped.pressures;
        self.left_over = stepped.left_over;
        for (&at, remembered) in self.wiring.active.iter().zip(memory) {
            self.memory[at] = remembered;
        }
        self.climate.advance(self.seconds, seconds);
        self.seconds += seconds;
        self.steps += 1;
        self.roll(held, seconds);
        let travels = self.travels_standing();
        if restless || other_mode {
            self.settle_levels()?;
        } else {
            self.follow_levels();
        }
        if stands && travels == self.travels_standing() {
            self.carry_on();
            Ok(())
        } else {
            self.assemble()
        }
    }

    /// Rolls through a step at whose beginning the brakes held so many N.
    ///
    /// A roll moves no fluid, so it bounds no step: what the brakes hold runs evenly through the
    /// step, and the roll is followed in stretches of its own.
    fn roll(&mut self, begin: f64, seconds: f64) {
        let end = self.brakes_hold(&self.pressures);
        let stands = |held: f64| self.ground.excess(held) <= 0.0;
        let still = self.motion.speed <= 0.0 && stands(begin) && stands(end);
        if still || self.ground.push.mass <= 0.0 {
            return;
        }
        let mut passed = 0.0;
        while passed < seconds && self.motion.metres < FOLLOWED {
            let stretch = ROLLING.min(seconds - passed);
            passed += stretch;
            let held = begin + (end - begin) * (passed / seconds).min(1.0);
            if self.motion.speed > 0.0 || self.ground.excess(held) > 0.0 {
                let net = self.ground.net_rolling(held);
                let mass = self.ground.push.mass;
                self.motion = self.motion.after(stretch, net, mass);
            }
        }
    }
}

/// The moment some seconds into a step; gas and fluid are as warm as each other.
pub(super) fn moment(temperature: f64, seconds: f64) -> Moment {
    Moment {
        fluid: temperature,
        gas: temperature,
        seconds,
    }
}
