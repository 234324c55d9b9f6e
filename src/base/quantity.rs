//! A number with its unit, read from text the way documents write it: `76 bar`, `1.3 mL/min`.

use std::fmt;

use super::dimension::Dimension;
use super::unit::Unit;

/// A physical value that remembers the unit it was written in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Quantity {
    number: f64,
    unit: &'static Unit,
}

/// Why a text is not a quantity.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum QuantityError {
    /// The text does not start with a decimal number.
    #[error("`{0}` does not start with a number")]
    NotANumber(String),
    /// There is a number and nothing after it.
    #[error("`{0}` has no unit")]
    NoUnit(String),
    /// The unit is not in the table.
    #[error("`{0}` is not a unit known here")]
    UnknownUnit(String),
    /// The unit measures something else than was asked for.
    #[error("`{text}` is {found}, and {wanted} is wanted here")]
    WrongKind {
        /// What was written.
        text: String,
        /// What it measures.
        found: &'static str,
        /// What was asked for.
        wanted: &'static str,
    },
    /// The number is too large to be held.
    #[error("`{0}` is too large")]
    TooLarge(String),
}

impl Quantity {
    /// Builds a quantity; refuses a number that is not finite.
    pub fn new(number: f64, unit: &'static Unit) -> Result<Self, QuantityError> {
        if unit.to_si(number).is_finite() {
            Ok(Self { number, unit })
        } else {
            Err(QuantityError::TooLarge(format!("{number} {}", unit.symbol)))
        }
    }

    /// Reads a text such as `76 bar` and demands the given kind.
    ///
    /// Units: any of [`super::unit::UNITS`]; a space between number and unit may be left out.
    /// Errors: see [`QuantityError`].
    pub fn parse(text: &str, wanted: Dimension) -> Result<Self, QuantityError> {
        let quantity = Self::parse_any(text)?;
        if quantity.unit.dimension == wanted {
            return Ok(quantity);
        }
        Err(QuantityError::WrongKind {
            text: text.trim().to_owned(),
            found: quantity.unit.dimension.word(),
            wanted: wanted.word(),
        })
    }

    /// Reads a text such as `76 bar` of whatever kind its unit says.
    pub fn parse_any(text: &str) -> Result<Self, QuantityError> {
        let text = text.trim();
        let (digits, symbol) = split_number(text);
        let Some(number) = plain_decimal(digits) else {
            return Err(QuantityError::NotANumber(text.to_owned()));
        };
        if symbol.is_empty() {
            return Err(QuantityError::NoUnit(text.to_owned()));
        }
        let unit =
            Unit::find(symbol).ok_or_else(|| QuantityError::UnknownUnit(symbol.to_owned()))?;
        Self::new(number, unit)
    }

    /// The value in SI units.
    pub fn si(self) -> f64 {
        self.unit.to_si(self.number)
    }

    /// The number as written.
    pub fn number(self) -> f64 {
        self.number
    }

    /// The unit as written.
    pub fn unit(self) -> &'static Unit {
        self.unit
    }
}

impl fmt::Display for Quantity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.number, self.unit.symbol)
    }
}

/// Splits `1.3e-6 /h` into its number and its unit; either may come out empty.
fn split_number(text: &str) -> (&str, &str) {
    let mut end = 0;
    let bytes = text.as_bytes();
    while let Some(&byte) = bytes.get(end) {
        let exponent_sign = matches!(byte, b'+' | b'-')
            && (end == 0 || matches!(bytes.get(end - 1), Some(b'e' | b'E')));
        // An `e` belongs to the number only when digits or a sign follow.
        let exponent = matches!(byte, b'e' | b'E')
            && matches!(bytes.get(end + 1), Some(b'0'..=b'9' | b'+' | b'-'));
        if !(byte.is_ascii_digit() || byte == b'.' || exponent_sign || exponent) {
            break;
        }
        end += 1;
    }
    let (digits, rest) = text.split_at(end);
    (digits, rest.trim())
}

/// Reads a plain decimal number: no hexadecimal, no `nan`, no `inf`, no underscores.
///
/// Returns `None` for anything else, and for a number too large to be finite.
pub fn plain_decimal(text: &str) -> Option<f64> {
    let starts_well = text
        .trim_start_matches(['+', '-'])
        .starts_with(|c: char| c.is_ascii_digit() || c == '.');
    let only_decimal = text
        .chars()
        .all(|c| c.is_ascii_digit() || matches!(c, '.' | '+' | '-' | 'e' | 'E'));
    if !(starts_well && only_decimal) {
        return None;
    }
    text.parse().ok().filter(|number: &f64| number.is_finite())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Result<f64, QuantityError> {
        Quantity::parse_any(text).map(Quantity::si)
    }

    #[test]
    fn numbers_and_units_are_read_with_and_without_a_space() {
        assert_eq!(read("76 bar"), Ok(76e5));
        assert_eq!(read("76bar"), Ok(76e5));
        assert_eq!(read("1 d"), Ok(86_400.0));
        assert_eq!(read("12e-6 /h"), Ok(12e-6 / 3600.0));
        assert_eq!(read("76 bar abs"), Ok(76e5));
    }

    #[test]
    fn what_is_not_a_quantity_is_refused_with_its_reason() {
        use QuantityError as E;
        assert_eq!(read("bar"), Err(E::NotANumber("bar".into())));
        assert_eq!(read("76"), Err(E::NoUnit("76".into())));
        assert_eq!(read("76 baar"), Err(E::UnknownUnit("baar".into())));
        assert_eq!(read("0x10 bar"), Err(E::UnknownUnit("x10 bar".into())));
        assert_eq!(read(".nan bar"), Err(E::NotANumber(".nan bar".into())));
        assert!(matches!(read("1e999 bar"), Err(E::NotANumber(_))));
        assert!(matches!(read("1e308 MPa"), Err(E::TooLarge(_))));
    }

    #[test]
    fn a_pressure_is_not_accepted_for_a_flow() {
        let error = Quantity::parse("25 psi", Dimension::Flow).unwrap_err();
        assert_eq!(
            error.to_string(),
            "`25 psi` is a pressure, and a flow is wanted here"
        );
    }

    #[test]
    fn only_plain_decimals_are_numbers() {
        for good in ["1", "0.5", ".5", "1e-7", "-3", "+2.5E+3"] {
            assert!(plain_decimal(good).is_some(), "{good}");
        }
        for bad in [
            "", ".", "0x10", ".nan", ".inf", "nan", "inf", "1_000", "1e", "1,5",
        ] {
            assert!(plain_decimal(bad).is_none(), "{bad}");
        }
    }
}
