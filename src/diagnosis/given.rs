//! What people type about conditions and checks: `yes`, `none`, `5 h`, `2 h to 5 h`, `cannot`.

use super::model::Model;
use super::reading::{ReadingError, judge, takes_readings};
use crate::base::quantity::{Quantity, QuantityError};

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
    /// The ends of an interval are the wrong way round.
    #[error("`{0}` is not an interval from a smaller to a larger value")]
    Interval(String),
}

/// The place of a condition and the weights its values get from a typed word.
pub fn condition(model: &Model, name: &str, word: &str) -> Result<(usize, Vec<f64>), GivenError> {
    let found = model.tree.conditions.iter().position(|c| c.id == name);
    let at = found.ok_or_else(|| GivenError::NoCondition(name.to_owned()))?;
    let values = &model.tree.conditions[at].values;
    let only = |value: usize| -> Vec<f64> {
        (0..values.len())
            .map(|other| if other == value { 1.0 } else { 0.0 })
            .collect()
    };
    if let Some(value) = values.iter().position(|(known, _)| known == word) {
        return Ok((at, only(value)));
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
        return Ok((at, interval(values, &scale.bands, low, high)));
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
    Ok((at, only(band)))
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
