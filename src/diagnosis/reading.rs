//! A reading with its unit, judged as an answer of its check.

use super::check::{Check, Shown};
use super::model::Model;
use crate::base::dimension::Dimension;
use crate::base::pressure::ATMOSPHERE;
use crate::base::quantity::{Quantity, QuantityError};
use crate::base::unit::Unit;
use crate::plant::observe::{Observable, readings_of};
use crate::plant::physics::nitrogen::Isotherm;

/// 15 C, where the aircraft says nothing else.
const USUAL: f64 = 288.15;

/// A reading and what it amounts to.
#[derive(Debug, Clone, PartialEq)]
pub struct Judged {
    /// The answer it gives.
    pub answer: usize,
    /// The sum in words: `45 bar at 8 C, as 46.2 bar at 15 C`.
    pub words: String,
    /// The reading in SI units, as it was brought.
    pub si: f64,
}

/// Why a reading gives no answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ReadingError {
    /// The check does not say which readings give which answer.
    #[error("this check takes no reading; press one of its keys")]
    NoReading,
    /// No answer covers it.
    #[error("no answer of this check covers {0}")]
    NotCovered(String),
    /// It could not be read.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
}

/// Whether a check judges readings that are numbers.
pub fn takes_readings(check: &Check) -> bool {
    let number = |shown: &Shown| matches!(shown, Shown::Between(..));
    check.shows.iter().any(|shows| number(&shows.reading))
}

/// Judges what was typed: a value with its unit, and for the gas side perhaps ` at 8 C` behind it.
///
/// A pressure of the gas side is first brought to the temperature for which the tree is written,
/// at constant volume: cold alone moves it (206 bar at 20 C are 171 bar at -15 C). `found` is the
/// temperature (K) written down before, used where none is typed.
pub fn judge(
    model: &Model,
    check: usize,
    typed: &str,
    found: Option<f64>,
) -> Result<Judged, ReadingError> {
    let check = &model.checks[check];
    let observable = observable(model, check).filter(|_| takes_readings(check));
    let observable = observable.ok_or(ReadingError::NoReading)?;
    let unit = Unit::find(observable.unit).ok_or(ReadingError::NoReading)?;
    let (value, at) = match typed.split_once(" at ") {
        Some((value, at)) => (value, Some(Quantity::parse(at, Dimension::Temperature)?)),
        None => (typed, None),
    };
    let quantity = Quantity::parse(value, unit.dimension)?;
    let environment = model.aircraft.as_deref().map(|a| &a.environment);
    let written_for = environment
        .and_then(|environment| environment.temperature)
        .map_or(USUAL, Quantity::si);
    let kelvin = at.map(Quantity::si).or(found);
    let mut si = quantity.si();
    let mut words = quantity.to_string();
    if let (true, Some(kelvin)) = (observable.gas_side, kelvin) {
        si = brought(si, kelvin, written_for);
        words.push_str(&format!(
            " at {:.0} C, as {:.1} {} at {:.0} C",
            kelvin - 273.15,
            quantity.unit().from_si(si),
            quantity.unit().symbol,
            written_for - 273.15
        ));
    }
    let covers = |shown: &Shown| matches!(shown, Shown::Between(a, b) if *a <= si && si < *b);
    let shows = check.shows.iter().find(|shows| covers(&shows.reading));
    match shows {
        Some(shows) => Ok(Judged {
            answer: shows.answer,
            words,
            si,
        }),
        None => Err(ReadingError::NotCovered(words)),
    }
}

/// The reading that a check takes, where the aircraft has it.
pub(super) fn observable(model: &Model, check: &Check) -> Option<&'static Observable> {
    let name = check.reads.as_deref()?;
    let aircraft = model.aircraft.as_deref()?;
    let mut known = readings_of(aircraft);
    known
        .find(|(known, ..)| known == name)
        .map(|(_, row, _)| row)
}

/// A gauge pressure (Pa) of nitrogen brought from one temperature (K) to another at constant
/// volume.
fn brought(pressure: f64, from: f64, to: f64) -> f64 {
    let density = Isotherm::new(from).density(pressure + ATMOSPHERE);
    Isotherm::new(to).pressure(density).0 - ATMOSPHERE
}

#[cfg(test)]
mod tests {
    use super::brought;

    // Reference equation of state for nitrogen (J. Phys. Chem. Ref. Data 29, 1361), worked out with
    // a property library: 1000 psig at 15 C are 854.87 psig at -20 C and 1103.15 psig at 40 C; the
    // short equation used here is within 0.2 % of it.
    #[test]
    fn a_charge_is_brought_to_another_temperature_at_constant_volume() {
        let psi = 6_894.757;
        for (kelvin, wanted) in [(253.15, 854.87), (313.15, 1103.15)] {
            let found = brought(1000.0 * psi, 288.15, kelvin) / psi;
            assert!((found / wanted - 1.0).abs() < 2.5e-3, "{kelvin} K: {found}");
        }
    }
}
