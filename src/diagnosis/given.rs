//! What people type about conditions and checks: `yes`, `none`, `5 h`, `2 h to 5 h`, `cannot`.

use super::evidence::Told;
use super::fact::Fact;
use super::model::Model;
use super::reading::{ReadingError, judge, takes_readings};
use crate::base::quantity::{Quantity, QuantityError};
use crate::plant::parking::Parking;
use crate::plant::stored_pressure::{StoredError, stored};

/// Why a typed word does not fit.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum GivenError {
    /// There is no condition of that name.
    #[error("there is no condition `{0}`")]
    NoCondition(String),
    /// There is no check of that name.
    #[error("there is no check `{0}`")]
    NoCheck(String),
    /// The condition has no such value.
    #[error("condition `{condition}` has no value `{word}`; it takes {accepted}")]
    NoValue {
        /// The condition.
        condition: String,
        /// What was typed.
        word: String,
        /// What would do.
        accepted: String,
    },
    /// The check has no such answer.
    #[error("check `{check}` has no answer `{word}`; it takes {accepted}")]
    NoAnswer {
        /// The check.
        check: String,
        /// What was typed.
        word: String,
        /// What would do.
        accepted: String,
    },
    /// The check takes a reading that cannot be judged yet.
    #[error("check `{check}` cannot take the reading `{word}` yet; it takes {accepted}")]
    NoReading {
        /// The check.
        check: String,
        /// What was typed.
        word: String,
        /// What would do.
        accepted: String,
    },
    /// A quantity was typed wrong.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
    /// A reading gives no answer.
    #[error(transparent)]
    Reading(#[from] ReadingError),
    /// A value that no parking has.
    #[error("`{0}` is out of range")]
    OutOfRange(String),
    /// A charge that cannot be, or may be in the other unit.
    #[error("{0}")]
    Stored(String),
    /// The ends of an interval are the wrong way round.
    #[error("`{0}` is not an interval from a smaller to a larger value")]
    Interval(String),
}

/// What a typed word says of a condition: its place and the weights its values get.
pub fn condition(model: &Model, name: &str, word: &str) -> Result<Told, GivenError> {
    let found = model.tree.conditions.iter().position(|c| c.id == name);
    let at = found.ok_or_else(|| GivenError::NoCondition(name.to_owned()))?;
    let values = &model.tree.conditions[at].values;
    let told = |weights, span| Told {
        condition: at,
        weights,
        span,
    };
    if let Some(fact) = model.questions[at].fact {
        let span = fact_span(model, fact, word)?;
        return Ok(told(vec![1.0; values.len()], Some(span)));
    }
    let only = |value: usize| -> Vec<f64> {
        (0..values.len())
            .map(|other| if other == value { 1.0 } else { 0.0 })
            .collect()
    };
    if let Some(value) = values.iter().position(|(known, _)| known == word) {
        return Ok(told(only(value), None));
    }
    let Some(scale) = &model.questions[at].quantity else {
        let known: Vec<&str> = values.iter().map(|(known, _)| known.as_str()).collect();
        return Err(GivenError::NoValue {
            condition: name.to_owned(),
            word: word.to_owned(),
            accepted: known.join(", "),
        });
    };
    if let Some((low, high)) = word.split_once(" to ") {
        let low = Quantity::parse(low, scale.dimension())?.si();
        let high = Quantity::parse(high, scale.dimension())?.si();
        if low > high {
            return Err(GivenError::Interval(word.to_owned()));
        }
        let weights = interval(values, &scale.bands, low, high);
        return Ok(told(weights, Some((low, high))));
    }
    let si = Quantity::parse(word, scale.dimension())?.si();
    let band = scale.band_of(si).ok_or_else(|| GivenError::NoValue {
        condition: name.to_owned(),
        word: word.to_owned(),
        accepted: values
            .iter()
            .map(|v| v.0.as_str())
            .collect::<Vec<_>>()
            .join(", "),
    })?;
    Ok(told(only(band), Some((si, si))))
}

