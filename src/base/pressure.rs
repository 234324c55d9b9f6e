//! Gauge and absolute pressure as different types, so that one is never used for the other.

use super::quantity::Quantity;

/// One standard atmosphere in Pa (10th CGPM, 1954), for sums in SI units.
pub const ATMOSPHERE: f64 = 101_325.0;
/// One standard atmosphere.
pub const STANDARD_ATMOSPHERE: AbsolutePressure = AbsolutePressure(ATMOSPHERE);

/// A pressure relative to the surrounding air, in pascals. May be negative down to vacuum.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct GaugePressure(f64);

/// A pressure relative to vacuum, in pascals. Never negative.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct AbsolutePressure(f64);

impl GaugePressure {
    /// From pascals. `None` when the value is not finite or lies below vacuum at one atmosphere.
    pub fn from_pascals(pascals: f64) -> Option<Self> {
        (pascals.is_finite() && pascals >= -STANDARD_ATMOSPHERE.0).then_some(Self(pascals))
    }

    /// From bar, with the range of [`Self::from_pascals`].
    pub fn from_bar(bar: f64) -> Option<Self> {
        Self::from_pascals(bar * 1e5)
    }

    /// In pascals.
    pub fn pascals(self) -> f64 {
        self.0
    }

    /// In bar.
    pub fn bar(self) -> f64 {
        self.0 / 1e5
    }

    /// The same pressure counted from vacuum, with one standard atmosphere outside.
    pub fn to_absolute(self) -> AbsolutePressure {
        AbsolutePressure(self.0 + STANDARD_ATMOSPHERE.0)
    }
}

impl AbsolutePressure {
    /// From pascals. `None` when the value is not finite or is negative.
    pub fn from_pascals(pascals: f64) -> Option<Self> {
        (pascals.is_finite() && pascals >= 0.0).then_some(Self(pascals))
    }

    /// In pascals.
    pub fn pascals(self) -> f64 {
        self.0
    }

    /// The same pressure counted from one standard atmosphere.
    pub fn to_gauge(self) -> GaugePressure {
        GaugePressure(self.0 - STANDARD_ATMOSPHERE.0)
    }
}

impl TryFrom<Quantity> for GaugePressure {
    type Error = Quantity;

    /// Takes a quantity of gauge pressure; gives any other quantity back.
    fn try_from(quantity: Quantity) -> Result<Self, Quantity> {
        use super::dimension::Dimension;
        match quantity.unit().dimension {
            Dimension::GaugePressure => Self::from_pascals(quantity.si()).ok_or(quantity),
            _ => Err(quantity),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::dimension::Dimension;

    #[test]
    fn gauge_and_absolute_differ_by_one_atmosphere() {
        let precharge = GaugePressure::from_bar(76.0).unwrap();
        assert!((precharge.to_absolute().pascals() - 7_701_325.0).abs() < 1e-6);
        assert_eq!(precharge.to_absolute().to_gauge(), precharge);
    }

    #[test]
    fn below_vacuum_is_refused() {
        assert!(GaugePressure::from_bar(-1.02).is_none());
        assert!(AbsolutePressure::from_pascals(-1.0).is_none());
        assert!(GaugePressure::from_bar(f64::NAN).is_none());
    }

    #[test]
    fn an_absolute_quantity_is_not_taken_for_gauge() {
        let absolute = Quantity::parse("76 bar abs", Dimension::AbsolutePressure).unwrap();
        assert!(GaugePressure::try_from(absolute).is_err());
        // 1 000 psi = 6 894.757 kPa, NIST SP 811 (2008) B.8, from memory.
        let psi = Quantity::parse("1000 psi", Dimension::GaugePressure).unwrap();
        let gauge = GaugePressure::try_from(psi).unwrap();
        assert!((gauge.bar() - 68.947_57).abs() < 1e-5);
    }
}
