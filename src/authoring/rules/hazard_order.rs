//! Confirming checks that open or release where a milder one says as much.

use super::{Rule, Whole};
use crate::diagnosis::check::Check;
use crate::plant::practice::hazard::Hazard;
use crate::source::codes::rules as code;
use crate::source::problem::Problem;
use crate::tree::node::Node;

pub const RULE: Rule = Rule {
    name: "hazard-order",
    code: code::HAZARD_ORDER,
    find,
};

/// Chance at which an answer counts as one that stands for a cause: judgement.
const AS_SURE: f64 = 0.9;

fn find(whole: &mut Whole<'_>) -> Vec<Problem> {
    let model = whole.model;
    let mut found = Vec::new();
    for (event, cause, confirm) in whole.confirmed() {
        let check = &model.checks[confirm.check];
        let why = whole.checks[confirm.check].field("hazard-why").is_some();
        if check.hazard < Hazard::Release || why {
            continue;
        }
        let milder = model
            .checks
            .iter()
            .find(|other| other.hazard < check.hazard && says_only(other, event));
        if let Some(milder) = milder {
            let message = format!(
                "`{}` is confirmed by `{}`, hazard `{}`, and `{}` with hazard `{}` has a line of its own for it",
                cause.id,
                check.id,
                check.hazard.word(),
                milder.id,
                milder.hazard.word()
            );
            let place = whole.events[event].place_of("confirm");
            let problem = Problem::new(RULE.code, place, message);
            found.push(
                problem.hint("confirm by the milder check, or say `hazard-why` in the other one"),
            );
        }
    }
    found
}

/// Whether one answer of a check comes nearly always with this event, and hardly ever otherwise.
fn says_only(check: &Check, event: usize) -> bool {
    let line = check
        .lines
        .iter()
        .find(|line| line.when == [Node::Event(event)]);
    line.is_some_and(|line| {
        (0..check.answers.len()).any(|answer| {
            let others = check.lines.iter().filter(|other| other.when != line.when);
            line.shares[answer] >= AS_SURE
                && others
                    .into_iter()
                    .all(|other| other.shares[answer] <= 1.0 - AS_SURE)
        })
    })
}
