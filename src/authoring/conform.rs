//! Checks a document against its table: unknown keys, missing keys, forms, numbers, units.

use std::ops::Range;

use super::form::{Form, Need, Table};
use super::scalar;
use super::yaml::{Content, Node};
use crate::base::name::{as_name, is_name};
use crate::source::codes::document as code;
use crate::source::place::{FileId, Place};
use crate::source::problem::Problem;

/// Checks a value against a form and adds what is wrong to the list.
///
/// Every problem is placed at the key or value it speaks of, so that all mistakes of a file come
/// out at once.
pub fn conform(node: &Node, form: &Form, file: FileId, problems: &mut Vec<Problem>) {
    Conform { file, problems }.value(node, form, &node.bytes);
}

/// Checks a whole document against a table; a missing key is shown at the first key there is.
pub fn conform_document(node: &Node, table: &Table, file: FileId, problems: &mut Vec<Problem>) {
    let first = node.entries().first();
    let start = first.map_or(0..0, |entry| entry.key_bytes.clone());
    Conform { file, problems }.entry(node, table, &start);
}

struct Conform<'a> {
    file: FileId,
    problems: &'a mut Vec<Problem>,
}

impl Conform<'_> {
    fn place(&self, bytes: &Range<usize>) -> Place {
        Place::new(self.file, bytes.clone())
    }

    /// `key` is where the value's key stands: an empty or a wrong value is shown there.
    fn value(&mut self, node: &Node, form: &Form, key: &Range<usize>) {
        match form {
            Form::Any => {}
            Form::List(inner) => self.list(node, inner, key),
            Form::OneOrMore(inner) => match &node.content {
                Content::List(items) if !items.is_empty() => self.list(node, inner, key),
                _ => self.value(node, inner, key),
            },
            Form::Map(inner) => self.map(node, inner, key),
            Form::WordOr(word, inner) => {
                if node.text() != Some(word) {
                    self.value(node, inner, key);
                }
            }
            Form::Entry(table) => self.entry(node, table, key),
            _ => match &node.content {
                Content::Scalar { text, plain } => {
                    let place = if text.is_empty() { key } else { &node.bytes };
                    let place = self.place(place);
                    self.problems
                        .extend(scalar::check(text, *plain, form, place));
                }
                _ => self.wrong_form(node, "a single value", key),
            },
        }
    }

    fn wrong_form(&mut self, node: &Node, wanted: &str, key: &Range<usize>) {
        let message = format!("{wanted} is wanted here, and {} was found", node.word());
        let problem = Problem::new(code::WRONG_FORM, self.place(key), message);
        let hint = match wanted {
            "a list" => "write the items in brackets: [first, second]",
            "a mapping" => "write keys below it, indented, or in braces: {key: value}",
            _ => "remove the brackets or the keys below it",
        };
        self.problems.push(problem.hint(hint));
    }

    fn list(&mut self, node: &Node, inner: &Form, key: &Range<usize>) {
        let Content::List(items) = &node.content else {
            return self.wrong_form(node, "a list", key);
        };
        for item in items {
            self.value(item, inner, &item.bytes);
        }
    }

    fn map(&mut self, node: &Node, inner: &Form, key: &Range<usize>) {
        let Content::Map(entries) = &node.content else {
            return self.wrong_form(node, "a mapping", key);
        };
        for entry in entries {
            if !is_name(&entry.key) && entry.key != "<<" {
                let message = format!("`{}` is not a name", entry.key);
                let place = self.place(&entry.key_bytes);
                let problem = Problem::new(code::NOT_A_NAME, place, message);
                self.problems.push(problem.hint(name_hint(&entry.key)));
            }
            self.value(&entry.value, inner, &entry.key_bytes);
        }
    }

    fn entry(&mut self, node: &Node, table: &Table, key: &Range<usize>) {
        let Content::Map(entries) = &node.content else {
            return self.wrong_form(node, "a mapping", key);
        };
        for entry in entries {
            match table.fields.iter().find(|field| field.key == entry.key) {
                Some(field) => self.value(&entry.value, &field.form, &entry.key_bytes),
                None if table.open || entry.key == "<<" => {}
                None => self.unknown_key(&entry.key, &entry.key_bytes, table),
            }
        }
        for field in table.fields {
            if field.need == Need::Must && node.entry(field.key).is_none() {
                let message = format!("{} without `{}`", table.title, field.key);
                let problem = Problem::new(code::MISSING_KEY, self.place(key), message);
                let hint = format!("add `{}:`. {}", field.key, field.doc);
                self.problems.push(problem.hint(hint));
            }
        }
    }

    fn unknown_key(&mut self, key: &str, bytes: &Range<usize>, table: &Table) {
        let message = format!("`{key}` is not a key of {}", table.title);
        let accepted: Vec<&str> = table.fields.iter().map(|field| field.key).collect();
        let problem = Problem::new(code::UNKNOWN_KEY, self.place(bytes), message);
        self.problems.push(problem.suggest(key, &accepted));
    }
}

/// What to write instead of a text that is not a name.
pub fn name_hint(text: &str) -> String {
    let better = as_name(text);
    if is_name(&better) {
        format!("write `{better}`")
    } else {
        "use lower-case words joined by hyphens, starting with a letter".to_owned()
    }
}
