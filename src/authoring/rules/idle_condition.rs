//! Conditions that are asked for and change nothing.

use super::{Rule, Whole};
use crate::source::codes::rules as code;
use crate::source::problem::Problem;
use crate::tree::node::Node;

pub const RULE: Rule = Rule {
    name: "idle-condition",
    code: code::IDLE_CONDITION,
    find,
};

fn find(whole: &mut Whole<'_>) -> Vec<Problem> {
    let used = whole.used();
    let is_used = |at: usize| {
        let mut nodes = used.iter();
        nodes.any(|node| matches!(node, Node::Value { condition, .. } if *condition == at))
    };
    let conditions = whole.model.tree.conditions.iter().enumerate();
    conditions
        // A fact of the parking is for the plant.
        .filter(|(at, _)| whole.model.questions[*at].fact.is_none() && !is_used(*at))
        .filter(|(at, _)| !whole.is_taken_in(&whole.conditions[*at]))
        .map(|(at, condition)| {
            let message = format!(
                "condition `{}` is asked for and changes nothing",
                condition.id
            );
            Problem::new(RULE.code, whole.conditions[at].place(), message)
                .hint("name it in a gate or a line, or take it out")
        })
        .collect()
}
