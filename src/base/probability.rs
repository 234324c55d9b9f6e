//! A probability that cannot be out of range or NaN.

use super::physical::{Rate, Seconds};

/// A number from 0 to 1.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Probability(f64);

impl Probability {
    /// Certainty that it is not so.
    pub const ZERO: Self = Self(0.0);
    /// Certainty that it is so.
    pub const ONE: Self = Self(1.0);

    /// Accepts 0 to 1, both included. NaN and anything outside come back as `None`.
    pub fn new(value: f64) -> Option<Self> {
        (0.0..=1.0).contains(&value).then_some(Self(value))
    }

    /// The chance that a fault with a constant rate is there after an exposure, 1 - exp(-rate t).
    ///
    /// Uses `expm1`, because the plain form loses every digit near rate x t = 1e-12.
    /// Source: the exponential life law, IEC 61025:2006 (method standard).
    pub fn from_rate(rate: Rate, exposure: Seconds) -> Self {
        Self((-(-rate.per_second() * exposure.seconds()).exp_m1()).clamp(0.0, 1.0))
    }

    /// The number.
    pub fn value(self) -> f64 {
        self.0
    }

    /// The chance that it is not so. Formed once, from an input, never from a sum.
    #[must_use]
    pub fn complement(self) -> Self {
        Self(1.0 - self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nan_and_values_outside_are_refused() {
        for bad in [f64::NAN, -0.000_1, 1.3, f64::INFINITY] {
            assert!(Probability::new(bad).is_none(), "{bad}");
        }
        assert_eq!(Probability::new(1.0), Some(Probability::ONE));
    }

    #[test]
    fn a_tiny_rate_keeps_its_digits() {
        let rate = Rate::new(1e-12).unwrap();
        let chance = Probability::from_rate(rate, Seconds::new(1.0).unwrap());
        // 1 - exp(-1e-12) = 1e-12 - 5e-25 by its series.
        assert!((chance.value() / 1e-12 - 1.0).abs() < 1e-12);
    }
}
