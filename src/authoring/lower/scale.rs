//! Mistakes of scale, placed.

use super::condition::shown;
use super::located::Located;
use crate::authoring::document::Source;
use crate::source::codes::tree as code;
use crate::source::place::Place;
use crate::source::problem::Problem;
use crate::tree::fault_tree::Chance;
use crate::tree::scale::ScaleError;

/// Places a mistake of scale at the entry it speaks of.
pub fn problem(error: &ScaleError, main: &Source, events: &[Located<'_>]) -> Problem {
    let event = |event: &usize, key: &str| events[*event].place_of(key);
    let (code, place, hint): (_, Place, &str) = match error {
        ScaleError::NothingToScale => (
            code::PER_PARKING,
            main.place_of("top"),
            "add `per-parking` to the tree",
        ),
        ScaleError::TypedForNothing => (
            code::PER_PARKING,
            main.place_of("per-parking"),
            "take it out; it is worked out from the rates",
        ),
        ScaleError::GivenNeverHolds { event: at } => (
            code::GIVEN,
            event(at, "given"),
            "look at the chances of its conditions",
        ),
        ScaleError::TooLikely { event: at, .. } => (
            code::GIVEN,
            event(at, "seen"),
            "shorten the exposure of the parts, or widen the node it acts behind",
        ),
        ScaleError::NeverTrue => (
            code::NEVER_TRUE,
            main.place_of("top"),
            "look for chances of 0 and for gates that exclude each other",
        ),
        ScaleError::OverBudget(_) => (
            code::OVER_BUDGET,
            main.place_of("top"),
            "look for gates that many checks name, and for events that everything shares",
        ),
    };
    Problem::new(code, place, error.to_string()).hint(hint)
}

/// Counted shares that leave nothing for causes with rates.
pub fn sum_of_shares(entries: &[Located<'_>], chances: &[Chance]) -> Option<Problem> {
    let share = |chance: &Chance| match chance {
        Chance::Seen { share, .. } => *share,
        _ => 0.0,
    };
    let sum: f64 = chances.iter().map(share).sum();
    let mut rows = entries.iter().zip(chances).rev();
    let (last, _) = rows.find(|(_, chance)| share(chance) > 0.0)?;
    (sum >= 1.0).then(|| {
        let message = format!("the counted shares add up to {}", shown(sum));
        Problem::new(code::SHARES, last.place_of("seen"), message)
            .hint("leave a share for causes that have rates")
    })
}
