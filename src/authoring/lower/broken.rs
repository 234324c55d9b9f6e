//! What stands in for an entry that could not be read, so that the others can be looked at too.

use super::located::Located;
use crate::authoring::shape;
use crate::diagnosis::model::Question;
use crate::tree::fault_tree::Condition;

/// Stands in for an entry that could not be read.
pub fn condition(entry: &Located<'_>) -> (Condition, Question) {
    let condition = Condition {
        id: entry.key.to_owned(),
        values: Vec::new(),
    };
    let question = Question {
        ask: String::new(),
        quantity: None,
        fact: None,
    };
    (condition, question)
}

/// Stands in for an entry that could not be read.
pub fn check() -> shape::check::Check {
    shape::check::Check {
        title: None,
        ask: String::new(),
        how: None,
        asks: None,
        yes: Some(Vec::new()),
        answers: None,
        lines: None,
        reads: None,
        shows: std::collections::BTreeMap::new(),
        minutes: None,
        people: None,
        access: None,
        tools: Vec::new(),
        needs: std::collections::BTreeMap::new(),
        locks: Vec::new(),
        needs_evidence: Vec::new(),
        takes_away: Vec::new(),
        hazard: None,
        hazard_why: None,
        repeatable: false,
        cautions: Vec::new(),
        reference: None,
        limit: None,
        puts_back: Vec::new(),
        source: None,
        note: None,
    }
}
