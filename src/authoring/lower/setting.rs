//! Switches and positions of an aircraft, wherever a document names them.

use std::collections::BTreeMap;

use super::located::Located;
use crate::plant::state::{Needs, Setting, Switch};
use crate::source::code::Code;
use crate::source::problem::Problem;

/// Resolves `{battery: [connected-on], lever: [up]}`.
pub fn needs(
    entry: &Located<'_>,
    wanted: &BTreeMap<String, Vec<String>>,
    switches: &[Switch],
    code: &'static Code,
    problems: &mut Vec<Problem>,
) -> Needs {
    let mut needs = Needs::default();
    let Some(field) = entry.field("needs") else {
        return needs;
    };
    for (name, words) in wanted {
        let mut positions = Vec::new();
        let mut switch = 0;
        for (item, word) in words.iter().enumerate() {
            match setting(&field, name, word, item, switches, code) {
                Ok(setting) => {
                    switch = setting.switch;
                    positions.push(setting.position);
                }
                Err(problem) => problems.push(problem),
            }
        }
        if !positions.is_empty() {
            needs.0.push((switch, positions));
        }
    }
    needs
}

/// Resolves `{battery: connected-on}` under a field.
pub fn settings(
    entry: &Located<'_>,
    field: &str,
    wanted: &BTreeMap<String, String>,
    switches: &[Switch],
    code: &'static Code,
    problems: &mut Vec<Problem>,
) -> Vec<Setting> {
    let Some(field) = entry.field(field) else {
        return Vec::new();
    };
    let mut found = Vec::new();
    for (name, word) in wanted {
        match setting(&field, name, word, 0, switches, code) {
            Ok(setting) => found.push(setting),
            Err(problem) => problems.push(problem),
        }
    }
    found
}

fn setting(
    field: &Located<'_>,
    name: &str,
    word: &str,
    item: usize,
    switches: &[Switch],
    code: &'static Code,
) -> Result<Setting, Problem> {
    let place = || {
        field
            .field(name)
            .map_or_else(|| field.place(), |entry| entry.place())
    };
    let Some(switch) = switches.iter().position(|switch| switch.id == name) else {
        let known: Vec<&str> = switches.iter().map(|switch| switch.id.as_str()).collect();
        let message = format!("the aircraft has no switch `{name}`");
        return Err(Problem::new(code, place(), message).suggest(name, &known));
    };
    let positions = &switches[switch].positions;
    let position = positions.iter().position(|known| known == word);
    position
        .map(|position| Setting { switch, position })
        .ok_or_else(|| {
            let known: Vec<&str> = positions.iter().map(String::as_str).collect();
            let message = format!("switch `{name}` has no position `{word}`");
            Problem::new(code, field.place_of_item(name, item), message).suggest(word, &known)
        })
}
