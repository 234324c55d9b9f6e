//! What changed between two documents, entry by entry, in words.

use super::document::Source;
use super::lower::located::{Located, section};
use super::yaml::{Content, Node};

/// Sections whose entries are compared by name, and what one entry is called.
const SECTIONS: [(&str, &str); 4] = [
    ("conditions", "condition"),
    ("events", "event"),
    ("gates", "gate"),
    ("checks", "check"),
];
/// Longest value that is shown.
const SHOWN: usize = 100;

/// Everything that changed, in the order of the new document; what was removed stands last.
pub fn changes(old: &[Source], new: &[Source]) -> Vec<String> {
    let mut found = Vec::new();
    if let (Some(old), Some(new)) = (old.first(), new.first()) {
        head(&old.root, &new.root, &mut found);
    }
    for (key, word) in SECTIONS {
        entries(word, &section(old, key), &section(new, key), &mut found);
    }
    if let (Some(old), Some(new)) = (old.first(), new.first()) {
        cases(&old.root, &new.root, &mut found);
    }
    found
}

/// Keys at the head that hold single values or small mappings.
fn head(old: &Node, new: &Node, found: &mut Vec<String>) {
    let is_head = |key: &str| key != "cases" && SECTIONS.iter().all(|(section, _)| *section != key);
    let keep = |node: &Node| Node {
        bytes: node.bytes.clone(),
        content: Content::Map(
            node.entries()
                .iter()
                .filter(|entry| is_head(&entry.key))
                .cloned()
                .collect(),
        ),
    };
    compare("", &keep(old), &keep(new), found);
}

fn entries(word: &str, old: &[Located<'_>], new: &[Located<'_>], found: &mut Vec<String>) {
    for entry in new {
        match old.iter().find(|other| other.key == entry.key) {
            None => found.push(format!(
                "{word} `{}` added: {}",
                entry.key,
                shown(entry.node)
            )),
            Some(other) => {
                let path = format!("{word} `{}`: ", entry.key);
                compare(&path, other.node, entry.node, found);
            }
        }
    }
    for entry in old
        .iter()
        .filter(|e| new.iter().all(|other| other.key != e.key))
    {
        found.push(format!(
            "{word} `{}` removed: {}",
            entry.key,
            shown(entry.node)
        ));
    }
    let order = |of: &[Located<'_>], among: &[Located<'_>]| -> Vec<String> {
        let kept = of
            .iter()
            .filter(|e| among.iter().any(|other| other.key == e.key));
        kept.map(|entry| entry.key.to_owned()).collect()
    };
    if order(old, new) != order(new, old) {
        found.push(format!(
            "order of {word}s changed, by which ties are broken"
        ));
    }
}

/// Cases by their names.
fn cases(old: &Node, new: &Node, found: &mut Vec<String>) {
    fn name(case: &Node) -> &str {
        case.get("name").and_then(Node::text).unwrap_or("")
    }
    let items = |root: &Node| {
        root.get("cases")
            .map_or(Vec::new(), |list| list.items().to_vec())
    };
    let (old, new) = (items(old), items(new));
    for case in &new {
        match old.iter().find(|other| name(other) == name(case)) {
            None => found.push(format!("case `{}` added: {}", name(case), shown(case))),
            Some(other) => compare(&format!("case `{}`: ", name(case)), other, case, found),
        }
    }
    for case in old
        .iter()
        .filter(|c| new.iter().all(|other| name(other) != name(c)))
    {
        found.push(format!("case `{}` removed: {}", name(case), shown(case)));
    }
}

/// Compares two values; `path` says where they stand.
fn compare(path: &str, old: &Node, new: &Node, found: &mut Vec<String>) {
    match (&old.content, &new.content) {
        (Content::Map(before), Content::Map(after)) => {
            for entry in after {
                match before.iter().find(|other| other.key == entry.key) {
                    None => found.push(format!(
                        "{path}{} added: {}",
                        entry.key,
                        shown(&entry.value)
                    )),
                    Some(other) => {
                        compare(
                            &format!("{path}{} ", entry.key),
                            &other.value,
                            &entry.value,
                            found,
                        );
                    }
                }
            }
            for entry in before
                .iter()
                .filter(|e| after.iter().all(|other| other.key != e.key))
            {
                found.push(format!(
                    "{path}{} removed: {}",
                    entry.key,
                    shown(&entry.value)
                ));
            }
        }
        (Content::List(before), Content::List(after)) if before.len() == after.len() => {
            let scalars = after.iter().all(|item| item.text().is_some());
            if scalars && shown(old) != shown(new) {
                found.push(format!("{path}{} -> {}", shown(old), shown(new)));
                return;
            }
            for (at, (before, after)) in before.iter().zip(after).enumerate() {
                compare(&format!("{path}line {} ", at + 1), before, after, found);
            }
        }
        _ if whole(old) == whole(new) => {}
        _ => found.push(format!("{path}{} -> {}", shown(old), shown(new))),
    }
}

/// A value on one line, cut where it is long.
fn shown(node: &Node) -> String {
    crate::base::text::truncate(&whole(node), SHOWN)
}

fn whole(node: &Node) -> String {
    match &node.content {
        Content::Scalar { text, .. } => text.clone(),
        Content::List(items) => {
            let items: Vec<String> = items.iter().map(whole).collect();
            format!("[{}]", items.join(", "))
        }
        Content::Map(entries) => {
            let pairs: Vec<String> = entries
                .iter()
                .map(|entry| format!("{}: {}", entry.key, whole(&entry.value)))
                .collect();
            format!("{{{}}}", pairs.join(", "))
        }
    }
}
