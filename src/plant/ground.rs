//! Where the aircraft stands: slope, wind, thrust, mass, and what its tyres take to start.

use super::physics::holding::Push;

/// The place and what acts there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ground {
    /// Mass, slope, wind, thrust.
    pub push: Push,
    /// Break-away coefficient.
    pub break_away: f64,
    /// Rolling coefficient.
    pub rolling: f64,
}

impl Ground {
    /// Force left over, N: above 0 a standing aircraft starts to move. `held` is what the brakes
    /// hold. A push backwards moves it as well as one forwards.
    pub fn excess(&self, held: f64) -> f64 {
        self.push.force().abs() - self.break_away * self.push.load() - held
    }

    /// Net force on a rolling aircraft, N, in the direction it rolls.
    pub fn net_rolling(&self, held: f64) -> f64 {
        self.push.force().abs() - self.rolling * self.push.load() - held
    }
}
