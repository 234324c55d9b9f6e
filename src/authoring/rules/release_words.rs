//! Words that would release an aircraft.

use super::{Rule, Whole};
use crate::authoring::document::Source;
use crate::authoring::lower::located::Located;
use crate::authoring::yaml::{Content, Node};
use crate::base::text::folded;
use crate::source::codes::rules as code;
use crate::source::place::Place;
use crate::source::problem::Problem;

pub const RULE: Rule = Rule {
    name: "release-words",
    code: code::RELEASE_WORDS,
    find,
};

/// Words of a release, in small letters. Who may say them is licensed, and no tree is.
const WORDS: [&str; 8] = [
    "airworth",
    "fit for flight",
    "fit to fly",
    "safe to fly",
    "return to service",
    "released to service",
    "release to service",
    "no further action",
];

/// Keys whose text people read in a job.
const READ: [&str; 8] = [
    "title",
    "ask",
    "how",
    "do",
    "looks-like",
    "note",
    "report",
    "answers",
];

fn find(whole: &mut Whole<'_>) -> Vec<Problem> {
    let mut found = head(whole.main);
    for entry in whole
        .conditions
        .iter()
        .chain(whole.events)
        .chain(whole.gates)
        .chain(whole.checks)
    {
        look(entry.key, entry.node, entry, &mut found);
    }
    found
}

fn head(main: &Source) -> Vec<Problem> {
    let texts = ["title", "report", "note"]
        .into_iter()
        .filter_map(|key| main.root.get(key));
    texts
        .filter_map(|node| problem(node, Place::new(main.file, node.bytes.clone())))
        .collect()
}

fn look(key: &str, node: &Node, entry: &Located<'_>, found: &mut Vec<Problem>) {
    match &node.content {
        Content::Scalar { .. } if READ.contains(&key) => {
            found.extend(problem(node, Place::new(entry.file, node.bytes.clone())));
        }
        Content::Scalar { .. } => {}
        Content::List(items) => {
            for item in items {
                look(key, item, entry, found);
            }
        }
        Content::Map(entries) => {
            for inner in entries {
                look(&inner.key, &inner.value, entry, found);
            }
        }
    }
}

fn problem(node: &Node, place: Place) -> Option<Problem> {
    let text = folded(node.text()?);
    let word = WORDS.iter().find(|word| text.contains(*word))?;
    let message = format!("`{word}` speaks of a release");
    let problem = Problem::new(RULE.code, place, message);
    Some(problem.hint("say what was seen or done; the release is the licensed staff's"))
}