/// The two ends of a fact, in SI units; the same twice where one value is typed.
///
/// Two temperatures are those of the beginning and of the end, whichever is the higher.
fn fact_span(model: &Model, fact: Fact, word: &str) -> Result<(f64, f64), GivenError> {
    let row = fact.row();
    let read = |text: &str| -> Result<f64, GivenError> {
        if fact == Fact::Charge {
            return charge(model, text);
        }
        let quantity = Quantity::parse(text, row.dimension)?;
        if (row.least..=row.most).contains(&quantity.si()) {
            Ok(quantity.si())
        } else {
            Err(GivenError::OutOfRange(word.to_owned()))
        }
    };
    let Some((low, high)) = word.split_once(" to ") else {
        let value = read(word)?;
        return Ok((value, value));
    };
    let (low, high) = (read(low)?, read(high)?);
    if low > high && fact != Fact::Temperature {
        return Err(GivenError::Interval(word.to_owned()));
    }
    Ok((low, high))
}

/// A charge of the store that a pump can give, and not in the other unit by a slip.
fn charge(model: &Model, text: &str) -> Result<f64, GivenError> {
    let aircraft = model.aircraft.as_ref();
    let healthy = aircraft.and_then(|aircraft| Parking::usual().begin(aircraft).ok());
    let most = healthy.map_or(Fact::Charge.row().most, |healthy| healthy.pump_pressure());
    stored(text, most).map_err(|error| match error {
        StoredError::Quantity(error) => GivenError::Quantity(error),
        _ => GivenError::Stored(format!("`{text}` {error}")),
    })
}

/// The bands an interval meets, in proportion to their chances.
fn interval(
    values: &[(String, f64)],
    bands: &[Option<(f64, f64)>],
    low: f64,
    high: f64,
) -> Vec<f64> {
    let named: Vec<(f64, f64)> = bands.iter().copied().flatten().collect();
    let meets = |band: &Option<(f64, f64)>| match band {
        Some((from, to)) => *from <= high && low < *to,
        None => meets_between(&named, low, high),
    };
    let weights = values.iter().zip(bands);
    let weights: Vec<f64> = weights
        .map(|(v, band)| if meets(band) { v.1 } else { 0.0 })
        .collect();
    let sum: f64 = weights.iter().sum();
    if sum > 0.0 {
        return weights.into_iter().map(|weight| weight / sum).collect();
    }
    // Far outside what is usual every band met is alike.
    let met: Vec<f64> = bands
        .iter()
        .map(|b| if meets(b) { 1.0 } else { 0.0 })
        .collect();
    let sum: f64 = met.iter().sum();
    met.into_iter().map(|weight| weight / sum).collect()
}

/// Whether some value of an interval falls into no named band.
fn meets_between(named: &[(f64, f64)], low: f64, high: f64) -> bool {
    let inside = |at: f64| named.iter().any(|(from, to)| *from <= at && at < *to);
    let ends = named
        .iter()
        .map(|(_, to)| *to)
        .filter(|to| low <= *to && *to <= high);
    ends.chain([low, high]).any(|at| !inside(at))
}

/// The place of a check and of its answer; `None` for "cannot".
pub fn reply(model: &Model, name: &str, word: &str) -> Result<(usize, Option<usize>), GivenError> {
    let at = model
        .check(name)
        .ok_or_else(|| GivenError::NoCheck(name.to_owned()))?;
    let check = &model.checks[at];
    if word == "cannot" {
        return Ok((at, None));
    }
    if let Some(answer) = check.answer(word) {
        return Ok((at, Some(answer)));
    }
    if takes_readings(check)
        && Quantity::parse_any(word.split(" at ").next().unwrap_or(word)).is_ok()
    {
        let judged = judge(model, at, word, None)?;
        return Ok((at, Some(judged.answer)));
    }
    let accepted = format!("{}, cannot", check.answers.join(", "));
    let (check, word) = (name.to_owned(), word.to_owned());
    if model.checks[at].reads.is_some() && Quantity::parse_any(&word).is_ok() {
        return Err(GivenError::NoReading {
            check,
            word,
            accepted,
        });
    }
    Err(GivenError::NoAnswer {
        check,
        word,
        accepted,
    })
}
