//! Everything that follows from the entries of a job.

use super::entry::What;
use super::field::Section;
use super::fields::{FIELDS, of};
use super::job::Stage;
use super::timer::Timer;
use super::watch::Watch;
use crate::base::stamp::Stamp;
use crate::diagnosis::evidence::Evidence;
use crate::diagnosis::given;
use crate::diagnosis::inference::{Belief, Inference};
use crate::diagnosis::model::Model;
use crate::diagnosis::next_check::Proposal;
use crate::diagnosis::situation::Situation;
use crate::diagnosis::stop::Standing;

/// Where the answer to a field or a condition stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Asked {
    /// It was not asked yet.
    NotYet,
    /// It was asked, and is not known.
    Unknown,
    /// What was typed.
    Typed(String),
}

impl Asked {
    /// What was typed.
    pub(super) fn typed(&self) -> Option<&str> {
        match self {
            Self::Typed(words) => Some(words),
            _ => None,
        }
    }
}

impl From<Option<String>> for Asked {
    fn from(value: Option<String>) -> Self {
        value.map_or(Self::Unknown, Self::Typed)
    }
}

/// What follows from the entries.
#[derive(Debug, Clone)]
pub(super) struct Known {
    /// For each field: not asked, asked and not known, or what was typed.
    pub(super) fields: Vec<Asked>,
    pub(super) conditions: Vec<Asked>,
    pub(super) evidence: Evidence,
    pub(super) situation: Situation,
    pub(super) belief: Option<Belief>,
    pub(super) rule: Option<Standing>,
    pub(super) open: Vec<Proposal>,
    pub(super) locked: Vec<usize>,
    pub(super) end: Option<usize>,
    pub(super) timers: Vec<Timer>,
    pub(super) watch: Watch,
    /// Checks that were answered, with the places of the entries.
    pub(super) answered: Vec<(usize, usize)>,
    pub(super) stage: Stage,
    pub(super) can_undo: bool,
    pub(super) can_redo: bool,
}

impl Known {
    /// Nothing entered yet.
    pub(super) fn empty(model: &Model) -> Self {
        Self {
            fields: vec![Asked::NotYet; FIELDS.len()],
            conditions: vec![Asked::NotYet; model.tree.conditions.len()],
            evidence: Evidence::report_only(model),
            situation: Situation::as_found(model),
            belief: None,
            rule: None,
            open: Vec::new(),
            locked: Vec::new(),
            end: None,
            timers: Vec::new(),
            watch: Watch::default(),
            answered: Vec::new(),
            stage: Stage::NothingLeft,
            can_undo: false,
            can_redo: false,
        }
    }
}

impl Known {
    /// Takes one entry that stands.
    pub(super) fn take(&mut self, inference: &Inference, what: What, place: usize, at: Stamp) {
        let model = inference.model();
        match what {
            What::Field { field, value } => self.fields[field] = Asked::from(value),
            What::Condition { condition, word } => {
                let id = &model.tree.conditions[condition].id;
                let known = word
                    .as_deref()
                    .and_then(|w| given::condition(model, id, w).ok());
                match known {
                    Some(told) => self.evidence.tell(told),
                    None => self.evidence.forget(condition),
                }
                self.conditions[condition] = Asked::from(word);
            }
            What::Answer { check, answer, .. } => {
                self.situation.make(model, &model.checks[check]);
                self.evidence.answer(model, check, answer);
                self.answered.push((check, place));
            }
            What::Cannot { check, .. } => self.evidence.cannot(check),
            What::Timer { label, minutes } => self.timers.push(Timer {
                label,
                started: at,
                minutes,
            }),
            What::Heard => self.timers.retain(|timer| timer.left(at) > 0),
            What::End(end) => {
                self.end = Some(end);
                // What was handed over on the way says nothing about how the job ended.
                for field in of(Section::HandOver) {
                    self.fields[field] = Asked::NotYet;
                }
            }
            What::Readings { values, .. } => self.watch.take(inference.dial(), &values, place),
            What::NewWatch => self.watch = Watch::default(),
            What::Note(_) | What::Change { .. } | What::Undo | What::Redo | What::Foreign(_) => {}
        }
    }
}
