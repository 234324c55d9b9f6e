//! Which answers cannot all be true: an irreducible set of evidence with probability 0.

use super::evidence::{Evidence, Item};
use super::inference::Inference;
use crate::tree::layers::OverBudget;

/// An irreducible contradiction, or `None` where the evidence is possible.
///
/// All sets of one, two and three are tried first, in the order report, conditions, checks; then
/// items are dropped one at a time in that order while the rest stays impossible.
/// Complexity: about n^3 / 6 sweeps for n items.
pub fn irreducible(
    inference: &Inference,
    evidence: &Evidence,
) -> Result<Option<Vec<Item>>, OverBudget> {
    let impossible = |items: &[Item]| -> Result<bool, OverBudget> {
        Ok(inference.probability(&evidence.only(items))? <= 0.0)
    };
    let items = evidence.items();
    if !impossible(&items)? {
        return Ok(None);
    }
    for size in 1..=3.min(items.len()) {
        for set in subsets(&items, size) {
            if impossible(&set)? {
                return Ok(Some(set));
            }
        }
    }
    let mut set = items.clone();
    for item in items {
        let smaller: Vec<Item> = set.iter().copied().filter(|other| *other != item).collect();
        if impossible(&smaller)? {
            set = smaller;
        }
    }
    Ok(Some(set))
}

/// All subsets of one size, in the order of their members.
fn subsets(items: &[Item], size: usize) -> Vec<Vec<Item>> {
    if size == 0 {
        return vec![Vec::new()];
    }
    let mut all = Vec::new();
    for (at, first) in items.iter().enumerate() {
        for mut rest in subsets(&items[at + 1..], size - 1) {
            rest.insert(0, *first);
            all.push(rest);
        }
    }
    all
}

/// How an item of evidence is written.
pub fn item_name(inference: &Inference, item: Item) -> String {
    let model = inference.model();
    match item {
        Item::Report => "report".to_owned(),
        Item::Condition(condition) => model.tree.conditions[condition].id.clone(),
        Item::Check(check) => model.checks[check].id.clone(),
        Item::Fall => "fall of the gauge".to_owned(),
    }
}
