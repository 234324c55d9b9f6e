//! First pass over a text: its shape with places, and everything refused before it is read.
//!
//! The parser used here is safe Rust and reports the place of every value, which the YAML
//! reader behind serde does not. Hostile input (depth, size, anchors, tags) ends here, so only a
//! text that passed reaches the second reader.

use std::collections::HashMap;
use std::ops::Range;

use saphyr_parser::{Event, Parser, ScalarStyle, Span};

use super::limits::{MAX_DEPTH, MAX_NODES};
use super::yaml::{Content, Entry, Node};
use crate::source::codes::document as code;
use crate::source::place::{FileId, Place};
use crate::source::problem::Problem;

/// What the first pass found.
#[derive(Debug)]
pub struct Survey {
    /// The document, where the text could be followed to its end.
    pub root: Option<Node>,
    /// Everything refused.
    pub problems: Vec<Problem>,
    /// Values seen before the pass ended; a limit that works keeps this small.
    pub nodes_seen: usize,
}

/// Follows a text from start to end, or to the first thing that makes going on pointless.
pub fn survey(text: &str, file: FileId) -> Survey {
    let mut pass = Pass::new(text, file);
    for event in Parser::new_from_str(text) {
        let go_on = match event {
            Ok((event, span)) => pass.take(&event, span),
            Err(error) => {
                pass.syntax(&error);
                false
            }
        };
        if !go_on {
            return pass.finish(false);
        }
    }
    pass.finish(true)
}

/// A list or mapping that is still open.
enum Open {
    List(usize, Vec<Node>),
    Map {
        start: usize,
        entries: Vec<Entry>,
        key: Option<(String, Range<usize>)>,
        /// Keys so far with their places; a scan of `entries` would be quadratic.
        seen: HashMap<String, Range<usize>>,
    },
}

struct Pass {
    offsets: Offsets,
    file: FileId,
    open: Vec<Open>,
    root: Option<Node>,
    documents: usize,
    nodes: usize,
    problems: Vec<Problem>,
}

impl Pass {
    fn new(text: &str, file: FileId) -> Self {
        Self {
            offsets: Offsets::new(text),
            file,
            open: Vec::new(),
            root: None,
            documents: 0,
            nodes: 0,
            problems: Vec::new(),
        }
    }

    fn finish(self, whole: bool) -> Survey {
        Survey {
            root: self.root.filter(|_| whole),
            problems: self.problems,
            nodes_seen: self.nodes,
        }
    }

    fn place(&self, bytes: Range<usize>) -> Place {
        Place::new(self.file, bytes)
    }

    fn refuse(&mut self, problem: Problem) {
        self.problems.push(problem);
    }

    /// Takes one event; false ends the pass.
    fn take(&mut self, event: &Event<'_>, span: Span) -> bool {
        let bytes = self.offsets.bytes(span);
        match event {
            Event::DocumentStart(_) => return self.document(bytes),
            Event::Alias(_) => {
                self.alias(bytes.clone());
                return self.value(Node::scalar("", true, bytes));
            }
            Event::Scalar(text, style, anchor, tag) => {
                self.refuse_extras(*anchor, tag.is_some(), &bytes);
                let plain = *style == ScalarStyle::Plain;
                return self.value(Node::scalar(text, plain, bytes));
            }
            Event::SequenceStart(anchor, tag) => {
                self.refuse_extras(*anchor, tag.is_some(), &bytes);
                return self.descend(Open::List(bytes.start, Vec::new()), bytes);
            }
            Event::MappingStart(anchor, tag) => {
                self.refuse_extras(*anchor, tag.is_some(), &bytes);
                let open = Open::Map {
                    start: bytes.start,
                    entries: Vec::new(),
                    key: None,
                    seen: HashMap::new(),
                };
                return self.descend(open, bytes);
            }
            Event::SequenceEnd | Event::MappingEnd => return self.ascend(bytes.end),
            _ => {}
        }
        true
    }

    fn document(&mut self, bytes: Range<usize>) -> bool {
        self.documents += 1;
        if self.documents == 1 {
            return true;
        }
        let place = self.place(bytes);
        self.refuse(
            Problem::new(
                code::SECOND_DOCUMENT,
                place,
                "a second document starts here",
            )
            .hint("put each document in a file of its own"),
        );
        false
    }

    fn refuse_extras(&mut self, anchor: usize, tagged: bool, bytes: &Range<usize>) {
        if anchor != 0 {
            let place = self.place(bytes.clone());
            self.refuse(
                Problem::new(code::ANCHOR, place, "this value carries an anchor")
                    .hint("remove the `&name` before it"),
            );
        }
        if tagged {
            let place = self.place(bytes.clone());
            self.refuse(
                Problem::new(code::TAG, place, "this value carries a tag")
                    .hint("remove the `!name` before it; kinds are told by keys here"),
            );
        }
    }

    fn descend(&mut self, open: Open, bytes: Range<usize>) -> bool {
        self.open.push(open);
        if self.open.len() <= MAX_DEPTH {
            return true;
        }
        self.too_deep(bytes);
        false
    }

