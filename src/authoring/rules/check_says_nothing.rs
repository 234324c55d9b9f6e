//! Checks whose every line gives the same chances.

use super::{Rule, Whole};
use crate::source::codes::rules as code;
use crate::source::problem::Problem;

pub const RULE: Rule = Rule {
    name: "check-says-nothing",
    code: code::SAYS_NOTHING,
    find,
};

/// Shares closer than this are the same.
const SAME: f64 = 1e-9;

fn find(whole: &mut Whole<'_>) -> Vec<Problem> {
    let mut found = Vec::new();
    for (check, entry) in whole.model.checks.iter().zip(whole.checks) {
        let Some((first, rest)) = check.lines.split_first() else {
            continue;
        };
        let same = |shares: &[f64]| {
            let mut pairs = shares.iter().zip(&first.shares);
            pairs.all(|(one, other)| (one - other).abs() < SAME)
        };
        if rest.iter().all(|line| same(&line.shares)) {
            let message = format!("check `{}` answers alike whatever happened", check.id);
            let problem = Problem::new(RULE.code, entry.place(), message);
            found.push(problem.hint("add a line for what it shows, or take the check out"));
        }
    }
    found
}
