//! Evidence that a check needs and nothing takes away.

use super::{Rule, Whole};
use crate::source::codes::rules as code;
use crate::source::problem::Problem;

pub const RULE: Rule = Rule {
    name: "evidence-nobody-takes",
    code: code::NEVER_LOST,
    find,
};

fn find(whole: &mut Whole<'_>) -> Vec<Problem> {
    let model = whole.model;
    // Without an aircraft its actions are not known.
    let Some(aircraft) = model.aircraft.as_deref() else {
        return Vec::new();
    };
    let checks = model.checks.iter().flat_map(|check| &check.takes_away);
    let actions = aircraft
        .actions
        .iter()
        .flat_map(|action| &action.step.takes_away);
    let accesses = aircraft
        .accesses
        .iter()
        .flat_map(|access| &access.step.takes_away);
    let taken: Vec<&str> = checks
        .chain(actions)
        .chain(accesses)
        .map(|word| word.name)
        .collect();
    let mut found = Vec::new();
    for (check, entry) in model.checks.iter().zip(whole.checks) {
        for (nth, word) in check.needs_evidence.iter().enumerate() {
            if !taken.contains(&word.name) {
                let message = format!(
                    "check `{}` needs `{}`, which nothing takes away",
                    check.id, word.name
                );
                let place = entry.place_of_item("needs-evidence", nth);
                let problem = Problem::new(RULE.code, place, message);
                found.push(
                    problem.hint("say in `takes-away` of a check or an action what costs it"),
                );
            }
        }
    }
    found
}
