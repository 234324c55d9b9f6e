//! An entry of a document together with where it stands.

use std::ops::Range;

use crate::authoring::document::Source;
use crate::authoring::yaml::{Content, Entry, Node};
use crate::source::place::{FileId, Place};
use crate::source::problem::Problem;

/// An entry under a key.
#[derive(Debug, Clone, Copy)]
pub struct Located<'a> {
    /// The text it stands in.
    pub file: FileId,
    /// Its key.
    pub key: &'a str,
    /// Where the key stands.
    pub key_bytes: &'a Range<usize>,
    /// Its value.
    pub node: &'a Node,
}

impl<'a> Located<'a> {
    /// The entries of a mapping, in the order written.
    pub fn entries(file: FileId, node: &'a Node) -> impl Iterator<Item = Located<'a>> {
        node.entries()
            .iter()
            .map(move |entry| Self::of(file, entry))
    }

    /// One entry.
    pub fn of(file: FileId, entry: &'a Entry) -> Self {
        Self {
            file,
            key: &entry.key,
            key_bytes: &entry.key_bytes,
            node: &entry.value,
        }
    }

    /// Where the entry's key stands.
    pub fn place(&self) -> Place {
        Place::new(self.file, self.key_bytes.clone())
    }

    /// An entry of this entry.
    pub fn field(&self, key: &str) -> Option<Located<'a>> {
        self.node.entry(key).map(|entry| Self::of(self.file, entry))
    }

    /// Where a field stands: its value if that is a single one, else its key, else this entry.
    pub fn place_of(&self, key: &str) -> Place {
        self.field(key)
            .map_or_else(|| self.place(), |field| field.value_place())
    }

    /// Where the value stands if it is a single one, else the key.
    pub fn value_place(&self) -> Place {
        match &self.node.content {
            Content::Scalar { text, .. } if !text.is_empty() => {
                Place::new(self.file, self.node.bytes.clone())
            }
            _ => self.place(),
        }
    }

    /// Where one item of a list field stands, or the only value of a field that is no list.
    pub fn place_of_item(&self, key: &str, item: usize) -> Place {
        let Some(field) = self.field(key) else {
            return self.place();
        };
        match field.node.items().get(item) {
            Some(node) => Place::new(self.file, node.bytes.clone()),
            None => field.value_place(),
        }
    }

    /// Whether one of the problems is an error inside this entry.
    pub fn is_broken(&self, problems: &[Problem]) -> bool {
        let inside = self.key_bytes.start..self.node.bytes.end.max(self.key_bytes.end);
        problems.iter().any(|problem| {
            problem.is_error()
                && problem.place.file == self.file
                && inside.contains(&problem.place.bytes.start)
        })
    }
}

/// The entries of one section over all files.
pub fn section<'a>(sources: &'a [Source], key: &str) -> Vec<Located<'a>> {
    let of = |source: &'a Source| {
        let section = source.root.get(key).into_iter();
        section.flat_map(|node| Located::entries(source.file, node))
    };
    sources.iter().flat_map(of).collect()
}
