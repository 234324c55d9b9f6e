//! A pressure of the store as somebody typed it: with a unit, within what the pumps give, and not
//! in the other unit by a slip.

use super::error::pressure_words;
use crate::base::dimension::Dimension;
use crate::base::quantity::{Quantity, QuantityError, plain_decimal};
use crate::base::unit::PSI;

/// Why a typed pressure is asked back. Both readings are shown.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum StoredError {
    /// Nobody can tell which unit was meant.
    #[error("has no unit: {bare} bar is {:.0} psi, {bare} psi is {:.0} bar; write which", .bare * 1e5 / PSI, .bare * PSI / 1e5)]
    NoUnit {
        /// What was typed.
        bare: f64,
    },
    /// No pump gives it.
    #[error("is out of range: {meant}; the pumps give {most}")]
    OutOfRange {
        /// What it is in either unit.
        meant: String,
        /// What the pumps give.
        most: String,
    },
    /// It would be a usual one in the other unit.
    #[error("may be in the wrong unit: {meant}; write it in {other} to say which")]
    OtherUnit {
        /// What it is in either unit.
        meant: String,
        /// The other unit.
        other: &'static str,
    },
    /// It is no pressure.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
}

/// Reads a stored pressure, Pa gauge; `most` is what the pumps give.
pub fn stored(text: &str, most: f64) -> Result<f64, StoredError> {
    Ok(within(text, most, 1.001)?.min(most))
}

/// How far above the pumps a gauge may read, for heat and for its own error: judgement.
const SHOWN: f64 = 1.2;

/// Reads what a gauge of the store shows, Pa gauge; heat and its own error may put it above
/// `most`, which the pumps give.
pub fn shown(text: &str, most: f64) -> Result<f64, StoredError> {
    within(text, most, SHOWN)
}

fn within(text: &str, most: f64, beyond: f64) -> Result<f64, StoredError> {
    if let Some(bare) = plain_decimal(text.trim()) {
        return Err(StoredError::NoUnit { bare });
    }
    let quantity = Quantity::parse(text, Dimension::GaugePressure)?;
    let value = quantity.si();
    let other = match quantity.unit().symbol {
        "psi" => "bar",
        _ => "psi",
    };
    let twin = format!("{} {other}", quantity.number());
    let twin = Quantity::parse(&twin, Dimension::GaugePressure)?;
    let meant = format!(
        "`{quantity}` is {}, `{twin}` would be {}",
        pressure_words(value),
        pressure_words(twin.si())
    );
    if !(0.0..=most * beyond).contains(&value) {
        let most = pressure_words(most);
        return Err(StoredError::OutOfRange { meant, most });
    }
    // A low figure that would be a usual one in the other unit is a slip more often than not.
    let usual = 0.15 * most..=most * beyond;
    if value > 0.0 && value < 0.1 * most && usual.contains(&twin.si()) {
        return Err(StoredError::OtherUnit { meant, other });
    }
    Ok(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_of_the_unit_is_asked_back_with_both_readings() {
        let most = 206e5;
        assert!((stored("180 bar", most).unwrap_or_default() - 180e5).abs() < 1.0);
        let said = |text: &str| stored(text, most).map_err(|error| error.to_string());
        let slip = said("180 psi").unwrap_err();
        assert!(slip.contains("12 bar (180 psi)"), "{slip}");
        assert!(slip.contains("180 bar (2611 psi)"), "{slip}");
        assert!(said("3000").unwrap_err().starts_with("has no unit"));
        assert!(said("3000 bar").unwrap_err().starts_with("is out of range"));
        assert!(said("4 h").is_err());
        let shown = |text: &str| shown(text, most).map_err(|error| error.to_string());
        assert!((shown("212 bar").unwrap_or_default() - 212e5).abs() < 1.0);
        for bad in ["-4 bar", "300 bar", "180 psi", "186"] {
            assert!(shown(bad).is_err(), "{bad}");
        }
    }
}
