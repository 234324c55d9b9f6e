//! Questions that are too long to be taken in at a glance.

use super::{Rule, Whole};
use crate::source::codes::rules as code;
use crate::source::problem::Problem;

pub const RULE: Rule = Rule {
    name: "long-question",
    code: code::LONG_QUESTION,
    find,
};

/// Most words of a question. Twenty words a sentence is the limit of controlled technical English
/// for instructions (ASD-STE100, from a summary).
pub const WORDS: usize = 20;

fn find(whole: &mut Whole<'_>) -> Vec<Problem> {
    let checks = whole.model.checks.iter().map(|check| check.ask.as_str());
    let conditions = whole.model.questions.iter().map(|asked| asked.ask.as_str());
    let asked = checks
        .zip(whole.checks)
        .chain(conditions.zip(whole.conditions));
    asked
        .filter_map(|(ask, entry)| {
            let words = ask.split_whitespace().count();
            let message = format!("the question of `{}` has {words} words", entry.key);
            (words > WORDS).then(|| {
                Problem::new(RULE.code, entry.place_of("ask"), message)
                    .hint(format!("say it in {WORDS}; the rest goes under `how`"))
            })
        })
        .collect()
}
