//! What is known about a basic event beside its chance: words, proof, remedy.

use super::time_to_movement::Moves;
use crate::plant::practice::Word;

/// What a basic event is to the report.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// It can make the top true, so it can be the answer.
    Cause,
    /// It only colours what checks show.
    Bystander,
    /// The aircraft lacks its part.
    Dropped,
}

/// A basic event as people read it.
#[derive(Debug, Clone, PartialEq)]
pub struct Cause {
    /// Its name.
    pub id: String,
    /// What happened, as a technician would say it.
    pub title: String,
    /// What it is to the report.
    pub part: Part,
    /// The role and fault of the aircraft's part, where it is a part's fault.
    pub fault: Option<(String, String)>,
    /// When it moves the aircraft; `None` where the plant says it, or nobody does.
    pub moves: Option<Moves>,
    /// The check whose stated answer must stand first: places of check and answer.
    pub confirm: Option<Confirm>,
    /// What is done about it.
    pub remedy: Option<Remedy>,
    /// What one sees.
    pub looks_like: Option<String>,
    /// Cautions shown beside it.
    pub cautions: Vec<&'static Word>,
    /// Where the approved data stand.
    pub reference: Option<String>,
    /// Where its share comes from.
    pub source: Option<String>,
}

impl Cause {
    /// A cause of which nothing is known but its name.
    pub fn named(id: &str) -> Self {
        Self {
            id: id.to_owned(),
            title: id.replace('-', " "),
            part: Part::Cause,
            fault: None,
            moves: None,
            confirm: None,
            remedy: None,
            looks_like: None,
            cautions: Vec::new(),
            reference: None,
            source: None,
        }
    }
}

/// The answer that confirms a cause.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Confirm {
    /// Place of the check.
    pub check: usize,
    /// Place of the answer.
    pub answer: usize,
}

/// What is done about a cause.
#[derive(Debug, Clone, PartialEq)]
pub enum Remedy {
    /// Nothing to replace: record and brief.
    Nothing,
    /// Work on the aircraft.
    Work {
        /// What is done.
        instruction: String,
        /// Minutes it takes.
        minutes: Option<f64>,
        /// People it takes.
        people: Option<u32>,
        /// What must be done afterwards.
        puts_back: Vec<&'static Word>,
    },
}
