//! Values of controls: read from words, and moved one step up or down.

use super::{Control, Figure, Form};
use crate::base::dimension::Dimension;
use crate::base::quantity::{Quantity, QuantityError, plain_decimal};
use crate::base::unit::Unit;
use crate::plant::handle::Change;
use crate::plant::stored_pressure::{StoredError, stored};

/// Feet off the pedals.
pub(super) const FREE: &str = "free";
/// Words for how far a pair of pedals is pressed; above 102 % is hard.
const PRESSED: [(&str, f64); 3] = [(FREE, 0.0), ("down", 1.0), ("hard", 1.1)];
/// Lag of the equipment behind the air where a history of it names none, s: invented.
const LAG: f64 = 5400.0;

/// Why a value cannot be set.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ControlError {
    /// It has positions, and this is none of them.
    #[error("`{name}` has no position `{value}`; it has {}", accepted.join(", "))]
    Position {
        /// The control.
        name: String,
        /// What was written.
        value: String,
        /// What it takes.
        accepted: Vec<String>,
    },
    /// It is no quantity of the kind.
    #[error("{error}; units accepted here: {}", Unit::symbols_of(*wanted).join(", "))]
    Quantity {
        /// What is wrong.
        error: QuantityError,
        /// What it measures.
        wanted: Dimension,
    },
    /// It is no stored pressure.
    #[error("`{name}` {error}")]
    Stored {
        /// The control.
        name: String,
        /// What is wrong.
        error: StoredError,
    },
    /// It is no plain number.
    #[error("`{name}` takes a plain number, and `{value}` is none")]
    Number {
        /// The control.
        name: String,
        /// What was written.
        value: String,
    },
    /// It is no travel of pedals.
    #[error(
        "`{0}` says nothing of feet; write free, down, hard, or percent left and right: 100 60"
    )]
    Feet(String),
    /// It is no history of air temperature.
    #[error("`{0}` is no history of air temperature; write 35 C, 6 h -15 C, lag 1.5 h")]
    Air(String),
}

impl Control {
    /// Reads a value that is set at a time (s since the beginning) into a change; `most` is what
    /// the pumps give, Pa.
    pub fn read(&self, value: &str, seconds: f64, most: f64) -> Result<Change, ControlError> {
        let value = value.trim();
        match &self.form {
            Form::Switch(positions) => {
                self.position(value, positions)?;
                Ok(Change::Switch(self.name.clone(), value.to_owned()))
            }
            Form::Hand(positions) => {
                self.position(value, positions)?;
                Ok(Change::Hand(self.name.clone(), value.to_owned()))
            }
            Form::Feet => {
                let (left, right) = feet(value).ok_or(ControlError::Feet(value.to_owned()))?;
                Ok(Change::Feet(self.name.clone(), left, right))
            }
            Form::Figure(figure) => Ok(figure.change(self.figure(*figure, value)?)),
            Form::Air => air(value, seconds),
            Form::Precharge => {
                let (gas, at) = value.split_once(" at ").unwrap_or((value, "20 C"));
                let pressure = self.stored(gas, most)?;
                let at = quantity(at, Dimension::Temperature)?;
                Ok(Change::Precharge(pressure, at.si()))
            }
        }
    }

    fn position(&self, value: &str, accepted: &[String]) -> Result<(), ControlError> {
        if accepted.iter().any(|known| known == value) {
            return Ok(());
        }
        Err(ControlError::Position {
            name: self.name.clone(),
            value: value.to_owned(),
            accepted: accepted.to_vec(),
        })
    }

    fn figure(&self, figure: Figure, value: &str) -> Result<f64, ControlError> {
        let (_, _, dimension, _, _) = figure.about();
        match dimension {
            Some(dimension) => Ok(quantity(value, dimension)?.si()),
            None => plain_decimal(value).ok_or_else(|| ControlError::Number {
                name: self.name.clone(),
                value: value.to_owned(),
            }),
        }
    }

    fn stored(&self, text: &str, most: f64) -> Result<f64, ControlError> {
        charge(&self.name, text, most)
    }

    /// The value one step further up or down; `None` where it has no step.
    pub fn stepped(&self, value: &str, up: bool) -> Option<String> {
        let by = |step: f64| if up { step } else { -step };
        match &self.form {
            Form::Switch(words) | Form::Hand(words) => {
                let at = words.iter().position(|word| word == value)?;
                let next = if up { at + 1 } else { at + words.len() - 1 };
                words.get(next % words.len()).cloned()
            }
            Form::Feet => {
                let (left, _) = feet(value)?;
                let at = PRESSED.iter().rposition(|(_, travel)| *travel <= left)?;
                let next = if up { at + 1 } else { at.checked_sub(1)? };
                PRESSED.get(next).map(|(word, _)| (*word).to_owned())
            }
            Form::Figure(figure) => {
                let (_, _, dimension, step, _) = figure.about();
                match dimension {
                    Some(dimension) => moved(value, dimension, by(step)),
                    None => Some(tidy((plain_decimal(value)? + by(step)).max(0.0))),
                }
            }
            Form::Air => moved(value, Dimension::Temperature, by(5.0)),
            Form::Precharge => {
                let (gas, at) = value.split_once(" at ").unwrap_or((value, "20 C"));
                let gas = moved(gas, Dimension::GaugePressure, by(5.0))?;
                Some(format!("{gas} at {at}"))
            }
        }
    }
}

