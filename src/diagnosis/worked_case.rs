//! Worked cases of a tree, gone through step by step as a technician would.

use super::cause::Part;
use super::evidence::{Evidence, Item};
use super::inference::{Inference, NoBelief};
use super::model::{Case, Model};
use super::ranking::ranking;
use super::situation::Situation;
use crate::tree::layers::OverBudget;

/// Where a case stands after one step.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// What became known.
    pub item: Item,
    /// The cause that leads, and its probability; `None` where what is known contradicts itself.
    pub leads: Option<(usize, f64)>,
    /// The best of the expected causes, its place in the ranking from 1, and its probability.
    pub expected: Option<(usize, usize, f64)>,
}

/// How a case came out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// One of the expected causes leads.
    AsExpected,
    /// From this step on none of the expected causes leads.
    Differs(usize),
    /// With this step nothing can be true any more.
    Contradicts(usize),
}

/// A case that was worked.
#[derive(Debug, Clone, PartialEq)]
pub struct Worked {
    /// Place of the case in the tree.
    pub case: usize,
    /// The report first, then the conditions and the answers in the order written.
    pub steps: Vec<Step>,
    /// How it came out.
    pub outcome: Outcome,
    /// Minutes its checks take, with access and the ways to the states they need.
    pub minutes: f64,
}

/// Works every case of a tree.
///
/// Errors: the tree is too large.
pub fn work_all(inference: &Inference) -> Result<Vec<Worked>, OverBudget> {
    let cases = inference.model().cases.iter().enumerate();
    cases.map(|(at, case)| work(inference, at, case)).collect()
}

fn work(inference: &Inference, at: usize, case: &Case) -> Result<Worked, OverBudget> {
    let model = inference.model();
    let mut evidence = Evidence::report_only(model);
    let mut situation = Situation::as_found(model);
    let mut minutes = 0.0;
    let mut steps = vec![stand(inference, &evidence, case, Item::Report)?];
    for told in &case.given {
        evidence.tell(told.clone());
        let item = Item::Condition(told.condition);
        steps.push(stand(inference, &evidence, case, item)?);
    }
    for (check, answer) in &case.answers {
        match answer {
            Some(answer) => evidence.answer(model, *check, *answer),
            None => evidence.cannot(*check),
        }
        let about = &model.checks[*check];
        minutes += situation
            .cost(model, about)
            .map_or(about.minutes, |cost| cost.minutes);
        situation.make(model, about);
        steps.push(stand(inference, &evidence, case, Item::Check(*check))?);
    }
    let outcome = outcome(case, &steps);
    Ok(Worked {
        case: at,
        steps,
        outcome,
        minutes,
    })
}

fn stand(
    inference: &Inference,
    evidence: &Evidence,
    case: &Case,
    item: Item,
) -> Result<Step, OverBudget> {
    let belief = match inference.believe(evidence) {
        Ok(belief) => belief,
        Err(NoBelief::OverBudget(error)) => return Err(error),
        Err(NoBelief::Contradiction) => {
            return Ok(Step {
                item,
                leads: None,
                expected: None,
            });
        }
    };
    let rows = ranking(inference.model(), &belief, Part::Cause);
    let best = rows.iter().position(|row| case.first.contains(&row.event));
    Ok(Step {
        item,
        leads: rows.first().map(|row| (row.event, row.probability)),
        expected: best.map(|at| (rows[at].event, at + 1, rows[at].probability)),
    })
}

/// The first step from which on no expected cause leads, if none leads in the end.
fn outcome(case: &Case, steps: &[Step]) -> Outcome {
    if let Some(step) = steps.iter().position(|step| step.leads.is_none()) {
        return Outcome::Contradicts(step);
    }
    let right = |step: &Step| {
        let leads = step.leads.map(|(event, _)| event);
        leads.is_some_and(|event| case.first.contains(&event))
    };
    match steps.iter().rposition(right) {
        Some(last) if last + 1 == steps.len() => Outcome::AsExpected,
        Some(last) => Outcome::Differs(last + 1),
        None => Outcome::Differs(worst(steps)),
    }
}

/// Where no expected cause ever led: the step that set it back the most against the others.
fn worst(steps: &[Step]) -> usize {
    let share = |step: &Step| step.expected.map_or(0.0, |(_, _, p)| p);
    let mut worst = (0, 1.0);
    for (at, pair) in steps.windows(2).enumerate() {
        let kept = share(&pair[1]) / share(&pair[0]).max(f64::MIN_POSITIVE);
        if kept < worst.1 {
            worst = (at + 1, kept);
        }
    }
    worst.0
}

/// How an item reads in a list of steps: `report`, `supply-used: none`, `park-light: no`.
pub fn step_words(model: &Model, case: &Case, item: Item) -> String {
    match item {
        Item::Report => "the report".to_owned(),
        Item::Fall => "the fall of the gauge".to_owned(),
        Item::Condition(condition) => {
            let about = &model.tree.conditions[condition];
            let told = case.given.iter().find(|told| told.condition == condition);
            let certain = told.and_then(|told| told.weights.iter().position(|w| *w >= 1.0));
            match certain.filter(|_| about.values.len() > 1) {
                Some(value) => format!("{}: {}", about.id, about.values[value].0),
                None => about.id.clone(),
            }
        }
        Item::Check(check) => {
            let about = &model.checks[check];
            let answers = case.answers.iter().find(|(of, _)| *of == check);
            let answer = answers.and_then(|(_, answer)| *answer);
            let word = answer.map_or("cannot", |answer| about.answers[answer].as_str());
            format!("{}: {word}", about.id)
        }
    }
}
