//! A model that was taken in, as text of a tree.

use super::formula::Gate;
use crate::base::name::{as_name, is_name};

/// An event with its chance.
pub struct Event {
    /// Its name.
    pub name: String,
    /// What it says of itself.
    pub title: Option<String>,
    /// Its chance, from 0 to 1.
    pub chance: f64,
}

/// The text of the tree.
pub fn tree_text(title: &str, events: &[Event], gates: &[Gate], top: &str) -> String {
    let id = Some(as_name(title))
        .filter(|id| is_name(id))
        .unwrap_or_else(|| "imported".to_owned());
    let mut text = format!(
        "# Taken over from an Open-PSA model: no checks, no remedies, and figures nobody here looked at.\nstillwheel: tree 1\nid: {id}\ntitle: {}\nreport: The top of the model is true.\nsource: taken over from an Open-PSA model\nevents:\n",
        quoted(title)
    );
    for event in events {
        let title = event.title.as_ref().filter(|title| !title.is_empty());
        let title = title.map_or(String::new(), |title| format!("title: {}, ", quoted(title)));
        text.push_str(&format!(
            "  {}: {{{title}chance: {:e}}}\n",
            event.name, event.chance
        ));
    }
    text.push_str("gates:\n");
    for gate in gates {
        let inputs = gate.joins.inputs.join(", ");
        let joins = match gate.joins.operator {
            "at-least" => format!("at-least: {}, of: [{inputs}]", gate.joins.count),
            "not" => format!("not: {inputs}"),
            operator => format!("{operator}: [{inputs}]"),
        };
        text.push_str(&format!("  {}: {{{joins}}}\n", gate.name));
    }
    text.push_str(&format!("top: {top}\n"));
    text
}

/// A text in double quotes, on one line.
fn quoted(text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    let plain: String = words
        .join(" ")
        .chars()
        .filter(|c| !c.is_control())
        .collect();
    format!("\"{}\"", plain.replace('\\', "\\\\").replace('"', "\\\""))
}
