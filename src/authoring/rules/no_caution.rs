//! Checks that pressurise, release or open without a caution.

use super::{Rule, Whole};
use crate::diagnosis::situation::Situation;
use crate::plant::practice::hazard::Hazard;
use crate::source::codes::rules as code;
use crate::source::problem::Problem;

pub const RULE: Rule = Rule {
    name: "no-caution",
    code: code::NO_CAUTION,
    find,
};

fn find(whole: &mut Whole<'_>) -> Vec<Problem> {
    let model = whole.model;
    let situation = Situation::as_found(model);
    let mut found = Vec::new();
    for (check, entry) in model.checks.iter().zip(whole.checks) {
        if check.hazard < Hazard::Pressure || !check.cautions.is_empty() {
            continue;
        }
        // The way to the state may carry it.
        let way = situation
            .cost(model, check)
            .map_or(Vec::new(), |cost| cost.way);
        let carried = model.aircraft.as_deref().is_some_and(|aircraft| {
            way.iter()
                .any(|action| !aircraft.actions[*action].step.cautions.is_empty())
        });
        if !carried {
            let message = format!(
                "check `{}` has hazard `{}` and no caution",
                check.id,
                check.hazard.word()
            );
            let problem = Problem::new(RULE.code, entry.place_of("hazard"), message);
            found.push(problem.hint("add `cautions`: what can hurt, in the fixed words"));
        }
    }
    found
}