/// Reads the charge of the store as the pumps stop, Pa gauge.
pub fn charge(name: &str, text: &str, most: f64) -> Result<f64, ControlError> {
    stored(text, most).map_err(|error| match error {
        StoredError::Quantity(error) => ControlError::Quantity {
            error,
            wanted: Dimension::GaugePressure,
        },
        error => ControlError::Stored {
            name: name.to_owned(),
            error,
        },
    })
}

fn quantity(text: &str, wanted: Dimension) -> Result<Quantity, ControlError> {
    Quantity::parse(text, wanted).map_err(|error| ControlError::Quantity { error, wanted })
}

/// A quantity with so much added to its number, in its own unit.
fn moved(value: &str, dimension: Dimension, by: f64) -> Option<String> {
    let now = Quantity::parse(value, dimension).ok()?;
    Some(format!("{} {}", tidy(now.number() + by), now.unit().symbol))
}

/// A number without the dust that adding decimals leaves.
fn tidy(number: f64) -> String {
    let text = format!("{number:.4}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" {
        "0".to_owned()
    } else {
        text.to_owned()
    }
}

/// `down`, `60 %` or `100 60`: left and right, 1 is full travel.
fn feet(value: &str) -> Option<(f64, f64)> {
    if let Some((_, travel)) = PRESSED.iter().find(|(word, _)| *word == value) {
        return Some((*travel, *travel));
    }
    let percent = |text: &str| Some(plain_decimal(text)? / 100.0);
    let plain = value.replace('%', " ");
    let mut words = plain.split_whitespace();
    let left = percent(words.next()?)?;
    let right = words.next().map_or(Some(left), percent)?;
    words.next().is_none().then_some((left, right))
}

/// `15 C` for the same air from now on, or `35 C, 6 h -15 C, lag 1.5 h` for air that changes
/// evenly from one to the next; hours count from when it is set.
fn air(value: &str, seconds: f64) -> Result<Change, ControlError> {
    if !value.contains(',') {
        let steady = quantity(value, Dimension::Temperature)?;
        return Ok(Change::Temperature(steady.si()));
    }
    let wrong = || ControlError::Air(value.to_owned());
    let si = |text: &str, wanted| {
        Quantity::parse(text, wanted)
            .map(Quantity::si)
            .map_err(|_| wrong())
    };
    let (mut points, mut lag) = (Vec::new(), LAG);
    for piece in value.split(',').map(str::trim) {
        if let Some(text) = piece.strip_prefix("lag ") {
            lag = si(text, Dimension::Time)?;
            continue;
        }
        let words: Vec<&str> = piece.split_whitespace().collect();
        let (after, kelvin) = match words[..] {
            [number, unit] => (0.0, format!("{number} {unit}")),
            [count, of, number, unit] => {
                let after = si(&format!("{count} {of}"), Dimension::Time)?;
                (after, format!("{number} {unit}"))
            }
            _ => return Err(wrong()),
        };
        points.push((seconds + after, si(&kelvin, Dimension::Temperature)?));
    }
    if points.is_empty() {
        return Err(wrong());
    }
    Ok(Change::Weather(points, lag))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn control(form: Form) -> Control {
        Control {
            name: "it".to_owned(),
            title: "It".to_owned(),
            form,
            usual: String::new(),
        }
    }

    #[test]
    fn air_over_the_hours_counts_from_when_it_is_set() {
        let read = control(Form::Air).read("35 C, 6 h -15 C, lag 1.5 h", 3600.0, 206e5);
        let points = vec![(3600.0, 308.15), (7.0 * 3600.0, 258.15)];
        assert_eq!(read, Ok(Change::Weather(points, 5400.0)));
        assert!(control(Form::Air).read("35 C, warm", 0.0, 206e5).is_err());
    }

    #[test]
    fn feet_are_words_or_percent() {
        assert_eq!(feet("down"), Some((1.0, 1.0)));
        assert_eq!(feet("100 60"), Some((1.0, 0.6)));
        assert_eq!(feet("50 %"), Some((0.5, 0.5)));
        assert_eq!(feet("1 2 3"), None);
        assert_eq!(feet("hop"), None);
    }

    #[test]
    fn a_step_keeps_the_unit_and_stops_at_the_ends() {
        let stepped = |form, value: &str, up| control(form).stepped(value, up);
        let words = vec!["off".to_owned(), "on".to_owned()];
        assert_eq!(
            stepped(Form::Switch(words), "on", true).as_deref(),
            Some("off")
        );
        assert_eq!(stepped(Form::Feet, "hard", true), None);
        assert_eq!(stepped(Form::Air, "15 C", false).as_deref(), Some("10 C"));
        let slope = Form::Figure(Figure::Slope);
        assert_eq!(
            stepped(slope.clone(), "-0.5 %", true).as_deref(),
            Some("0 %")
        );
        assert_eq!(stepped(slope, "steep", true), None);
        let gas = stepped(Form::Precharge, "1000 psi at 68 F", true);
        assert_eq!(gas.as_deref(), Some("1005 psi at 68 F"));
    }
}
