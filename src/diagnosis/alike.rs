//! Lines of a check that are alike: no answer and no score tells them apart.

use super::check::{AnswerLine, Check};
use super::model::Model;
use crate::tree::node::Node;

/// What a line asks for besides bystanders, in one order.
pub fn bare(model: &Model, line: &AnswerLine) -> Vec<Node> {
    let mut nodes = line.when.clone();
    nodes.retain(|node| !model.is_bystander_node(*node));
    nodes.sort_unstable();
    nodes
}

/// The outcome of each line of a check: alike lines have one, numbered as they first stand.
///
/// Lines of equal shares are alike, whatever they ask for. Where lines that differ by bystanders
/// alone have different shares, the score of a check takes their mean, so those are kept apart from
/// all others.
pub fn outcomes(model: &Model, check: &Check) -> Vec<usize> {
    let bare: Vec<Vec<Node>> = check.lines.iter().map(|line| bare(model, line)).collect();
    let is_mixed = |at: usize| {
        let twins = bare.iter().zip(&check.lines);
        let mut twins = twins.filter(|(other, _)| **other == bare[at]);
        twins.any(|(_, line)| line.shares != check.lines[at].shares)
    };
    let mixed: Vec<bool> = (0..check.lines.len()).map(is_mixed).collect();
    let alike = |one: usize, other: usize| {
        check.lines[one].shares == check.lines[other].shares
            && mixed[one] == mixed[other]
            && (!mixed[one] || bare[one] == bare[other])
    };
    let mut found: Vec<usize> = Vec::new();
    let mut firsts: Vec<usize> = Vec::new();
    for at in 0..check.lines.len() {
        let known = firsts.iter().position(|first| alike(*first, at));
        found.push(known.unwrap_or(firsts.len()));
        if known.is_none() {
            firsts.push(at);
        }
    }
    found
}
