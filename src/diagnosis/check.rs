//! One observation: its words, its answer lines, what it costs and what it takes away.

use crate::base::unit::Unit;
use crate::plant::observe::{Observed, Reading};
use crate::plant::practice::Word;
use crate::plant::practice::hazard::Hazard;
use crate::plant::state::Needs;
use crate::tree::node::Node;
use crate::tree::partition::Partition;

/// A check.
#[derive(Debug, Clone, PartialEq)]
pub struct Check {
    /// Its name.
    pub id: String,
    /// Short name for lists.
    pub title: String,
    /// The question.
    pub ask: String,
    /// How it is done.
    pub how: Option<String>,
    /// Who is asked, where a person or a record is the instrument.
    pub asks: Option<String>,
    /// The answers, `yes` and `no` where the document gives none.
    pub answers: Vec<String>,
    /// How likely each answer is; the last line has no nodes and always holds.
    pub lines: Vec<AnswerLine>,
    /// The reading of the plant it takes, where it takes one.
    pub reads: Option<String>,
    /// Which readings give which answer, where that is said.
    pub shows: Vec<Shows>,
    /// Minutes of work, without access and without the way to the state.
    pub minutes: f64,
    /// People needed.
    pub people: u32,
    /// Place of the set-up it needs.
    pub access: Option<usize>,
    /// Tools needed.
    pub tools: Vec<String>,
    /// States the aircraft must be in.
    pub needs: Needs,
    /// What must be in place before it may be started.
    pub locks: Vec<&'static Word>,
    /// Evidence without which it comes too late.
    pub needs_evidence: Vec<&'static Word>,
    /// Evidence it takes away.
    pub takes_away: Vec<&'static Word>,
    /// The worst it does.
    pub hazard: Hazard,
    /// Whether a second answer adds to the first.
    pub repeatable: bool,
    /// Cautions shown with it.
    pub cautions: Vec<&'static Word>,
    /// Where the approved data stand.
    pub reference: Option<String>,
    /// The limit.
    pub limit: Option<String>,
    /// Where the chances come from.
    pub source: Option<String>,
}

/// A reading of the plant that gives an answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Shows {
    /// Place of the answer.
    pub answer: usize,
    /// The reading.
    pub reading: Shown,
}

/// The word for an instrument that shows nothing.
pub const NOTHING: &str = "nothing";

/// What a reading must be.
#[derive(Debug, Clone, PartialEq)]
pub enum Shown {
    /// This word, as the reading or as one of the parts it names, or as its first words;
    /// [`NOTHING`] for no reading at all.
    Word(String),
    /// From the first to below the second, in SI units.
    Between(f64, f64),
}

impl Shown {
    /// Whether a reading is this one.
    pub fn fits(&self, observed: &Observed) -> bool {
        match (&observed.reading, self) {
            (Reading::Word(read), Self::Word(wanted)) => {
                let begins = read.strip_prefix(wanted.as_str());
                let whole_words = begins.is_some_and(|rest| rest.starts_with(' '));
                whole_words || read.split(", ").any(|named| named == wanted)
            }
            (Reading::Dead, Self::Word(wanted)) => wanted == NOTHING,
            (Reading::Number(number), Self::Between(from, to)) => {
                let si = Unit::find(observed.unit).map_or(*number, |unit| unit.to_si(*number));
                *from <= si && si < *to
            }
            _ => false,
        }
    }
}

/// The shares of the answers where certain nodes hold.
#[derive(Debug, Clone, PartialEq)]
pub struct AnswerLine {
    /// All of these must hold.
    pub when: Vec<Node>,
    /// Share of each answer, adding up to 1.
    pub shares: Vec<f64>,
}

impl Check {
    /// The lines as a partition, with the outcome of each; the last line is its `otherwise`.
    pub fn partition(&self, outcomes: &[usize]) -> Partition {
        Partition::sharing(self.conditions(), outcomes)
    }

    /// The same with an outcome of its own for each line, so that the deciding one can be named.
    pub fn partition_of_lines(&self) -> Partition {
        Partition::of_lines(self.conditions())
    }

    /// What each line but the last asks for.
    fn conditions(&self) -> Vec<Vec<Node>> {
        let lines = self.lines.iter().map(|line| line.when.clone());
        lines.take(self.lines.len().saturating_sub(1)).collect()
    }

    /// The place of an answer.
    pub fn answer(&self, word: &str) -> Option<usize> {
        self.answers.iter().position(|answer| answer == word)
    }

    /// Chance of each answer, from the chance of each line.
    pub fn answer_chances(&self, lines: &[f64]) -> Vec<f64> {
        let chance = |answer: usize| {
            let parts = self.lines.iter().zip(lines);
            parts
                .map(|(line, chance)| line.shares[answer] * chance)
                .sum()
        };
        (0..self.answers.len()).map(chance).collect()
    }
}
