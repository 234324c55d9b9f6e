//! Remedies after which nothing is put back or tried.

use super::{Rule, Whole};
use crate::diagnosis::cause::{Part, Remedy};
use crate::source::codes::rules as code;
use crate::source::problem::Problem;

pub const RULE: Rule = Rule {
    name: "no-put-back",
    code: code::NO_PUT_BACK,
    find,
};

fn find(whole: &mut Whole<'_>) -> Vec<Problem> {
    let causes = whole.model.causes.iter().zip(whole.events);
    causes
        .filter(|(cause, _)| cause.part == Part::Cause)
        .filter(|(cause, _)| {
            matches!(&cause.remedy, Some(Remedy::Work { puts_back, .. }) if puts_back.is_empty())
        })
        .map(|(cause, entry)| {
            let message = format!("the remedy of `{}` puts nothing back", cause.id);
            Problem::new(RULE.code, entry.place_of("remedy"), message)
                .hint("add `puts-back`, such as `[bleed, leak-check, leak-down]`")
        })
        .collect()
}
