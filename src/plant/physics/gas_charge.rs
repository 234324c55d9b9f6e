//! A charge of nitrogen behind a piston: pressure when its volume changes slowly or fast.

use super::nitrogen::{Isotherm, stiffening_and_heat};

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
        let (stiffening, cv) = stiffening_and_heat(self.temperature, self.mass / self.volume);
        let x = if wall.lag > 0.0 {
            wall.seconds / wall.lag
        } else {
            f64::INFINITY
        };
        Path {
            charge: *self,
            wall,
            stiffening,
            exponent: stiffening * self.volume / (self.mass * cv),
            mass: if wall.loss > 0.0 {
                self.mass * (-wall.loss * wall.seconds).exp()
            } else {
                self.mass
            },
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
    /// Mass left at the end, kg.
    mass: f64,
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
        self.end_worked(volume, self.worked(volume))
    }

    fn end_worked(&self, volume: f64, worked: f64) -> GasCharge {
        let from = &self.charge;
        let wall = self.wall.temperature;
        let heated = (worked - from.temperature) * self.work_kept;
        GasCharge {
            mass: self.mass,
            volume,
            temperature: wall + (from.temperature - wall) * self.kept + heated,
        }
    }

    /// Absolute pressure (Pa) at the end with a volume, and its change with the volume.
    pub fn pressure(&self, volume: f64) -> (f64, f64) {
        let worked = self.worked(volume);
        let end = self.end_worked(volume, worked);
        let density = end.mass / volume;
        let (pressure, by_density) = Isotherm::new(end.temperature).pressure(density);
        let stiffening = self.stiffening * self.charge.volume / volume;
        let cooled = stiffening * worked * self.exponent / volume * self.work_kept;
        (pressure, -by_density * density / volume - cooled)
    }

    /// The volume at which the step ends at an absolute pressure, and its change with the pressure
    /// (m3/Pa, negative). Outside of `least` and `most` it is the nearer one, and does not change.
    pub fn volume_at(&self, pressure: f64, least: f64, most: f64) -> (f64, f64) {
        if self.pressure(most).0 >= pressure {
            return (most, 0.0);
        }
        if self.pressure(least).0 <= pressure {
            return (least, 0.0);
        }
        let guess = self.charge.volume.clamp(least, most);
        self.volume_between(pressure, (least, most), guess)
    }

    /// The same for a pressure that is reached between two volumes, from a guess on.
    ///
    /// Newton's method inside a bracket; some three evaluations.
    pub fn volume_between(&self, pressure: f64, bracket: (f64, f64), guess: f64) -> (f64, f64) {
        let (mut low, mut high) = bracket;
        let mut volume = guess;
        for _ in 0..60 {
            let (found, slope) = self.pressure(volume);
            if found > pressure {
                low = volume;
            } else {
                high = volume;
            }
            let step = (pressure - found) / slope;
            let next = volume + step;
            // What is left after such a step is far below what it was.
            if step.abs() < CLOSE * volume && low <= next && next <= high {
                return (next, 1.0 / slope);
            }
            volume = if low < next && next < high {
                next
            } else {
                0.5 * (low + high)
            };
        }
        (volume, 1.0 / self.pressure(volume).1)
    }
}

/// The last step of the search for a volume, as a share of it.
const CLOSE: f64 = 1e-9;
