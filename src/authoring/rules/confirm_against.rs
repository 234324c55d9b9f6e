//! Confirming answers that the cause itself makes unlikely.

use super::{Rule, Whole};
use crate::source::codes::rules as code;
use crate::source::problem::Problem;
use crate::tree::diagram::FALSE;
use crate::tree::scale::variable_weights;

pub const RULE: Rule = Rule {
    name: "confirm-against",
    code: code::CONFIRM_AGAINST,
    find,
};

/// A confirming answer comes at least this often where the cause is there alone: judgement.
const OFTEN_ENOUGH: f64 = 0.5;

fn find(whole: &mut Whole<'_>) -> Vec<Problem> {
    let model = whole.model;
    let mut found = Vec::new();
    for (event, cause, confirm) in whole.confirmed() {
        let mut alone = vec![0.0; model.causes.len()];
        alone[event] = 1.0;
        let weights = variable_weights(&model.tree, &alone);
        let top = whole.all(&[model.tree.top]);
        let reported = whole.probability(top, &weights);
        let check = &model.checks[confirm.check];
        let mut above = FALSE;
        let mut chance = 0.0;
        for line in &check.lines {
            let holds = whole.all(&line.when);
            let decides = whole.but_not(holds, above);
            let both = whole.both(decides, top);
            chance += line.shares[confirm.answer] * whole.probability(both, &weights);
            above = whole.either(holds, above);
        }
        // A cause that needs a second one cannot be looked at alone.
        if reported > 0.0 && chance / reported < OFTEN_ENOUGH && !whole.is_full() {
            let chance = chance / reported;
            let message = format!(
                "`{}` alone gives the confirming answer `{}` of `{}` with a chance of {chance:.3}",
                cause.id, check.answers[confirm.answer], check.id
            );
            let place = whole.events[event].place_of("confirm");
            let problem = Problem::new(RULE.code, place, message);
            found.push(problem.hint("look at the answer, and at the lines of the check"));
        }
    }
    found
}
