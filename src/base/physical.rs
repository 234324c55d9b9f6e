//! The remaining physical values, each its own type, held in SI and never negative.

/// Declares a newtype over a finite, non-negative SI value.
macro_rules! physical {
    ($(#[$doc:meta])* $name:ident, $si:ident) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            /// From the SI value. `None` when it is negative or not finite.
            pub fn new($si: f64) -> Option<Self> {
                ($si.is_finite() && $si >= 0.0).then_some(Self($si))
            }

            /// The SI value.
            pub fn $si(self) -> f64 {
                self.0
            }
        }
    };
}

physical!(
    /// A volume.
    Volume, cubic_metres
);
physical!(
    /// A flow of volume.
    Flow, cubic_metres_per_second
);
physical!(
    /// A length of time.
    Seconds, seconds
);
physical!(
    /// A constant failure rate.
    Rate, per_second
);
physical!(
    /// A mass.
    Mass, kilograms
);

impl Seconds {
    /// From hours, with the range of [`Self::new`].
    pub fn from_hours(hours: f64) -> Option<Self> {
        Self::new(hours * 3600.0)
    }

    /// In hours.
    pub fn hours(self) -> f64 {
        self.0 / 3600.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn negative_and_not_finite_are_refused() {
        assert!(Volume::new(-1e-9).is_none());
        assert!(Mass::new(f64::INFINITY).is_none());
        assert!(Rate::new(f64::NAN).is_none());
        assert_eq!(Seconds::from_hours(2.0).map(Seconds::seconds), Some(7200.0));
    }
}
