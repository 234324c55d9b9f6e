//! Checks that can move the aircraft without chocks asked for.

use super::{Rule, Whole};
use crate::diagnosis::situation::Situation;
use crate::plant::practice::hazard::Hazard;
use crate::source::codes::rules as code;
use crate::source::problem::Problem;

pub const RULE: Rule = Rule {
    name: "no-lock",
    code: code::NO_LOCK,
    find,
};

fn find(whole: &mut Whole<'_>) -> Vec<Problem> {
    let model = whole.model;
    let situation = Situation::as_found(model);
    let mut found = Vec::new();
    for (at, (check, entry)) in model.checks.iter().zip(whole.checks).enumerate() {
        if check.hazard < Hazard::Pressure {
            continue;
        }
        let way = situation
            .cost(model, check)
            .map_or(Vec::new(), |cost| cost.way);
        if !model.locks_of(at, &way).contains(&"chocks") {
            let message = format!(
                "check `{}` has hazard `{}` and no lock `chocks`",
                check.id,
                check.hazard.word()
            );
            let problem = Problem::new(RULE.code, entry.place_of("hazard"), message);
            found.push(
                problem.hint("add `locks: [chocks]`, here or in the action that leads there"),
            );
        }
    }
    found
}
