//! The one table of units, metric and US, with their factors to SI.
//!
//! Factors follow the international definitions: 1 in = 25.4 mm, 1 lb = 0.45359237 kg (1959
//! yard and pound agreement), standard gravity 9.80665 m/s2 (3rd CGPM, 1901), US gallon 231 in3,
//! and the temperature scales of SI brochure section 2.3.1 (0 degC = 273.15 K).

use super::dimension::Dimension;
use super::suggestion::nearest;

/// One unit: how it is written and how it converts.
#[derive(Debug, PartialEq)]
pub struct Unit {
    /// The way it is written in documents, and the way it is printed.
    pub symbol: &'static str,
    /// What it measures.
    pub dimension: Dimension,
    /// SI value = number x factor + offset.
    pub factor: f64,
    /// Added after the factor; only temperatures have one.
    pub offset: f64,
}

const fn unit(symbol: &'static str, dimension: Dimension, factor: f64) -> Unit {
    Unit {
        symbol,
        dimension,
        factor,
        offset: 0.0,
    }
}

const fn scale(symbol: &'static str, factor: f64, offset: f64) -> Unit {
    Unit {
        symbol,
        dimension: Dimension::Temperature,
        factor,
        offset,
    }
}

use Dimension as D;

/// Pascals in 1 bar.
pub const BAR: f64 = 1e5;
/// Pascals in one pound-force per square inch: 0.45359237 x 9.80665 / 0.0254^2.
pub const PSI: f64 = 0.453_592_37 * 9.806_65 / (0.025_4 * 0.025_4);
const MINUTE: f64 = 60.0;
const HOUR: f64 = 3600.0;
const CUBIC_INCH: f64 = 0.025_4 * 0.025_4 * 0.025_4;

/// Every unit a document or a reading may carry, in the order help shows them.
pub const UNITS: &[Unit] = &[
    unit("bar", D::GaugePressure, 1e5),
    unit("psi", D::GaugePressure, PSI),
    unit("kPa", D::GaugePressure, 1e3),
    unit("MPa", D::GaugePressure, 1e6),
    unit("bar abs", D::AbsolutePressure, 1e5),
    unit("psi abs", D::AbsolutePressure, PSI),
    unit("kPa abs", D::AbsolutePressure, 1e3),
    unit("MPa abs", D::AbsolutePressure, 1e6),
    scale("C", 1.0, 273.15),
    scale("F", 5.0 / 9.0, 273.15 - 32.0 * 5.0 / 9.0),
    scale("K", 1.0, 0.0),
    unit("L", D::Volume, 1e-3),
    unit("mL", D::Volume, 1e-6),
    unit("cm3", D::Volume, 1e-6),
    unit("m3", D::Volume, 1.0),
    unit("in3", D::Volume, CUBIC_INCH),
    unit("gal", D::Volume, 231.0 * CUBIC_INCH),
    unit("mL/min", D::Flow, 1e-6 / MINUTE),
    unit("L/min", D::Flow, 1e-3 / MINUTE),
    unit("cm3/s", D::Flow, 1e-6),
    unit("in3/min", D::Flow, CUBIC_INCH / MINUTE),
    unit("s", D::Time, 1.0),
    unit("min", D::Time, MINUTE),
    unit("h", D::Time, HOUR),
    unit("d", D::Time, 24.0 * HOUR),
    unit("/h", D::Rate, 1.0 / HOUR),
    unit("kg", D::Mass, 1.0),
    unit("t", D::Mass, 1e3),
    unit("lb", D::Mass, 0.453_592_37),
    unit("kg/m3", D::Density, 1.0),
    unit("m", D::Length, 1.0),
    unit("cm", D::Length, 1e-2),
    unit("mm", D::Length, 1e-3),
    unit("um", D::Length, 1e-6),
    unit("ft", D::Length, 0.304_8),
    unit("in", D::Length, 0.025_4),
    unit("m2", D::Area, 1.0),
    unit("cm2", D::Area, 1e-4),
    unit("mm2", D::Area, 1e-6),
    unit("in2", D::Area, 0.025_4 * 0.025_4),
    unit("m/s", D::Speed, 1.0),
    unit("km/h", D::Speed, 1.0 / 3.6),
    unit("kt", D::Speed, 1852.0 / HOUR),
    unit("N", D::Force, 1.0),
    unit("kN", D::Force, 1e3),
    unit("lbf", D::Force, 0.453_592_37 * 9.806_65),
    unit("ohm", D::Resistance, 1.0),
    unit("kohm", D::Resistance, 1e3),
    unit("V", D::Voltage, 1.0),
    unit("mm2/s", D::Viscosity, 1e-6),
    unit("cSt", D::Viscosity, 1e-6),
    unit("%", D::Slope, 0.01),
    unit("/K", D::PerKelvin, 1.0),
];

