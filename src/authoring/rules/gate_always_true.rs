//! Gates that are true whatever happens.

use super::{Rule, Whole};
use crate::source::codes::rules as code;
use crate::source::problem::Problem;
use crate::tree::diagram::TRUE;

pub const RULE: Rule = Rule {
    name: "gate-always-true",
    code: code::ALWAYS_TRUE,
    find,
};

fn find(whole: &mut Whole<'_>) -> Vec<Problem> {
    let gates = whole.model.tree.gates.iter().enumerate();
    gates
        .filter(|(at, _)| whole.gate(*at) == Some(TRUE))
        .map(|(at, gate)| {
            let message = format!("gate `{}` is true whatever happens", gate.id);
            Problem::new(RULE.code, whole.gates[at].place(), message)
                .hint("look for a node beside its own contrary")
        })
        .collect()
}
