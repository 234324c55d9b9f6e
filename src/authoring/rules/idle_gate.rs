//! Gates on no path: not below the top, and in no line.

use super::{Rule, Whole};
use crate::source::codes::rules as code;
use crate::source::problem::Problem;
use crate::tree::node::Node;

pub const RULE: Rule = Rule {
    name: "idle-gate",
    code: code::IDLE_GATE,
    find,
};

fn find(whole: &mut Whole<'_>) -> Vec<Problem> {
    let used = whole.used();
    let gates = whole.model.tree.gates.iter().enumerate();
    gates
        .filter(|(at, _)| !used.contains(&Node::Gate(*at)))
        // A file for several trees may hold what one of them does not need.
        .filter(|(at, _)| !whole.is_taken_in(&whole.gates[*at]))
        .map(|(at, gate)| {
            let message = format!("gate `{}` leads nowhere", gate.id);
            Problem::new(RULE.code, whole.gates[at].place(), message)
                .hint("put it below the top, name it in a line, or take it out")
        })
        .collect()
}