    fn too_deep(&mut self, bytes: Range<usize>) {
        let message = format!("values are nested more than {MAX_DEPTH} deep");
        let place = self.place(bytes);
        self.refuse(
            Problem::new(code::TOO_DEEP, place, message)
                .hint("no document of this kind needs such depth; look for a stray bracket"),
        );
    }

    fn alias(&mut self, bytes: Range<usize>) {
        let place = self.place(bytes);
        self.refuse(
            Problem::new(code::ALIAS, place, "an alias is not accepted")
                .hint("write the value out where it is needed"),
        );
    }

    fn ascend(&mut self, end: usize) -> bool {
        let node = match self.open.pop() {
            Some(Open::List(start, items)) => Node {
                bytes: start..end.max(start),
                content: Content::List(items),
            },
            Some(Open::Map { start, entries, .. }) => Node {
                bytes: start..end.max(start),
                content: Content::Map(entries),
            },
            None => return true,
        };
        self.value(node)
    }

    /// Puts a finished value where it belongs.
    fn value(&mut self, node: Node) -> bool {
        self.nodes += 1;
        if self.nodes > MAX_NODES {
            let message = format!("the document holds more than {MAX_NODES} values");
            let place = self.place(node.bytes);
            self.refuse(
                Problem::new(code::TOO_MANY, place, message)
                    .hint("split it into files that name each other under `use`"),
            );
            return false;
        }
        match self.open.last_mut() {
            None => self.root = Some(node),
            Some(Open::List(_, items)) => items.push(node),
            Some(Open::Map { entries, key, .. }) => match key.take() {
                Some((key, key_bytes)) => entries.push(Entry {
                    key,
                    key_bytes,
                    value: node,
                }),
                None => return self.key(node),
            },
        }
        true
    }

    /// A value in key position: it must be a plain word that was not used before.
    fn key(&mut self, node: Node) -> bool {
        let Content::Scalar { text, .. } = node.content else {
            let place = self.place(node.bytes);
            self.refuse(
                Problem::new(code::WRONG_FORM, place, "a key must be a single word")
                    .hint("quote a text that holds `[`, `{` or `: `"),
            );
            return false;
        };
        if text == "<<" {
            let place = self.place(node.bytes.clone());
            self.refuse(
                Problem::new(code::MERGE_KEY, place, "the merge key `<<` is not accepted")
                    .hint("write the keys out where they are needed"),
            );
        }
        if let Some(Open::Map { key, seen, .. }) = self.open.last_mut() {
            let first = seen.insert(text.clone(), node.bytes.clone());
            *key = Some((text.clone(), node.bytes.clone()));
            if let Some(first) = first {
                let message = format!("key `{text}` stands here a second time");
                let problem = Problem::new(code::DUPLICATE_KEY, self.place(node.bytes), message)
                    .second(self.place(first), "first written here")
                    .hint("join the two, or give one of them another name");
                self.refuse(problem);
            }
        }
        true
    }

    /// The parser gave up: show where, and the bracket that is still open, if one is.
    fn syntax(&mut self, error: &saphyr_parser::ScanError) {
        let at = self.offsets.byte(error.marker().index());
        // The parser refuses these two itself, before an event of theirs is seen.
        if error.info().contains("unknown anchor") {
            return self.alias(at..at + 1);
        }
        if error.info().contains("recursion limit") {
            return self.too_deep(at..at + 1);
        }
        let message = format!("the text is not YAML here: {}", error.info());
        let mut problem = Problem::new(code::SYNTAX, self.place(at..at), message)
            .hint("quote a text that holds `: `, `#`, `[` or `{`, and look for an open bracket");
        let opened = self.open.iter().rev().find_map(|open| match open {
            Open::List(start, _) | Open::Map { start, .. } if self.offsets.is_bracket(*start) => {
                Some(*start)
            }
            _ => None,
        });
        if let Some(start) = opened {
            problem = problem.second(self.place(start..start + 1), "still open from here");
        }
        self.refuse(problem);
    }
}

/// Turns the parser's letter counts into byte offsets, once for the whole text.
struct Offsets {
    /// Byte offset of each letter; empty for a pure ASCII text, where the two are the same.
    starts: Vec<usize>,
    brackets: Vec<usize>,
    len: usize,
}

impl Offsets {
    fn new(text: &str) -> Self {
        let starts = if text.is_ascii() {
            Vec::new()
        } else {
            text.char_indices().map(|(at, _)| at).collect()
        };
        let brackets = text.match_indices(['[', '{']).map(|(at, _)| at).collect();
        Self {
            starts,
            brackets,
            len: text.len(),
        }
    }

    fn byte(&self, letter: usize) -> usize {
        if self.starts.is_empty() {
            return letter.min(self.len);
        }
        self.starts.get(letter).copied().unwrap_or(self.len)
    }

    fn bytes(&self, span: Span) -> Range<usize> {
        let start = self.byte(span.start.index());
        start..self.byte(span.end.index()).max(start)
    }

    fn is_bracket(&self, at: usize) -> bool {
        self.brackets.binary_search(&at).is_ok()
    }
}
