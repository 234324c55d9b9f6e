//! What is known: the report, the conditions, the answers.

use std::sync::Arc;

use super::fell::Fell;
use super::model::Model;

/// The answer to one check.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum Reply {
    /// Not asked yet.
    #[default]
    Open,
    /// Could not be checked.
    Cannot,
    /// Answered; more than once only where the check is repeatable.
    Answered(Vec<usize>),
}

/// Everything that is known about one report.
#[derive(Debug, Clone, PartialEq)]
pub struct Evidence {
    /// Whether the report itself counts; it does unless somebody asks without it.
    pub report: bool,
    /// For each condition the weights of its values, where something is known.
    pub known: Vec<Option<Vec<f64>>>,
    /// For each condition what was typed of its number, from and to in SI units; the same twice
    /// where it was one value.
    pub spans: Vec<Option<(f64, f64)>>,
    /// For each check its answer.
    pub replies: Vec<Reply>,
    /// How far a gauge fell over a watch, where one was watched.
    pub fell: Option<Arc<Fell>>,
}

/// What was said of one condition.
#[derive(Debug, Clone, PartialEq)]
pub struct Told {
    /// Its place.
    pub condition: usize,
    /// The weights of its values.
    pub weights: Vec<f64>,
    /// The number that was typed, where it was one.
    pub span: Option<(f64, f64)>,
}

/// One thing that is known, as a member of a contradiction.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Item {
    /// The report.
    Report,
    /// A condition.
    Condition(usize),
    /// A check.
    Check(usize),
    /// The fall of a gauge.
    Fall,
}

impl Evidence {
    /// Nothing known but the report.
    pub fn report_only(model: &Model) -> Self {
        Self {
            report: true,
            known: vec![None; model.tree.conditions.len()],
            spans: vec![None; model.tree.conditions.len()],
            replies: vec![Reply::Open; model.checks.len()],
            fell: None,
        }
    }

    /// Fixes a condition to one of its values.
    pub fn give(&mut self, model: &Model, condition: usize, value: usize) {
        let count = model.tree.conditions[condition].values.len();
        let weights = (0..count).map(|at| if at == value { 1.0 } else { 0.0 });
        self.known[condition] = Some(weights.collect());
        self.spans[condition] = None;
    }

    /// Takes what was said of a condition.
    pub fn tell(&mut self, told: Told) {
        self.known[told.condition] = Some(told.weights);
        self.spans[told.condition] = told.span;
    }

    /// Nothing is known of a condition any more.
    pub fn forget(&mut self, condition: usize) {
        self.known[condition] = None;
        self.spans[condition] = None;
    }

    /// Answers a check. A later answer replaces the earlier unless the check is repeatable.
    pub fn answer(&mut self, model: &Model, check: usize, answer: usize) {
        let repeatable = model.checks[check].repeatable;
        match &mut self.replies[check] {
            Reply::Answered(answers) if repeatable => answers.push(answer),
            reply => *reply = Reply::Answered(vec![answer]),
        }
    }

    /// Records that a check cannot be made.
    pub fn cannot(&mut self, check: usize) {
        self.replies[check] = Reply::Cannot;
    }

    /// Everything that is known, in the order report, conditions, checks, fall of a gauge.
    pub fn items(&self) -> Vec<Item> {
        let conditions = self.known.iter().enumerate();
        let checks = self.replies.iter().enumerate();
        let report = self.report.then_some(Item::Report);
        let conditions = conditions.filter_map(|(at, k)| k.as_ref().map(|_| Item::Condition(at)));
        let checks = checks.filter_map(|(at, reply)| match reply {
            Reply::Answered(_) => Some(Item::Check(at)),
            _ => None,
        });
        let fall = self.fell.as_ref().map(|_| Item::Fall);
        let first = report.into_iter().chain(conditions);
        first.chain(checks).chain(fall).collect()
    }

    /// The same evidence with some items only.
    #[must_use]
    pub fn only(&self, items: &[Item]) -> Self {
        let mut left = self.clone();
        left.report = items.contains(&Item::Report) && self.report;
        for (at, known) in left.known.iter_mut().enumerate() {
            if !items.contains(&Item::Condition(at)) {
                *known = None;
                left.spans[at] = None;
            }
        }
        for (at, reply) in left.replies.iter_mut().enumerate() {
            if !items.contains(&Item::Check(at)) {
                *reply = Reply::Open;
            }
        }
        if !items.contains(&Item::Fall) {
            left.fell = None;
        }
        left
    }

    /// The same evidence without one item.
    #[must_use]
    pub fn without(&self, item: Item) -> Self {
        let mut items = self.items();
        items.retain(|other| *other != item);
        self.only(&items)
    }

    /// How many checks were answered.
    pub fn answered(&self) -> usize {
        let answered = |reply: &&Reply| matches!(reply, Reply::Answered(_));
        self.replies.iter().filter(answered).count()
    }
}
