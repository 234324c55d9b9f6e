//! A brake as a vessel and as a clamp.

/// What a stack of discs with its pistons is like. All invented for the demo aircraft.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stack {
    /// Area of all pistons, m2.
    pub area: f64,
    /// Running clearance, m.
    pub clearance: f64,
    /// Pressure at which the return springs give, Pa.
    pub preload: f64,
    /// Pressure at which the clearance is used up, Pa.
    pub contact: f64,
    /// Volume the stack gives while it beds in, m3, and the pressure it takes, Pa.
    pub bedding: (f64, f64),
    /// Stiffness after that, m3/Pa.
    pub slope: f64,
    /// Swelling of the hose, m3/Pa.
    pub hose: f64,
}

impl Stack {
    /// Volume taken in, m3, and its change with pressure, m3/Pa, at a gauge pressure in Pa.
    ///
    /// Nothing below the preload, the whole clearance between preload and contact, then bedding
    /// and stiffness: the flat part is why pressure falls slowly just before the brake lets go.
    pub fn volume(&self, pressure: f64) -> (f64, f64) {
        let swept = self.area * self.clearance;
        let hose = (self.hose * pressure, self.hose);
        let span = (self.contact - self.preload).max(1.0);
        if pressure <= self.preload {
            hose
        } else if pressure < self.contact {
            let share = (pressure - self.preload) / span;
            (hose.0 + swept * share, hose.1 + swept / span)
        } else {
            let above = pressure - self.contact;
            let (most, scale) = self.bedding;
            let left = (-above / scale).exp();
            (
                hose.0 + swept + most * (1.0 - left) + self.slope * above,
                hose.1 + most * left / scale + self.slope,
            )
        }
    }
}

/// What turns clamping into a force at the tyre.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Friction {
    /// Static coefficient between the discs.
    pub coefficient: f64,
    /// Rubbing faces.
    pub faces: f64,
    /// Mean radius of the discs, m.
    pub mean_radius: f64,
    /// Radius of the tyre, m.
    pub tyre_radius: f64,
}

/// Force in N that one brake can hold at its tyre, for a gauge pressure in Pa.
///
/// `mu N r_m A (p - contact) / r_t`. Tyre grip is a limit of its own, at whoever sums.
pub fn holding_force(stack: &Stack, friction: &Friction, pressure: f64) -> f64 {
    let clamp = stack.area * (pressure - stack.contact).max(0.0);
    friction.coefficient * friction.faces * friction.mean_radius * clamp / friction.tyre_radius
}
