//! A YAML document as a tree of values that know where they stand.

use std::ops::Range;

/// One value.
#[derive(Debug, Clone, PartialEq)]
pub struct Node {
    /// The bytes it covers. A block list or mapping starts at its first child.
    pub bytes: Range<usize>,
    /// What it holds.
    pub content: Content,
}

/// What a value holds.
#[derive(Debug, Clone, PartialEq)]
pub enum Content {
    /// A single value.
    Scalar {
        /// Its text, without quotes.
        text: String,
        /// Whether it stood without quotes.
        plain: bool,
    },
    /// A list.
    List(Vec<Node>),
    /// A mapping, in the order written.
    Map(Vec<Entry>),
}

/// One key of a mapping with its value.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// The key.
    pub key: String,
    /// Where the key stands.
    pub key_bytes: Range<usize>,
    /// The value.
    pub value: Node,
}

impl Node {
    /// A single value.
    pub fn scalar(text: &str, plain: bool, bytes: Range<usize>) -> Self {
        let text = text.to_owned();
        Self {
            bytes,
            content: Content::Scalar { text, plain },
        }
    }

    /// The text of a single value.
    pub fn text(&self) -> Option<&str> {
        match &self.content {
            Content::Scalar { text, .. } => Some(text),
            _ => None,
        }
    }

    /// The items of a list; none for anything else.
    pub fn items(&self) -> &[Node] {
        match &self.content {
            Content::List(items) => items,
            _ => &[],
        }
    }

    /// The entries of a mapping; none for anything else.
    pub fn entries(&self) -> &[Entry] {
        match &self.content {
            Content::Map(entries) => entries,
            _ => &[],
        }
    }

    /// The entry of a mapping with this key.
    pub fn entry(&self, key: &str) -> Option<&Entry> {
        self.entries().iter().find(|entry| entry.key == key)
    }

    /// The value under this key.
    pub fn get(&self, key: &str) -> Option<&Node> {
        self.entry(key).map(|entry| &entry.value)
    }

    /// What kind of value it is, for messages.
    pub fn word(&self) -> &'static str {
        match &self.content {
            Content::Scalar { text, .. } if text.is_empty() => "nothing",
            Content::Scalar { .. } => "a single value",
            Content::List(_) => "a list",
            Content::Map(_) => "a mapping",
        }
    }
}
