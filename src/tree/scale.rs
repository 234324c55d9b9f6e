//! Puts every chance on one scale: per parking.
//!
//! Rates and chances are per parking already. A counted share is a share of reports, so it is
//! multiplied by the chance that one parking ends in such a report, which is worked out from the
//! causes that have rates: P(top with every counted event false) / (1 - sum of shares).

use super::engine::{BUDGET, Workshop};
use super::fault_tree::{Chance, FaultTree};
use super::layers::OverBudget;
use super::partition::Partition;

/// The chances of all events per parking, and what they rest on.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Priors {
    /// Chance of every event, by place.
    pub events: Vec<f64>,
    /// Chance that one parking ends in such a report; `None` where no event is counted.
    pub per_parking: Option<f64>,
    /// Chance of the top with nothing answered.
    pub top: f64,
    /// Chance of a cause that is not in the tree.
    pub unlisted: f64,
}

/// Why the chances cannot be put on one scale.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ScaleError {
    /// No part can make the top true, and `per-parking` is not typed.
    #[error("no part can make the top true, so the share of a report has nothing to be a share of")]
    NothingToScale,
    /// `per-parking` is typed although parts can make the top true.
    #[error("`per-parking` is typed although parts can make the top true")]
    TypedForNothing,
    /// The node an event acts behind can never hold.
    #[error("the node it acts behind can never hold")]
    GivenNeverHolds {
        /// The event.
        event: usize,
    },
    /// The chance comes out too large for the counted share to hold to first order.
    #[error("its chance per parking comes out as {chance:.3}, and must stay below 0.05")]
    TooLikely {
        /// The event.
        event: usize,
        /// The chance.
        chance: f64,
    },
    /// The top can never be true.
    #[error("the top can never be true")]
    NeverTrue,
    /// The tree is too large.
    #[error(transparent)]
    OverBudget(#[from] OverBudget),
}

/// Largest chance a counted event may have.
pub const COUNTED_LIMIT: f64 = 0.05;

/// Works out the chances of all events.
pub fn priors(tree: &FaultTree) -> Result<Priors, ScaleError> {
    let mut events: Vec<f64> = tree
        .events
        .iter()
        .map(|event| match event.chance {
            Chance::PerParking(chance) => chance,
            Chance::Seen { .. } | Chance::Dropped => 0.0,
        })
        .collect();
    let counted: f64 = tree.events.iter().filter_map(|e| share(&e.chance)).sum();
    let mut workshop = Workshop::new(tree);
    let without_counted = chance_of(&mut workshop, tree, tree.top, &events)?;
    let per_parking = match (counted > 0.0, tree.per_parking, without_counted > 0.0) {
        (false, None, _) => None,
        (_, Some(_), true) => return Err(ScaleError::TypedForNothing),
        (_, Some(typed), false) => Some(typed),
        (true, None, true) => Some(without_counted / (1.0 - counted)),
        (true, None, false) => return Err(ScaleError::NothingToScale),
    };
    for (place, event) in tree.events.iter().enumerate() {
        let (Chance::Seen { share, given }, Some(per_parking)) = (&event.chance, per_parking)
        else {
            continue;
        };
        let behind = match given {
            Some(node) => chance_of(&mut workshop, tree, *node, &events)?,
            None => 1.0,
        };
        if behind <= 0.0 {
            return Err(ScaleError::GivenNeverHolds { event: place });
        }
        let chance = share * per_parking / behind;
        if chance >= COUNTED_LIMIT {
            return Err(ScaleError::TooLikely {
                event: place,
                chance,
            });
        }
        events[place] = chance;
    }
    let top = chance_of(&mut workshop, tree, tree.top, &events)?;
    if top <= 0.0 {
        return Err(ScaleError::NeverTrue);
    }
    // P(u) = U q / (1 - U + U q) makes P(u given the report) = U before anything is answered.
    let unlisted = tree.unlisted * top / (1.0 - tree.unlisted + tree.unlisted * top);
    Ok(Priors {
        events,
        per_parking,
        top,
        unlisted,
    })
}

fn share(chance: &Chance) -> Option<f64> {
    match chance {
        Chance::Seen { share, .. } => Some(*share),
        _ => None,
    }
}

/// Weights of all variables: events first, then conditions at their stated chances.
pub fn variable_weights(tree: &FaultTree, events: &[f64]) -> Vec<Vec<f64>> {
    let events = events.iter().map(|chance| vec![1.0 - chance, *chance]);
    let conditions = tree
        .conditions
        .iter()
        .map(|condition| condition.values.iter().map(|value| value.1).collect());
    events.chain(conditions).collect()
}

fn chance_of(
    workshop: &mut Workshop<'_>,
    tree: &FaultTree,
    node: super::node::Node,
    events: &[f64],
) -> Result<f64, OverBudget> {
    let engine = workshop.engine(&[Partition::of_node(node)], BUDGET)?;
    let weights = engine.open_weights(variable_weights(tree, events));
    let sweep = engine.ask(&weights);
    Ok(sweep
        .outcomes
        .first()
        .and_then(|o| o.first())
        .copied()
        .unwrap_or(0.0))
}
