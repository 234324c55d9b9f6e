//! Absolute temperature, never below zero kelvin.

/// A temperature in kelvin.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Temperature(f64);

impl Temperature {
    /// From kelvin. `None` below absolute zero or when not finite.
    pub fn from_kelvin(kelvin: f64) -> Option<Self> {
        (kelvin.is_finite() && kelvin >= 0.0).then_some(Self(kelvin))
    }

    /// From degrees Celsius, with the range of [`Self::from_kelvin`].
    pub fn from_celsius(celsius: f64) -> Option<Self> {
        Self::from_kelvin(celsius + 273.15)
    }

    /// In kelvin.
    pub fn kelvin(self) -> f64 {
        self.0
    }

    /// In degrees Celsius.
    pub fn celsius(self) -> f64 {
        self.0 - 273.15
    }
}

#[cfg(test)]
mod tests {
    use super::Temperature;

    #[test]
    fn absolute_zero_is_the_floor() {
        assert!(Temperature::from_celsius(-273.15).is_some());
        assert!(Temperature::from_celsius(-273.16).is_none());
        assert!(Temperature::from_kelvin(f64::NAN).is_none());
    }
}
