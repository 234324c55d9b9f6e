//! When it moved, as weights of events: one term of evidence.

use std::collections::BTreeMap;
use std::sync::{Mutex, PoisonError};

use super::cause::{Cause, Part};
use super::evidence::Evidence;
use super::fact::Fact;
use super::model::Model;
use super::played_times::Typed;
use super::time_to_movement::{Moves, Stretch, Times};
use crate::tree::mass::Lapse;

/// What a stretch, of hours or of a fall, does to each event and to a cause that is not in the tree.
#[derive(Debug, Clone, PartialEq)]
pub struct Lapses {
    /// By event; 1 for what adds nothing.
    pub events: Vec<Lapse>,
    /// What is so whatever the cause.
    pub always: Lapse,
    /// Of a cause that is not in the tree.
    pub unlisted: Lapse,
}

/// What was played of healthy aircraft: the same facts are played once.
#[derive(Debug, Default)]
pub struct Designed(Mutex<BTreeMap<[Option<u64>; 6], Times>>);

impl Designed {
    /// The times of a healthy aircraft under what is typed.
    ///
    /// Without an aircraft, or where its plant refuses the facts, nothing is known of them.
    fn times(&self, model: &Model, typed: &Typed) -> Times {
        let kept = model.played(None);
        if let Some(played) = kept.filter(|_| typed.is_usual()) {
            return Times::of_healthy(played, typed.slope);
        }
        let Some(aircraft) = &model.aircraft else {
            return Times::any();
        };
        // A panic elsewhere leaves at most a time that was not kept.
        let mut known = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let times = known
            .entry(typed.key())
            .or_insert_with(|| typed.healthy(aircraft).unwrap_or_else(|_| Times::any()));
        times.clone()
    }

    /// The times of one event; `None` where it never moves the aircraft by itself.
    pub fn times_of(&self, model: &Model, typed: &Typed, event: usize) -> Option<Times> {
        let cause: &Cause = &model.causes[event];
        if cause.part != Part::Cause {
            return None;
        }
        Some(match (cause.moves, model.played(Some(event))) {
            (Some(Moves::AsDesigned), _) => self.times(model, typed),
            (Some(moves), _) => Times::typed(moves).unwrap_or_else(Times::any),
            (None, Some(played)) => Times::of_fault(played, typed.slope),
            (None, None) => Times::any(),
        })
    }

    /// What some evidence does to every event; `None` where it does not say when it moved.
    pub fn lapses(&self, model: &Model, evidence: &Evidence) -> Option<Lapses> {
        let condition = model.fact(Fact::TimeToMovement)?;
        let stretch = Stretch::typed(evidence.spans[condition]?);
        let typed = Typed::of(model, evidence);
        let lapse = |event| {
            let times = self.times_of(model, &typed, event);
            times.map_or(Lapse::never(1.0), |times| times.lapse(stretch))
        };
        Some(Lapses {
            events: (0..model.causes.len()).map(lapse).collect(),
            always: Lapse::never(1.0),
            unlisted: Times::any().lapse(stretch),
        })
    }
}
