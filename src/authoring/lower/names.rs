//! The names of one tree and the files it takes in: one set for everything.

use std::collections::BTreeMap;

use super::located::Located;
use crate::source::codes::tree as code;
use crate::source::place::Place;
use crate::source::problem::Problem;
use crate::tree::fault_tree::Condition;
use crate::tree::node::Node;

/// What a name stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Meaning {
    /// A condition.
    Condition(usize),
    /// A basic event.
    Event(usize),
    /// A gate.
    Gate(usize),
    /// A check.
    Check(usize),
}

impl Meaning {
    fn word(self) -> &'static str {
        match self {
            Self::Condition(_) => "a condition",
            Self::Event(_) => "an event",
            Self::Gate(_) => "a gate",
            Self::Check(_) => "a check",
        }
    }
}

/// All names, each with what it stands for and where it is defined.
#[derive(Debug, Default)]
pub struct Names {
    known: BTreeMap<String, (Meaning, Place)>,
}

impl Names {
    /// Adds a name; a second use of it is a problem.
    pub fn add(&mut self, entry: &Located<'_>, meaning: Meaning) -> Option<Problem> {
        if let Some((first, place)) = self.known.get(entry.key) {
            let message = format!("`{}` is {} already", entry.key, first.word());
            return Some(
                Problem::new(code::NAME_TAKEN, entry.place(), message)
                    .second(place.clone(), "first used here")
                    .hint("give one of the two another name"),
            );
        }
        let value = (meaning, entry.place());
        self.known.insert(entry.key.to_owned(), value);
        None
    }

    /// What a name stands for.
    pub fn get(&self, name: &str) -> Option<Meaning> {
        self.known.get(name).map(|(meaning, _)| *meaning)
    }

    /// The place of a check with this name.
    pub fn check(&self, name: &str) -> Option<usize> {
        match self.get(name) {
            Some(Meaning::Check(check)) => Some(check),
            _ => None,
        }
    }

    /// The place of an event with this name.
    pub fn event(&self, name: &str) -> Option<usize> {
        match self.get(name) {
            Some(Meaning::Event(event)) => Some(event),
            _ => None,
        }
    }

    /// All names that can stand for a node, for suggestions.
    pub fn nodes(&self) -> Vec<&str> {
        let is_node = |m: &Meaning| !matches!(m, Meaning::Check(_));
        let nodes = self
            .known
            .iter()
            .filter(|(_, (meaning, _))| is_node(meaning));
        nodes.map(|(name, _)| name.as_str()).collect()
    }

    /// All names of one kind of thing, for suggestions.
    pub fn of(&self, wanted: fn(Meaning) -> bool) -> Vec<&str> {
        let some = self
            .known
            .iter()
            .filter(|(_, (meaning, _))| wanted(*meaning));
        some.map(|(name, _)| name.as_str()).collect()
    }

    /// The node a text names: `return-open`, `supply-used=none`.
    pub fn node(
        &self,
        text: &str,
        conditions: &[Condition],
        place: Place,
    ) -> Result<Node, Problem> {
        let (name, word) = match text.split_once('=') {
            Some((name, word)) => (name.trim(), Some(word.trim())),
            None => (text.trim(), None),
        };
        match (self.get(name), word) {
            (Some(Meaning::Event(event)), None) => Ok(Node::Event(event)),
            (Some(Meaning::Gate(gate)), None) => Ok(Node::Gate(gate)),
            (Some(Meaning::Condition(condition)), word) => value_node(condition, word, conditions)
                .map_err(|hint| {
                    let message = format!("`{text}` does not say which value is meant");
                    Problem::new(code::VALUE_NEEDED, place, message).hint(hint)
                }),
            (Some(meaning @ (Meaning::Event(_) | Meaning::Gate(_))), Some(_)) => {
                let message = format!("`{name}` is {}, and has no values", meaning.word());
                Err(Problem::new(code::VALUE_NEEDED, place, message)
                    .hint(format!("write `{name}`")))
            }
            (Some(Meaning::Check(_)), _) => {
                let message = format!("`{name}` is a check, and a node is wanted here");
                Err(Problem::new(code::UNKNOWN_NODE, place, message)
                    .hint("name an event, a gate or a condition"))
            }
            (None, _) => {
                let message = format!("there is no node `{name}`");
                Err(Problem::new(code::UNKNOWN_NODE, place, message).suggest(name, &self.nodes()))
            }
        }
    }
}

/// A value of a condition; the error is the hint.
fn value_node(
    condition: usize,
    word: Option<&str>,
    conditions: &[Condition],
) -> Result<Node, String> {
    let Some(about) = conditions.get(condition) else {
        return Err("the condition itself is broken".to_owned());
    };
    // A condition that could not be read has its own problem already.
    if about.values.is_empty() {
        return Ok(Node::Value {
            condition,
            value: 0,
        });
    }
    let words: Vec<&str> = about.values.iter().map(|(word, _)| word.as_str()).collect();
    let yes_no = words == ["yes", "no"];
    let value = match (yes_no, word) {
        (true, None) => Some(0),
        (true, Some(_)) => {
            let id = &about.id;
            return Err(format!(
                "`{id}` is answered yes or no: write `{id}`, or a gate with `not: {id}`"
            ));
        }
        (false, Some(word)) => words.iter().position(|known| *known == word),
        (false, None) => None,
    };
    let value = value.ok_or_else(|| {
        let forms: Vec<String> = words.iter().map(|w| format!("{}={w}", about.id)).collect();
        format!("write one of: {}", forms.join(", "))
    })?;
    Ok(Node::Value { condition, value })
}
