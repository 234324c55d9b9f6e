//! Gates that can never be true, such as one that wants two values of one condition at once.

use super::{Rule, Whole};
use crate::source::codes::rules as code;
use crate::source::problem::Problem;
use crate::tree::diagram::FALSE;
use crate::tree::node::Node;

pub const RULE: Rule = Rule {
    name: "gate-never-true",
    code: code::NEVER_TRUE,
    find,
};

fn find(whole: &mut Whole<'_>) -> Vec<Problem> {
    let tree = &whole.model.tree;
    let never = |gate: usize| whole.gate(gate) == Some(FALSE);
    let mut found = Vec::new();
    for (at, gate) in tree.gates.iter().enumerate() {
        // The gate where it begins; what stands above it follows.
        let below = gate.inputs.iter().any(|input| match input {
            Node::Gate(input) => never(*input),
            _ => false,
        });
        if never(at) && !below {
            let message = format!("gate `{}` can never be true", gate.id);
            let problem = Problem::new(RULE.code, whole.gates[at].place(), message);
            found.push(problem.hint(reason(whole, at)));
        }
    }
    found
}

/// Two values of one condition that it wants at once, if that is why.
fn reason(whole: &Whole<'_>, gate: usize) -> String {
    let tree = &whole.model.tree;
    let values: Vec<(usize, usize)> = tree.gates[gate]
        .inputs
        .iter()
        .filter_map(|input| match input {
            Node::Value { condition, value } => Some((*condition, *value)),
            _ => None,
        })
        .collect();
    for (at, (condition, _)) in values.iter().enumerate() {
        if values[..at].iter().any(|(other, _)| other == condition) {
            let id = &tree.conditions[*condition].id;
            return format!("condition `{id}` has one value at a time");
        }
    }
    "look for inputs that exclude each other".to_owned()
}
