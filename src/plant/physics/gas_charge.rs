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

    /// The charge after its volume went to another value while heat passed through the wall.
    ///
    /// The work of the step changes the temperature by `-T (dp/dT) dV / (m cv)`, the wall pulls it
    /// back with its lag: a short step is isentropic, a long one isothermal.
    #[must_use]
    pub fn moved_to(&self, volume: f64, wall: Wall) -> Self {
        let temperature = self.settled(volume, wall);
        Self {
            mass: self.mass * (-wall.loss * wall.seconds).exp(),
            volume,
            temperature,
        }
    }

    fn settled(&self, volume: f64, wall: Wall) -> f64 {
        let share = if wall.lag > 0.0 {
            wall.seconds / wall.lag
        } else {
            f64::INFINITY
        };
        // After twenty lags no trace of the work is left.
        if share > 20.0 {
            return wall.temperature;
        }
        let middle = 0.5 * (volume + self.volume);
        let state = properties(self.temperature, self.mass / middle);
        let cooling = state.pressure_by_temperature / (self.mass * state.cv);
        // Logarithmic in the volume, so that a long stroke cannot cool below zero kelvin.
        let worked = self.temperature * (-cooling * (volume - self.volume)).exp();
        let kept = (-share).exp();
        wall.temperature + (worked - wall.temperature) * kept
    }

    /// The volume at which the gas has an absolute pressure, after a step with a wall.
    ///
    /// Bisection with secants between `least` and `most`; outside of them the nearer one.
    pub fn volume_at(&self, pressure: f64, least: f64, most: f64, wall: Wall) -> f64 {
        if wall.seconds > 20.0 * wall.lag {
            let density = Isotherm::new(wall.temperature).density(pressure);
            let mass = self.mass * (-wall.loss * wall.seconds).exp();
            return (mass / density).clamp(least, most);
        }
        let excess = |volume: f64| self.moved_to(volume, wall).pressure() / pressure.max(1.0) - 1.0;
        let (mut low, mut high) = (least, most);
        let (mut at_low, mut at_high) = (excess(low), excess(high));
        if at_low <= 0.0 {
            return least;
        }
        if at_high >= 0.0 {
            return most;
        }
        for round in 0..80 {
            let share = if round % 3 == 2 {
                0.5
            } else {
                at_low / (at_low - at_high)
            };
            let middle = low + (high - low) * share.clamp(0.02, 0.98);
            let found = excess(middle);
            if found > 0.0 {
                (low, at_low) = (middle, found);
            } else {
                (high, at_high) = (middle, found);
            }
            if found.abs() < 1e-11 || (high - low) < 1e-13 * high {
                return middle;
            }
        }
        0.5 * (low + high)
    }
}
