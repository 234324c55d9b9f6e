//! Answers that are too long for a line with its key.

use super::{Rule, Whole};
use crate::source::codes::rules as code;
use crate::source::problem::Problem;

pub const RULE: Rule = Rule {
    name: "long-answer",
    code: code::LONG_ANSWER,
    find,
};

/// Most words of an answer: our own limit, tried at 40 columns.
const WORDS: usize = 8;

fn find(whole: &mut Whole<'_>) -> Vec<Problem> {
    let mut found = Vec::new();
    for (check, entry) in whole.model.checks.iter().zip(whole.checks) {
        for (nth, answer) in check.answers.iter().enumerate() {
            let words = answer
                .split(['-', ' '])
                .filter(|word| !word.is_empty())
                .count();
            if words > WORDS {
                let message = format!("answer `{answer}` has {words} words");
                let place = entry.place_of_item("answers", nth);
                let problem = Problem::new(RULE.code, place, message);
                found.push(problem.hint(format!("say it in {WORDS}")));
            }
        }
    }
    found
}
