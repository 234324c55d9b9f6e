//! Why a cause stands where it stands: what each answer moved.

use super::evidence::{Evidence, Item};
use super::inference::{Belief, Inference, NoBelief};

/// What one item of evidence does to the probability of one cause.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moved {
    /// The answer or the condition.
    pub item: Item,
    /// Probability with everything else known and this left out.
    pub without: f64,
    /// Probability with everything known.
    pub with: f64,
}

impl Moved {
    /// Whether the item speaks for the cause.
    pub fn speaks_for(&self) -> bool {
        self.with > self.without
    }

    /// How far it moved the probability, up or down.
    pub fn distance(&self) -> f64 {
        (self.with - self.without).abs()
    }
}

/// For each item of evidence but the report, the belief without it.
///
/// One pass serves all causes; see [`moved`].
pub fn beliefs_without(
    inference: &Inference,
    evidence: &Evidence,
) -> Result<Vec<(Item, Belief)>, NoBelief> {
    evidence
        .items()
        .into_iter()
        .filter(|item| *item != Item::Report)
        .map(|item| Ok((item, inference.believe(&evidence.without(item))?)))
        .collect()
}

/// What each item moved one cause by, farthest first.
pub fn moved(event: usize, belief: &Belief, without: &[(Item, Belief)]) -> Vec<Moved> {
    let mut all: Vec<Moved> = without
        .iter()
        .map(|(item, other)| Moved {
            item: *item,
            without: other.events[event],
            with: belief.events[event],
        })
        .collect();
    all.sort_by(|a, b| {
        b.distance()
            .total_cmp(&a.distance())
            .then(a.item.cmp(&b.item))
    });
    all
}
