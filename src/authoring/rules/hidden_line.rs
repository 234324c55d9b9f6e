//! Answer lines that never decide, because those above take every case.

use super::{Rule, Whole};
use crate::source::codes::rules as code;
use crate::source::problem::Problem;
use crate::tree::diagram::FALSE;

pub const RULE: Rule = Rule {
    name: "hidden-line",
    code: code::HIDDEN_LINE,
    find,
};

fn find(whole: &mut Whole<'_>) -> Vec<Problem> {
    let mut found = Vec::new();
    let model = whole.model;
    for (at, check) in model.checks.iter().enumerate() {
        let entry = whole.checks[at];
        let key = ["yes", "lines"]
            .into_iter()
            .find(|key| entry.field(key).is_some());
        // Lines worked out from the plant stand in no text.
        let Some(key) = key else { continue };
        let mut above = FALSE;
        for (nth, line) in check.lines.iter().enumerate() {
            let holds = whole.all(&line.when);
            let left = whole.but_not(holds, above);
            if left == FALSE && !whole.is_full() {
                let (what, hint) = if holds == FALSE {
                    ("can never hold", "look for nodes that exclude each other")
                } else {
                    (
                        "never decides, because the lines above take every case",
                        "move it up, or take it out",
                    )
                };
                let message = format!("line {} of check `{}` {what}", nth + 1, check.id);
                let place = entry.place_of_item(key, nth);
                found.push(Problem::new(RULE.code, place, message).hint(hint));
            }
            above = whole.either(holds, above);
        }
    }
    found
}
