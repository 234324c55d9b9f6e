//! What a tree may say and had better not: one rule a file, one list of them.
//!
//! A rule looks at a tree that has no errors and warns at a place. It never changes what a tree
//! means, and a release refuses what it finds.

mod check_says_nothing;
mod confirm_against;
mod evidence_nobody_takes;
mod gate_always_true;
mod gate_never_true;
mod hazard_order;
mod hidden_line;
mod idle_condition;
mod idle_gate;
mod instructions;
mod long_answer;
mod long_question;
mod no_caution;
mod no_lock;
mod no_put_back;
mod release_words;
mod sure_chance;
mod whole;

pub use whole::Whole;

use crate::source::code::Code;
use crate::source::problem::Problem;

/// One rule.
#[derive(Debug)]
pub struct Rule {
    /// Its name, which is that of its file and of its fixtures.
    pub name: &'static str,
    /// What it warns of.
    pub code: &'static Code,
    /// Finds where.
    find: fn(&mut Whole<'_>) -> Vec<Problem>,
}

/// All rules, in the order of their codes.
pub static RULES: &[Rule] = &[
    gate_never_true::RULE,
    gate_always_true::RULE,
    idle_gate::RULE,
    idle_condition::RULE,
    check_says_nothing::RULE,
    hidden_line::RULE,
    evidence_nobody_takes::RULE,
    confirm_against::RULE,
    sure_chance::RULE,
    long_question::RULE,
    long_answer::RULE,
    instructions::RULE,
    release_words::RULE,
    no_lock::RULE,
    no_caution::RULE,
    hazard_order::RULE,
    no_put_back::RULE,
];

/// Applies every rule to a tree.
pub fn apply(mut whole: Whole<'_>, problems: &mut Vec<Problem>) {
    for rule in RULES {
        problems.extend((rule.find)(&mut whole));
    }
}
