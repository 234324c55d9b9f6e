//! What the exchange format has no place for.

use std::collections::BTreeSet;

use crate::base::text::{listed, plural};
use crate::diagnosis::model::Model;
use crate::tree::fault_tree::Chance;
use crate::tree::node::Node;

/// What is lost of a tree, a sentence each; `below` are the nodes below its top.
pub fn not_carried(model: &Model, below: &[Node]) -> Vec<String> {
    let mut lost = conditions(model, below);
    let tree = &model.tree;
    let mut say = |count: usize, one: &str, words: &str| {
        if count > 0 {
            lost.push(format!("{}{words}", plural(count, one)));
        }
    };
    let beside = |event: &usize| below.binary_search(&Node::Event(*event)).is_err();
    let counted =
        |event: &&crate::tree::fault_tree::Event| matches!(event.chance, Chance::Seen { .. });
    let proved =
        |cause: &&crate::diagnosis::cause::Cause| cause.confirm.is_some() || cause.remedy.is_some();
    let parts = model.causes.iter().filter(|cause| cause.fault.is_some());
    say(
        model.checks.len(),
        "check",
        " with answer lines, hazards, locks and cautions",
    );
    say(
        (0..tree.events.len()).filter(beside).count(),
        "event",
        " that only colour what checks show",
    );
    say(model.cases.len(), "worked case", "");
    say(
        model.causes.iter().filter(proved).count(),
        "cause",
        " with confirming check, remedy and cautions",
    );
    say(
        tree.events.iter().filter(counted).count(),
        "counted share",
        ": written as the chance per parking that it comes to",
    );
    say(
        parts.count(),
        "event",
        " with a part and a fault of the aircraft behind it",
    );
    if tree.unlisted > 0.0 {
        lost.push(format!(
            "the share of {} for a cause that is not in the tree",
            tree.unlisted
        ));
    }
    if model.rule.is_some() {
        lost.push("the rule by which a search stops".to_owned());
    }
    lost.push("the words of the report, sources and notes".to_owned());
    lost
}

/// What becomes of conditions.
fn conditions(model: &Model, below: &[Node]) -> Vec<String> {
    let values = below.iter().filter_map(|node| match node {
        Node::Value { condition, .. } => Some(*condition),
        _ => None,
    });
    let named: Vec<usize> = values.collect();
    let once: BTreeSet<usize> = named.iter().copied().collect();
    let several = once
        .iter()
        .filter(|at| named.iter().filter(|other| other == at).count() > 1);
    let several: Vec<&str> = several
        .map(|at| model.tree.conditions[*at].id.as_str())
        .collect();
    let mut lost = Vec::new();
    if !once.is_empty() {
        let count = plural(once.len(), "condition");
        lost.push(format!(
            "{count}: written as basic events, so nobody is asked"
        ));
    }
    if !several.is_empty() {
        let names = listed(&several, "and");
        lost.push(format!(
            "that values of {names} exclude each other: they become chains of events that come to the same"
        ));
    }
    lost
}
