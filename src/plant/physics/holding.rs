//! What pushes a parked aircraft, what holds it, and how it rolls.

/// Standard gravity, m/s2 (3rd CGPM, 1901).
pub const GRAVITY: f64 = 9.806_65;
/// Density of air at 15 C and one atmosphere, kg/m3 (ISO 2533).
pub const AIR_DENSITY: f64 = 1.225;
/// Share of the mass that turns with the wheels: invented.
const TURNING: f64 = 1.02;

/// What acts along the axis of a parked aircraft.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Push {
    /// Mass, kg.
    pub mass: f64,
    /// Rise over run; downhill in the direction of movement is positive.
    pub slope: f64,
    /// Wind from behind, m/s.
    pub wind: f64,
    /// Area over which the wind acts, drag coefficient included, m2.
    pub drag_area: f64,
    /// Thrust, N.
    pub thrust: f64,
}

impl Push {
    /// Force that drives it, N: `m g sin + 1/2 rho w |w| CdA + thrust`.
    pub fn force(&self) -> f64 {
        let gravity = self.mass * GRAVITY * self.slope.atan().sin();
        gravity + 0.5 * AIR_DENSITY * self.wind * self.wind.abs() * self.drag_area + self.thrust
    }

    /// Load on the ground across the slope, N.
    pub fn load(&self) -> f64 {
        self.mass * GRAVITY * self.slope.atan().cos()
    }
}

/// Where a wheel that stands still starts to turn, as a share of the load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BreakAway {
    /// The least.
    pub least: f64,
    /// The most.
    pub most: f64,
}

/// Range of the break-away coefficient after a time in hours at a temperature in kelvin.
///
/// From 0.008, a rolling figure, up to 0.03 for tyres that stood overnight in the cold: a range
/// from memory of the trade, not looked up. It grows over twelve hours and over 30 K of cold.
pub fn break_away(hours: f64, temperature: f64) -> BreakAway {
    let stood = (hours / 12.0).clamp(0.0, 1.0);
    let cold = ((288.15 - temperature) / 30.0).clamp(0.0, 1.0);
    BreakAway {
        least: 0.008,
        most: 0.008 + 0.012 * stood + 0.010 * cold,
    }
}

/// How far it has gone and how fast.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Motion {
    /// Metres.
    pub metres: f64,
    /// Metres per second.
    pub speed: f64,
}

impl Motion {
    /// The motion after some seconds under a constant net force (N) on a mass (kg).
    #[must_use]
    pub fn after(self, seconds: f64, force: f64, mass: f64) -> Self {
        let acceleration = force / (mass * TURNING);
        let speed = self.speed + acceleration * seconds;
        if speed <= 0.0 {
            // It came to rest within the step.
            let used = if acceleration < 0.0 {
                self.speed / -acceleration
            } else {
                0.0
            };
            return Self {
                metres: self.metres + 0.5 * self.speed * used,
                speed: 0.0,
            };
        }
        Self {
            metres: self.metres + 0.5 * (self.speed + speed) * seconds,
            speed,
        }
    }
}
