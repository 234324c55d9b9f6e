//! A charge of nitrogen behind a piston: pressure when its volume changes slowly or fast.

use super::nitrogen::{Isotherm, properties};

/// A fixed mass of gas in a volume.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GasCharge {
    /// Mass, kg.
    pub mass: f64,
    /// Volume, m3.
    pub volume: f64,
    /// Temperature, K.
    pub temperature: f64,
}

/// How the gas exchanges heat with its wall during a step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wall {
    /// Temperature of the wall, K.
    pub temperature: f64,
    /// Time constant of the gas, s.
    pub lag: f64,
    /// Length of the step, s.
    pub seconds: f64,
    /// Gas that leaks away, as a share per second.
    pub loss: f64,
}

impl GasCharge {
    /// A charge put in at an absolute pressure (Pa) and temperature (K) into a volume (m3).
    pub fn filled(pressure: f64, temperature: f64, volume: f64) -> Self {
        let density = Isotherm::new(temperature).density(pressure);
        Self {
            mass: density * volume,
            volume,
            temperature,
        }
    }

    /// Absolute pressure, Pa.
    pub fn pressure(&self) -> f64 {
        Isotherm::new(self.temperature)
            .pressure(self.mass / self.volume)
            .0
    }

    /// The ways this charge can go in a step with a wall.
    pub fn path(&self, wall: Wall) -> Path {
        let state = properties(self.temperature, self.mass / self.volume);
        let x = if wall.lag > 0.0 {
            wall.seconds / wall.lag
        } else {
            f64::INFINITY
        };
        Path {
            charge: *self,
            wall,
            stiffening: state.pressure_by_temperature,
            exponent: state.pressure_by_temperature * self.volume / (self.mass * state.cv),
            // After twenty lags nothing is left of how the step began.
            kept: if x > 20.0 { 0.0 } else { (-x).exp() },
            work_kept: if x > 1e-9 { -(-x).exp_m1() / x } else { 1.0 },
        }
    }
}

/// The states that a charge can reach in one step, by the volume it ends with.
///
/// The work of the step changes the temperature as `V` to a power, and the wall pulls it back with
/// its lag, the thermal time constant at constant volume: a short step is isentropic, a long one
/// isothermal but for what the work of the last lag leaves. The power is `(dp/dT) V / (m cv)`,
/// constant for an ideal gas and taken from the beginning of the step; the work is spread evenly
/// over the step. Both keep the error of a step of second order.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Path {
    charge: GasCharge,
    wall: Wall,
    stiffening: f64,
    exponent: f64,
    kept: f64,
    work_kept: f64,
}

impl Path {
    /// Temperature that the work of the step alone would leave.
    fn worked(&self, volume: f64) -> f64 {
        self.charge.temperature * (volume / self.charge.volume).powf(-self.exponent)
    }

    /// The charge at the end of the step with a volume.
    pub fn end(&self, volume: f64) -> GasCharge {
        let from = &self.charge;
        let wall = self.wall.temperature;
        let heated = (self.worked(volume) - from.temperature) * self.work_kept;
        GasCharge {
            mass: from.mass * (-self.wall.loss * self.wall.seconds).exp(),
            volume,
            temperature: wall + (from.temperature - wall) * self.kept + heated,
        }
    }

    /// Absolute pressure (Pa) at the end with a volume, and its change with the volume.
    fn pressure(&self, volume: f64) -> (f64, f64) {
        let end = self.end(volume);
        let density = end.mass / volume;
        let (pressure, by_density) = Isotherm::new(end.temperature).pressure(density);
        let stiffening = self.stiffening * self.charge.volume / volume;
        let cooled = stiffening * self.worked(volume) * self.exponent / volume * self.work_kept;
        (pressure, -by_density * density / volume - cooled)
    }

    /// The volume at which the step ends at an absolute pressure, and its change with the pressure
    /// (m3/Pa, negative). Outside of `least` and `most` it is the nearer one, and does not change.
    ///
    /// Newton's method inside a bracket; some four evaluations.
    pub fn volume_at(&self, pressure: f64, least: f64, most: f64) -> (f64, f64) {
        if self.pressure(most).0 >= pressure {
            return (most, 0.0);
        }
        if self.pressure(least).0 <= pressure {
            return (least, 0.0);
        }
        let (mut low, mut high) = (least, most);
        let mut volume = self.charge.volume.clamp(least, most);
        for _ in 0..60 {
            let (found, slope) = self.pressure(volume);
            if found > pressure {
                low = volume;
            } else {
                high = volume;
            }
            let step = (pressure - found) / slope;
            if step.abs() < 1e-12 * volume {
                return (volume, 1.0 / slope);
            }
            volume += step;
            if !(low < volume && volume < high) {
                volume = 0.5 * (low + high);
            }
        }
        (volume, 1.0 / self.pressure(volume).1)
    }
}