impl Unit {
    /// Finds a unit by its exact symbol. Case matters: `MPa` and `mPa` are not the same thing.
    pub fn find(symbol: &str) -> Option<&'static Unit> {
        UNITS.iter().find(|unit| unit.symbol == symbol)
    }

    /// The symbol most like the one written, for "did you mean".
    pub fn like(symbol: &str) -> Option<&'static str> {
        // A wrong case is the commonest slip, and a one-letter symbol leaves no room for edits.
        let folded = UNITS
            .iter()
            .find(|unit| unit.symbol.eq_ignore_ascii_case(symbol));
        folded
            .map(|unit| unit.symbol)
            .or_else(|| nearest(symbol, UNITS.iter().map(|unit| unit.symbol)))
    }

    /// The symbols of all units of one kind, for messages and help.
    pub fn symbols_of(dimension: Dimension) -> Vec<&'static str> {
        UNITS
            .iter()
            .filter(|unit| unit.dimension == dimension)
            .map(|unit| unit.symbol)
            .collect()
    }

    /// Converts a number in this unit to SI.
    pub fn to_si(&self, number: f64) -> f64 {
        number * self.factor + self.offset
    }

    /// Converts an SI value to a number in this unit.
    pub fn from_si(&self, si: f64) -> f64 {
        (si - self.offset) / self.factor
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn si(symbol: &str, number: f64) -> f64 {
        Unit::find(symbol).unwrap().to_si(number)
    }

    fn close(a: f64, b: f64) {
        assert!((a - b).abs() <= 1e-9 * b.abs().max(1.0), "{a} is not {b}");
    }

    // NIST SP 811 (2008) appendix B.8: psi 6.894757 kPa, US gallon 3.785412 L, cubic inch
    // 16.38706 mL, knot 0.5144444 m/s, pound-force 4.448222 N. Figures from memory, to the 7 digits
    // that the table prints, so half a unit of the last digit is allowed.
    #[test]
    fn factors_match_the_published_conversion_table() {
        let table = [
            ("psi", 6894.757),
            ("gal", 3.785_412e-3),
            ("in3", 1.638_706e-5),
            ("kt", 0.514_444_4),
            ("lbf", 4.448_222),
        ];
        for (symbol, value) in table {
            let got = si(symbol, 1.0);
            assert!((got / value - 1.0).abs() < 3.1e-7, "{symbol}: {got}");
        }
    }

    #[test]
    fn temperature_fixed_points() {
        close(si("C", 0.0), 273.15);
        close(si("F", 32.0), 273.15);
        close(si("F", 212.0), 373.15);
        close(si("F", -40.0), si("C", -40.0));
    }

    #[test]
    fn every_unit_converts_there_and_back_and_stands_once() {
        for unit in UNITS {
            close(unit.from_si(unit.to_si(37.25)), 37.25);
            let twins = UNITS.iter().filter(|u| u.symbol == unit.symbol).count();
            assert_eq!(twins, 1, "{}", unit.symbol);
        }
    }

    #[test]
    fn a_wrong_case_is_suggested() {
        assert_eq!(Unit::like("Bar"), Some("bar"));
        assert_eq!(Unit::like("ml/min"), Some("mL/min"));
        assert_eq!(Unit::like("parsec"), None);
    }
}
