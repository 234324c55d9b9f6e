//! What a node holds: compressed fluid, air, brakes, a gas charge behind a piston.

use crate::base::pressure::ATMOSPHERE;
use crate::plant::physics::brake_stack::Stack;
use crate::plant::physics::gas_charge::{GasCharge, Path, Wall};

/// Below this gauge pressure vapour and air open up, Pa; chosen by us, so that a cooling line
/// stops near vacuum.
const VAPOUR: f64 = -0.5e5;
/// How much opens, m3/Pa: far more than any line gives.
const VAPOUR_SLOPE: f64 = 1e-8;

/// The moment for which a store is asked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moment {
    /// Temperature of the fluid, K.
    pub fluid: f64,
    /// Temperature around the gas, K.
    pub gas: f64,
    /// Seconds since the beginning of the step.
    pub seconds: f64,
}

/// One store.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Store {
    /// A length of line full of fluid.
    Line {
        /// Volume, m3.
        volume: f64,
        /// Stiffness of the fluid, Pa.
        bulk_modulus: f64,
        /// Expansion of the fluid, per kelvin.
        expansion: f64,
        /// Swelling of hoses, m3/Pa.
        swelling: f64,
    },
    /// Free air, as its volume at one atmosphere, m3. At constant temperature.
    Air(f64),
    /// A brake.
    Brake(Stack),
    /// A gas charge behind a piston.
    Gas(Piston),
}

/// A floating piston between fluid and gas.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Piston {
    /// The gas at the beginning of the step.
    pub charge: GasCharge,
    /// Most gas there is room for, with no fluid held, m3.
    pub room: f64,
    /// Least gas, with the piston on its stop, m3.
    pub least: f64,
    /// Friction of the seal, Pa: the gas stands above the fluid by this when it drives the piston.
    pub friction: f64,
    /// Time constant of the gas, s.
    pub lag: f64,
    /// Share of gas lost per second.
    pub loss: f64,
}

/// Where a piston stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PistonStop {
    /// On the fluid end: no fluid is held.
    Bottomed,
    /// Between its stops.
    Floating,
    /// On the gas end: full of fluid.
    Full,
}

impl Piston {
    fn wall(&self, moment: &Moment) -> Wall {
        Wall {
            temperature: moment.gas,
            lag: self.lag,
            seconds: moment.seconds,
            loss: self.loss,
        }
    }

    /// The piston in a stage that ends at a moment.
    pub fn until(&self, moment: &Moment) -> MovingPiston {
        let path = self.charge.path(self.wall(moment));
        let at = |volume: f64| path.pressure(volume).0 - ATMOSPHERE;
        MovingPiston {
            piston: *self,
            path,
            unmoved: at(self.charge.volume),
            ends: None,
            last: self.charge.volume,
        }
    }

    /// The gas after a step that ended at a gauge pressure of the fluid.
    pub fn after(&self, pressure: f64, moment: &Moment) -> GasCharge {
        let mut moving = self.until(moment);
        let volume = moving.gas_volume(pressure).0;
        moving.path.end(volume)
    }

    /// Where the piston stands with a volume of gas.
    pub fn stop(&self, volume: f64) -> PistonStop {
        if volume >= self.room * (1.0 - 1e-9) {
            PistonStop::Bottomed
        } else if volume <= self.least * (1.0 + 1e-9) {
            PistonStop::Full
        } else {
            PistonStop::Floating
        }
    }
}

/// A piston during one stage, with what stays the same while the pressure is searched for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MovingPiston {
    piston: Piston,
    path: Path,
    /// Pressure of the gas at the end if the piston stays where it is, Pa gauge.
    unmoved: f64,
    /// The same with the piston on its gas end and on its fluid end, once somebody asked.
    ends: Option<(f64, f64)>,
    /// Where the search ended last: the next one begins there.
    last: f64,
}

impl MovingPiston {
    /// Volume of the gas with the fluid at a gauge pressure, and its change with that.
    ///
    /// The piston stays where it is as long as the difference is less than its friction.
    fn gas_volume(&mut self, pressure: f64) -> (f64, f64) {
        let friction = self.piston.friction;
        if pressure + friction <= self.unmoved {
            self.search(pressure + friction)
        } else if pressure - friction >= self.unmoved {
            self.search(pressure - friction)
        } else {
            (self.piston.charge.volume, 0.0)
        }
    }

    /// Volume of the gas at its own gauge pressure, and its change with that.
    fn search(&mut self, gas: f64) -> (f64, f64) {
        let (least, room) = (self.piston.least, self.piston.room);
        let at = |volume: f64| self.path.pressure(volume).0 - ATMOSPHERE;
        let (full, bottomed) = *self.ends.get_or_insert_with(|| (at(least), at(room)));
        if bottomed >= gas {
            return (room, 0.0);
        }
        if full <= gas {
            return (least, 0.0);
        }
        let absolute = gas + ATMOSPHERE;
        let found = self.path.volume_between(absolute, (least, room), self.last);
        self.last = found.0;
        found
    }

    /// Volume of the fluid held at its gauge pressure, and its change with that.
    pub fn held(&mut self, pressure: f64) -> (f64, f64) {
        let (volume, slope) = self.gas_volume(pressure);
        (self.piston.room - volume, -slope)
    }
}

/// A length of line at a temperature: its change of volume with pressure, and by how much its
/// fluid shrank, m3. Vapour is left out: see [`vapour`].
pub fn line(volume: f64, stiffness: (f64, f64), fluid: (f64, f64)) -> (f64, f64) {
    let (bulk_modulus, swelling) = stiffness;
    let (expansion, temperature) = fluid;
    (
        volume / bulk_modulus + swelling,
        volume * expansion * (temperature - 288.15),
    )
}

/// What vapour and air take from a line at a gauge pressure, and its change with that.
pub fn vapour(pressure: f64) -> (f64, f64) {
    if pressure < VAPOUR {
        (VAPOUR_SLOPE * (pressure - VAPOUR), VAPOUR_SLOPE)
    } else {
        (0.0, 0.0)
    }
}

/// Air at a gauge pressure, by its volume at one atmosphere: what it gave way, and the change.
pub fn air(volume: f64, pressure: f64) -> (f64, f64) {
    let absolute = (pressure + ATMOSPHERE).max(0.02 * ATMOSPHERE);
    let now = volume * ATMOSPHERE / absolute;
    (volume - now, now / absolute)
}

impl Store {
    /// Volume held, m3 at 15 C, and its change with pressure, m3/Pa, at a gauge pressure.
    pub fn volume(&self, pressure: f64, moment: &Moment) -> (f64, f64) {
        match self {
            Self::Line {
                volume,
                bulk_modulus,
                expansion,
                swelling,
            } => {
                let stiffness = (*bulk_modulus, *swelling);
                let (slope, shrunk) = line(*volume, stiffness, (*expansion, moment.fluid));
                let (taken, by_pressure) = vapour(pressure);
                (slope * pressure - shrunk + taken, slope + by_pressure)
            }
            Self::Air(volume) => air(*volume, pressure),
            Self::Brake(stack) => stack.volume(pressure),
            Self::Gas(piston) if moment.seconds <= 0.0 => (piston.room - piston.charge.volume, 0.0),
            Self::Gas(piston) => piston.until(moment).held(pressure),
        }
    }
}
