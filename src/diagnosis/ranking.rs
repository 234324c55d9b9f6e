//! Causes in order of probability.

use super::cause::Part;
use super::inference::Belief;
use super::model::Model;

/// One row of a ranking.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ranked {
    /// Place of the basic event.
    pub event: usize,
    /// Its probability.
    pub probability: f64,
}

/// Events of one kind, most probable first.
///
/// Probabilities are compared rounded to 12 decimals, so that ties fall in file order on every
/// machine.
pub fn ranking(model: &Model, belief: &Belief, part: Part) -> Vec<Ranked> {
    let mut rows: Vec<Ranked> = model
        .causes
        .iter()
        .enumerate()
        .filter(|(_, cause)| cause.part == part)
        .map(|(event, _)| Ranked {
            event,
            probability: belief.events[event],
        })
        .collect();
    rows.sort_by(|a, b| rounded(b.probability).total_cmp(&rounded(a.probability)));
    rows
}

/// A probability rounded to 12 decimals.
pub fn rounded(probability: f64) -> f64 {
    (probability * 1e12).round() / 1e12
}

/// How many of 100 jobs like this.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a probability times 100 lies between 0 and 100"
)]
pub fn of_100(probability: f64) -> u32 {
    (probability.clamp(0.0, 1.0) * 100.0).round() as u32
}
