//! Sentences that hold more than one instruction.

use super::long_question::WORDS;
use super::{Rule, Whole};
use crate::authoring::lower::located::Located;
use crate::diagnosis::cause::Remedy;
use crate::source::codes::rules as code;
use crate::source::problem::Problem;

pub const RULE: Rule = Rule {
    name: "instructions",
    code: code::INSTRUCTIONS,
    find,
};

/// What joins a second instruction to a first.
const JOINERS: [&str; 3] = [", then ", " and then ", ", and then "];

/// Words that begin an instruction in the texts of the trade; a joiner before another word tells
/// an order of things, as in "pumps on ten minutes, then off".
const INSTRUCTIONS: [&str; 27] = [
    "adjust",
    "bleed",
    "charge",
    "check",
    "clean",
    "close",
    "connect",
    "disconnect",
    "fit",
    "look",
    "open",
    "photograph",
    "press",
    "prove",
    "pull",
    "push",
    "read",
    "record",
    "remove",
    "replace",
    "restore",
    "run",
    "set",
    "start",
    "stop",
    "switch",
    "turn",
];

fn find(whole: &mut Whole<'_>) -> Vec<Problem> {
    let mut found = Vec::new();
    for (check, entry) in whole.model.checks.iter().zip(whole.checks) {
        found.extend(
            check
                .how
                .iter()
                .filter_map(|how| problem(how, entry, "how")),
        );
    }
    for (cause, entry) in whole.model.causes.iter().zip(whole.events) {
        if let (Some(Remedy::Work { instruction, .. }), Some(remedy)) =
            (&cause.remedy, entry.field("remedy"))
        {
            found.extend(problem(instruction, &remedy, "do"));
        }
    }
    found
}

fn problem(text: &str, entry: &Located<'_>, key: &str) -> Option<Problem> {
    // A point in a number ends no sentence.
    let wrong = text.split(". ").find_map(|sentence| {
        let words = sentence.split_whitespace().count();
        if let Some(second) = second(sentence) {
            return Some(format!("goes on with a second instruction, `{second}`"));
        }
        (words > WORDS).then(|| format!("has {words} words"))
    })?;
    let message = format!("a sentence of `{key}` of `{}` {wrong}", entry.key);
    let problem = Problem::new(RULE.code, entry.place_of(key), message);
    Some(problem.hint(format!(
        "one instruction a sentence, in at most {WORDS} words"
    )))
}

/// The word that begins a second instruction in a sentence.
fn second(sentence: &str) -> Option<&'static str> {
    let after = |joiner: &&str| sentence.split_once(*joiner).map(|(_, rest)| rest);
    let behind = sentence.split_once("; ").map(|(_, rest)| rest);
    let mut rests = JOINERS.iter().filter_map(after).chain(behind);
    rests.find_map(|rest| {
        let word = rest.split(|c: char| !c.is_alphabetic()).next()?;
        INSTRUCTIONS.into_iter().find(|known| *known == word)
    })
}
