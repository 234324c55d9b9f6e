//! Everything the diagnosis of one report needs: tree, causes, checks and the aircraft in hand.

use std::sync::Arc;

use super::cause::{Cause, Part};
use super::check::Check;
use super::derivation::Derived;
use super::evidence::Told;
use super::fact::Fact;
use super::played_times::PlayedEvent;
use super::time_to_movement::Played;
use crate::base::dimension::Dimension;
use crate::base::unit::Unit;
use crate::plant::aircraft::Aircraft;
use crate::tree::fault_tree::FaultTree;
use crate::tree::node::Node;
use crate::tree::scale::Priors;

/// A tree joined to an aircraft.
#[derive(Debug, Clone)]
pub struct Model {
    /// Name of the tree.
    pub id: String,
    /// Name of the tree, as people read it.
    pub title: String,
    /// Number of this issue of the tree.
    pub version: Option<String>,
    /// Checksum of the texts of tree and aircraft.
    pub checksum: String,
    /// The words of the report.
    pub report: String,
    /// What a reader should know first.
    pub note: Option<String>,
    /// The aircraft in hand.
    pub aircraft: Option<Arc<Aircraft>>,
    /// The logic.
    pub tree: FaultTree,
    /// The chances.
    pub priors: Priors,
    /// One entry for each basic event of the tree.
    pub causes: Vec<Cause>,
    /// One entry for each condition of the tree.
    pub questions: Vec<Question>,
    /// The checks.
    pub checks: Vec<Check>,
    /// When the search may stop.
    pub rule: Option<Rule>,
    /// Whether the top is true where the plant of the aircraft moves.
    pub moves: bool,
    /// Worked cases the tree must get right.
    pub cases: Vec<Case>,
    /// What was worked out from the texts and stands in none of them.
    pub worked_out: WorkedOut,
}

/// What was worked out from the texts: it can be kept beside them.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct WorkedOut {
    /// Checksum of everything it rests on.
    pub texts: String,
    /// The lines of the checks that carry none themselves.
    pub derived: Vec<Derived>,
    /// An order of the variables in which the product of all checks is small; empty where none is
    /// known. Events come first, then conditions.
    pub order: Vec<usize>,
    /// Times to movement by event; without an event those of a healthy aircraft.
    pub times: Vec<PlayedEvent>,
}

/// How a condition is asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// The words.
    pub ask: String,
    /// The number that is asked for, where it is one.
    pub quantity: Option<BandScale>,
    /// What it is to the plant, where it is a fact that is taken as it is typed. Its condition has
    /// one value, which is always so.
    pub fact: Option<Fact>,
}

/// A quantity cut into bands, in the order of the condition's values; without bands a fact.
#[derive(Debug, Clone, PartialEq)]
pub struct BandScale {
    /// The unit it is asked in.
    pub unit: &'static Unit,
    /// SI ends of each band, low end included; the values of the condition in order.
    /// `None` stands for `between`, which takes what no band covers.
    pub bands: Vec<Option<(f64, f64)>>,
}

impl BandScale {
    /// The place of the band a value falls into.
    pub fn band_of(&self, si: f64) -> Option<usize> {
        let inside = |band: &Option<(f64, f64)>| band.is_some_and(|(a, b)| a <= si && si < b);
        let between = || self.bands.iter().position(Option::is_none);
        self.bands.iter().position(inside).or_else(between)
    }

    /// What is measured.
    pub fn dimension(&self) -> Dimension {
        self.unit.dimension
    }
}

/// When the search may stop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rule {
    /// Share the leading cause or group must reach.
    pub share: f64,
    /// Whether the confirming check must stand.
    pub confirm: bool,
}

/// A worked case.
#[derive(Debug, Clone, PartialEq)]
pub struct Case {
    /// What it is called.
    pub name: String,
    /// Conditions that are known.
    pub given: Vec<Told>,
    /// Checks that were answered; `None` for "cannot".
    pub answers: Vec<(usize, Option<usize>)>,
    /// Causes of which one must lead.
    pub first: Vec<usize>,
}

impl Model {
    /// The place of a check.
    pub fn check(&self, id: &str) -> Option<usize> {
        self.checks.iter().position(|check| check.id == id)
    }

    /// The place of the condition that asks for a fact of the parking.
    pub fn fact(&self, fact: Fact) -> Option<usize> {
        self.questions
            .iter()
            .position(|asked| asked.fact == Some(fact))
    }

    /// The times to movement that the plant played for an event, or for a healthy aircraft.
    pub fn played(&self, event: Option<usize>) -> Option<&Played> {
        let times = self.worked_out.times.iter();
        let mut found = times.filter(|(of, _)| *of == event);
        found.next().map(|(_, played)| played)
    }

    /// The place of a basic event.
    pub fn cause(&self, id: &str) -> Option<usize> {
        self.causes.iter().position(|cause| cause.id == id)
    }

    /// Locks of a check, of the access it needs and of the actions on the way to its state.
    pub fn locks_of(&self, check: usize, way: &[usize]) -> Vec<&'static str> {
        let check = &self.checks[check];
        let mut locks: Vec<&'static str> = check.locks.iter().map(|lock| lock.name).collect();
        if let Some(aircraft) = self.aircraft.as_deref() {
            let access = check.access.map(|access| &aircraft.accesses[access].step);
            let actions = way.iter().map(|action| &aircraft.actions[*action].step);
            for step in access.into_iter().chain(actions) {
                locks.extend(step.locks.iter().map(|lock| lock.name));
            }
        }
        locks
    }

    /// Whether everything below a node is bystanders: such a node says nothing about causes.
    ///
    /// A condition value is not a bystander, since conditions are worth knowing.
    pub fn is_bystander_node(&self, node: Node) -> bool {
        let below = self.tree.below(node);
        below.iter().all(|node| match node {
            Node::Event(event) => self
                .causes
                .get(*event)
                .is_some_and(|c| c.part != Part::Cause),
            Node::Gate(_) => true,
            Node::Value { .. } => false,
        })
    }
}
