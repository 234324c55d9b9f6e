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

    /// Volume of the gas with the fluid at a gauge pressure, and its change with that.
    ///
    /// The piston stays where it is as long as the difference is less than its friction.
    fn gas_volume(&self, pressure: f64, path: &Path) -> (f64, f64) {
        let at = |gas: f64| path.volume_at(gas + ATMOSPHERE, self.least, self.room);
        let (driven_out, slope) = at(pressure + self.friction);
        if self.charge.volume <= driven_out {
            return (driven_out, slope);
        }
        // Only a rising pressure gets here, so the second search is rare.
        let (pushed_in, slope) = at(pressure - self.friction);
        if self.charge.volume >= pushed_in {
            return (pushed_in, slope);
        }
        (self.charge.volume, 0.0)
    }

    /// The gas after a step that ended at a gauge pressure of the fluid.
    pub fn after(&self, pressure: f64, moment: &Moment) -> GasCharge {
        let path = self.charge.path(self.wall(moment));
        path.end(self.gas_volume(pressure, &path).0)
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
                let slope = volume / bulk_modulus + swelling;
                let shrunk = volume * expansion * (moment.fluid - 288.15);
                let vapour = (pressure - VAPOUR).min(0.0);
                let vapour_slope = if vapour < 0.0 { VAPOUR_SLOPE } else { 0.0 };
                (
                    slope * pressure - shrunk + VAPOUR_SLOPE * vapour,
                    slope + vapour_slope,
                )
            }
            Self::Air(volume) => {
                let absolute = (pressure + ATMOSPHERE).max(0.02 * ATMOSPHERE);
                let now = volume * ATMOSPHERE / absolute;
                (volume - now, now / absolute)
            }
            Self::Brake(stack) => stack.volume(pressure),
            Self::Gas(piston) => {
                if moment.seconds <= 0.0 {
                    return (piston.room - piston.charge.volume, 0.0);
                }
                let path = piston.charge.path(piston.wall(moment));
                let (volume, slope) = piston.gas_volume(pressure, &path);
                (piston.room - volume, -slope)
            }
        }
    }
}
