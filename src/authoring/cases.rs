//! Worked cases that come out otherwise, each at the step that differs.

use super::document::Source;
use crate::diagnosis::evidence::Item;
use crate::diagnosis::model::Model;
use crate::diagnosis::worked_case::{Outcome, Step, Worked, step_words};
use crate::source::codes::cases as code;
use crate::source::place::Place;
use crate::source::problem::Problem;

/// The cases that failed, as problems at their steps; the text is the one the tree stands in.
pub fn problems(worked: &[Worked], model: &Model, main: &Source) -> Vec<Problem> {
    worked
        .iter()
        .filter_map(|one| problem(one, model, main))
        .collect()
}

fn problem(one: &Worked, model: &Model, main: &Source) -> Option<Problem> {
    let case = &model.cases[one.case];
    let (step, known) = match one.outcome {
        Outcome::AsExpected => return None,
        Outcome::Contradicts(step) => (step, code::CASE_CONTRADICTS),
        Outcome::Differs(step) => (step, code::CASE_DIFFERS),
    };
    let item = one.steps[step].item;
    let words = step_words(model, case, item);
    let place = place(one.case, item, model, main);
    let wanted: Vec<String> = case
        .first
        .iter()
        .map(|event| format!("`{}`", model.causes[*event].id))
        .collect();
    let wanted = crate::base::text::listed(&wanted, "or");
    let last = one.steps.last()?;
    let message = match last.leads {
        Some((leader, share)) if known == code::CASE_DIFFERS => {
            let led = |step: &Step| step.expected.is_some_and(|(_, rank, _)| rank == 1);
            let when = if one.steps.iter().any(led) {
                format!("from `{words}` on {wanted} does not lead")
            } else {
                format!("{wanted} never leads, and `{words}` sets it back most")
            };
            let leader = &model.causes[leader].id;
            format!(
                "case `{}`: {when}; in the end `{leader}` does, at {share:.3}",
                case.name
            )
        }
        _ => format!("case `{}`: with `{words}` nothing can be true", case.name),
    };
    let hint = match last.expected {
        Some((event, rank, share)) => format!(
            "`{}` ends in place {rank} at {share:.3}; look at the lines of this step",
            model.causes[event].id
        ),
        None => "look for a chance of 0 or 1 in a line of this step".to_owned(),
    };
    Some(Problem::new(known, place, message).hint(hint))
}

/// Where a step of a case stands; the name of the case for the report.
pub fn place(case: usize, item: Item, model: &Model, main: &Source) -> Place {
    let list = main.root.get("cases").map_or(&[][..], |node| node.items());
    let Some(node) = list.get(case) else {
        return main.place_of("cases");
    };
    let (section, key) = match item {
        // A case types no gauge over time.
        Item::Report | Item::Fall => {
            let name = node.get("name").unwrap_or(node);
            return Place::new(main.file, name.bytes.clone());
        }
        Item::Condition(at) => ("given", &model.tree.conditions[at].id),
        Item::Check(at) => ("answers", &model.checks[at].id),
    };
    let entry = node.get(section).and_then(|section| section.entry(key));
    let bytes = entry.map_or(&node.bytes, |entry| &entry.key_bytes);
    Place::new(main.file, bytes.clone())
}
