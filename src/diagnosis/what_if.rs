//! What would be believed, had something been answered otherwise.

use super::cause::Part;
use super::evidence::{Evidence, Item, Reply};
use super::inference::Inference;
use super::ranking::ranking;

/// The leading cause and its chance; `None` where the answers would contradict each other.
pub type Leader = Option<(usize, f64)>;

/// One thing that was answered, and what each other answer would have led to.
#[derive(Debug, Clone, PartialEq)]
pub struct Otherwise {
    /// What was answered.
    pub item: Item,
    /// The leading cause had it not been answered at all.
    pub without: Leader,
    /// The other answers of a check, or the other words of a condition with words, each by its
    /// place with the leading cause it gives.
    pub other: Vec<(usize, Leader)>,
}

/// The leading cause under some evidence.
pub fn leader(inference: &Inference, evidence: &Evidence) -> Leader {
    let belief = inference.believe(evidence).ok()?;
    let ranked = ranking(inference.model(), &belief, Part::Cause);
    ranked.first().map(|row| (row.event, row.probability))
}

/// Every condition and check that was answered, in their order, with what else could have been.
///
/// One pass of the engine for each answer of each answered check, and one more for each item.
pub fn otherwise(inference: &Inference, evidence: &Evidence) -> Vec<Otherwise> {
    let items = evidence.items().into_iter();
    items
        .filter(|item| *item != Item::Report)
        .map(|item| {
            let without = evidence.without(item);
            Otherwise {
                item,
                without: leader(inference, &without),
                other: others(inference, evidence, &without, item),
            }
        })
        .collect()
}

fn others(
    inference: &Inference,
    evidence: &Evidence,
    without: &Evidence,
    item: Item,
) -> Vec<(usize, Leader)> {
    let check = match item {
        Item::Check(check) => check,
        Item::Condition(condition) => {
            return other_words(inference, evidence, without, condition);
        }
        Item::Report | Item::Fall => return Vec::new(),
    };
    let model = inference.model();
    let said = match &evidence.replies[check] {
        Reply::Answered(answers) => answers.last().copied(),
        _ => None,
    };
    let answers = 0..model.checks[check].answers.len();
    answers
        .filter(|answer| Some(*answer) != said)
        .map(|answer| {
            let mut then = without.clone();
            then.answer(model, check, answer);
            (answer, leader(inference, &then))
        })
        .collect()
}

/// The other words of a condition that has words; a quantity has none to step through.
fn other_words(
    inference: &Inference,
    evidence: &Evidence,
    without: &Evidence,
    condition: usize,
) -> Vec<(usize, Leader)> {
    let model = inference.model();
    if model.questions[condition].quantity.is_some() {
        return Vec::new();
    }
    let said = evidence.known[condition].as_ref();
    let count = model.tree.conditions[condition].values.len();
    let sure = |value: usize| -> Vec<f64> {
        (0..count)
            .map(|at| f64::from(u8::from(at == value)))
            .collect()
    };
    let others = (0..count).filter(|value| said != Some(&sure(*value)));
    others
        .map(|value| {
            let mut then = without.clone();
            then.give(model, condition, value);
            (value, leader(inference, &then))
        })
        .collect()
}

/// For one cause: a check, and its chance after each answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Split {
    /// The check.
    pub check: usize,
    /// Chance of the cause after each answer; `None` where that answer cannot be.
    pub after: Vec<Option<f64>>,
}

impl Split {
    /// Distance between the highest and the lowest chance.
    pub fn spread(&self) -> f64 {
        let known = || self.after.iter().flatten().copied();
        known().fold(0.0, f64::max) - known().fold(1.0, f64::min)
    }
}

/// What each of some checks would do to one cause, the widest split first, ties in their order.
pub fn splits(
    inference: &Inference,
    evidence: &Evidence,
    event: usize,
    checks: &[usize],
) -> Vec<Split> {
    let model = inference.model();
    let split = |check: &usize| Split {
        check: *check,
        after: (0..model.checks[*check].answers.len())
            .map(|answer| {
                let mut then = evidence.clone();
                then.answer(model, *check, answer);
                let belief = inference.believe(&then).ok()?;
                Some(belief.events[event])
            })
            .collect(),
    };
    let mut all: Vec<Split> = checks.iter().map(split).collect();
    all.sort_by(|a, b| b.spread().total_cmp(&a.spread()));
    all
}
