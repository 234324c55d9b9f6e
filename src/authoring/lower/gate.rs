//! Gates: one operator, inputs resolved.

use super::located::Located;
use super::names::Names;
use crate::authoring::shape::tree::Gate as Shape;
use crate::base::text::listed;
use crate::source::codes::tree as code;
use crate::source::problem::Problem;
use crate::tree::fault_tree::{Condition, Gate};
use crate::tree::node::{Node, Operator};

/// Lowers one gate. Adds what is wrong with it and returns what could be understood.
pub fn lower(
    entry: &Located<'_>,
    shape: &Shape,
    names: &Names,
    conditions: &[Condition],
    problems: &mut Vec<Problem>,
) -> Gate {
    let one = shape.not.clone().map(|node| vec![node]);
    let found: Vec<(&str, &Vec<String>)> = [
        ("any", shape.any.as_ref()),
        ("all", shape.all.as_ref()),
        ("of", shape.of.as_ref()),
        ("not", one.as_ref()),
        ("either", shape.either.as_ref()),
    ]
    .into_iter()
    .filter_map(|(key, inputs)| Some((key, inputs?)))
    .collect();
    let mut gate = Gate {
        id: entry.key.to_owned(),
        operator: Operator::Any,
        inputs: Vec::new(),
    };
    let counted = shape.at_least.is_some();
    let (key, texts) = match found[..] {
        [(key, texts)] if (key == "of") == counted => (key, texts),
        _ => {
            problems.push(operator_problem(entry, &found, counted));
            return gate;
        }
    };
    for (item, text) in texts.iter().enumerate() {
        let place = entry.place_of_item(key, item);
        match names.node(text, conditions, place.clone()) {
            Ok(node) if gate.inputs.contains(&node) => {
                let message = format!("`{text}` stands here a second time");
                let problem = Problem::new(code::GATE_INPUTS, place, message);
                problems.push(problem.hint("name each input once"));
            }
            Ok(node) => gate.inputs.push(node),
            Err(problem) => problems.push(problem),
        }
    }
    gate.operator = operator(key, shape);
    if let Some(message) = count_problem(&gate.operator, texts.len()) {
        let problem = Problem::new(code::GATE_INPUTS, entry.place_of(key), message);
        problems.push(problem.hint("look at the inputs, or take another operator"));
    }
    gate
}

fn operator(key: &str, shape: &Shape) -> Operator {
    match key {
        "all" => Operator::All,
        "of" => Operator::AtLeast(shape.at_least.unwrap_or(1)),
        "not" => Operator::Not,
        "either" => Operator::Either,
        _ => Operator::Any,
    }
}

fn operator_problem(entry: &Located<'_>, found: &[(&str, &Vec<String>)], counted: bool) -> Problem {
    let mut keys: Vec<&str> = found.iter().map(|(key, _)| *key).collect();
    if counted {
        keys.insert(0, "at-least");
    }
    let found = if keys.is_empty() {
        "no operator".into()
    } else {
        listed(&keys, "and")
    };
    let message = format!("gate `{}` has {found}", entry.key);
    Problem::new(code::GATE_OPERATOR, entry.place(), message)
        .hint("write exactly one of `any`, `all`, `at-least` with `of`, `not`, `either`")
}

fn count_problem(operator: &Operator, inputs: usize) -> Option<String> {
    match operator {
        Operator::Either if inputs != 2 => Some(format!(
            "`either` takes exactly two inputs, and {inputs} stand here"
        )),
        Operator::AtLeast(count) if *count == 0 || *count > inputs => {
            Some(format!("at least {count} of {inputs} inputs says nothing"))
        }
        _ if inputs == 0 => Some("the gate has no inputs".to_owned()),
        _ => None,
    }
}

/// The problem of a cycle, placed at the first gate of its path.
pub fn cycle_problem(cycle: &[usize], gates: &[(Located<'_>, Gate)]) -> Option<Problem> {
    let (first, _) = gates.get(*cycle.first()?)?;
    let ids = cycle
        .iter()
        .filter_map(|gate| Some(gates.get(*gate)?.1.id.as_str()));
    let path: Vec<&str> = ids.collect();
    let message = format!(
        "gate `{}` is its own input: {}",
        first.key,
        path.join(" -> ")
    );
    let mut problem =
        Problem::new(code::CYCLE, first.place(), message).hint("take one of these inputs out");
    // Show the line that closes the circle.
    let last = cycle
        .len()
        .checked_sub(2)
        .and_then(|at| gates.get(cycle[at]));
    if let Some((entry, gate)) = last {
        let back = gate
            .inputs
            .iter()
            .position(|input| *input == Node::Gate(cycle[0]));
        let place = ["any", "all", "of", "not", "either"]
            .into_iter()
            .find(|key| entry.field(key).is_some())
            .zip(back)
            .map(|(key, item)| entry.place_of_item(key, item));
        if let Some(place) = place {
            problem = problem.second(place, "leads back to it");
        }
    }
    Some(problem)
}
