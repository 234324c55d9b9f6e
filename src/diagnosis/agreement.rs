//! A tree held against the plant of its aircraft: two descriptions of one thing, drawn up apart.

mod apart;
mod movement;
pub mod readings;

use super::inference::{Inference, NoBelief};
use super::model::Model;
use crate::plant::error::PlantError;

/// Where the two do not say the same. Causes, checks and lines by their places.
#[derive(Debug, Clone, PartialEq)]
pub enum Finding {
    /// The fault of a cause leaves the aircraft standing as long as a healthy one.
    DoesNotMove {
        /// The cause.
        cause: usize,
        /// Hours a healthy one at the worst in its limits stands on 1 %.
        healthy: f64,
    },
    /// A check reads what gives one answer, and its line makes another the likeliest.
    Contradicts {
        /// The check.
        check: usize,
        /// The line that decides.
        line: usize,
        /// The fault that is in; `None` for a healthy aircraft.
        event: Option<usize>,
        /// What the plant reads.
        reading: String,
        /// The answer that gives.
        shown: usize,
        /// The likeliest answer of the line.
        likeliest: usize,
    },
    /// A check reads what no answer covers.
    NoAnswer {
        /// The check.
        check: usize,
        /// The fault that is in; `None` for a healthy aircraft.
        event: Option<usize>,
        /// What the plant reads.
        reading: String,
    },
    /// Causes that no check tells apart.
    NotToldApart(Vec<usize>),
    /// A check that moves fluid and takes no pressure away.
    MovesFluid(usize),
    /// A fault that moves the aircraft and is no cause.
    NotInTree {
        /// The part.
        part: String,
        /// The fault.
        fault: String,
        /// Its words.
        title: String,
        /// Hours it stands on the slope on which it moves.
        hours: f64,
    },
}

/// Why nothing could be compared.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum NotCompared {
    /// There is no aircraft.
    #[error("no aircraft named, so there is no plant to hold the tree against")]
    NoAircraft,
    /// The plant of the healthy aircraft could not be played.
    #[error(transparent)]
    Plant(#[from] PlantError),
    /// The plant could not be played with a fault.
    #[error("with `{fault}` in it: {error}")]
    Fault {
        /// The fault.
        fault: String,
        /// Why.
        error: PlantError,
    },
    /// The tree itself could not be reckoned.
    #[error(transparent)]
    Belief(#[from] NoBelief),
}

/// Everything in which a tree and the plant differ, in the order of the tree.
///
/// Plays one parking for each fault, slope and state a check is made in: some seconds for forty
/// causes.
pub fn agree(inference: &Inference) -> Result<Vec<Finding>, NotCompared> {
    let model = inference.model();
    let aircraft = model.aircraft.as_ref().ok_or(NotCompared::NoAircraft)?;
    let mut found = Vec::new();
    if model.moves {
        movement::compare(model, aircraft, &mut found)?;
    }
    readings::compare(inference, aircraft, &mut found)?;
    apart::compare(inference, &mut found)?;
    Ok(found)
}

/// The faults of some events in words; `nothing wrong` for none.
pub(super) fn fault_names(model: &Model, events: &[usize]) -> String {
    let names: Vec<String> = events
        .iter()
        .filter_map(|event| fault_of(model, *event))
        .map(|(part, fault)| format!("{part}/{fault}"))
        .collect();
    if names.is_empty() {
        return "nothing wrong".to_owned();
    }
    names.join(" and ")
}

/// The part and the fault that an event puts into the plant, by their names in the aircraft.
pub fn fault_of(model: &Model, event: usize) -> Option<(&str, &str)> {
    let (role, fault) = model.causes[event].fault.as_ref()?;
    let part = model.aircraft.as_deref()?.part_for(role)?;
    Some((&part.id, fault))
}
