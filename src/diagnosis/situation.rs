//! Where the aircraft and the job stand: switches, set-ups paid for, evidence gone.

use super::check::Check;
use super::model::Model;
use crate::plant::practice::Word;
use crate::plant::state::{State, cheapest_way};

/// The state of the work, apart from what is known.
#[derive(Debug, Clone, PartialEq)]
pub struct Situation {
    /// The position of every switch of the aircraft.
    pub state: State,
    /// For each access of the aircraft whether it is there already.
    pub paid: Vec<bool>,
    /// Evidence that was taken away.
    pub gone: Vec<&'static Word>,
}

/// What it takes to make a check from here.
#[derive(Debug, Clone, PartialEq)]
pub struct Cost {
    /// Minutes of work, access and the way to the state.
    pub minutes: f64,
    /// Places of the actions on the way, in order.
    pub way: Vec<usize>,
    /// Evidence that the check or its way takes away.
    pub takes_away: Vec<&'static Word>,
}

impl Situation {
    /// The aircraft as found, nothing paid, nothing gone.
    pub fn as_found(model: &Model) -> Self {
        let aircraft = model.aircraft.as_deref();
        Self {
            state: aircraft.map_or(State(Vec::new()), |a| a.as_found.clone()),
            paid: vec![false; aircraft.map_or(0, |a| a.accesses.len())],
            gone: Vec::new(),
        }
    }

    /// Whether evidence that a check needs is gone.
    pub fn too_late_for(&self, check: &Check) -> bool {
        check
            .needs_evidence
            .iter()
            .any(|word| self.gone.contains(word))
    }

    /// What a check costs from here; `None` where no way leads to the state it needs.
    pub fn cost(&self, model: &Model, check: &Check) -> Option<Cost> {
        let mut cost = Cost {
            minutes: check.minutes,
            way: Vec::new(),
            takes_away: check.takes_away.clone(),
        };
        let Some(aircraft) = model.aircraft.as_deref() else {
            return Some(cost);
        };
        if let Some(access) = check.access.filter(|access| !self.paid[*access]) {
            cost.minutes += aircraft.accesses[access].minutes;
        }
        let (way, minutes) = cheapest_way(&self.state, &check.needs, &aircraft.actions)?;
        cost.minutes += minutes;
        for action in &way {
            for word in &aircraft.actions[*action].step.takes_away {
                if !cost.takes_away.contains(word) {
                    cost.takes_away.push(word);
                }
            }
        }
        cost.way = way;
        Some(cost)
    }

    /// The situation after a check was made: state moved, access paid, evidence gone.
    pub fn make(&mut self, model: &Model, check: &Check) {
        let Some(cost) = self.cost(model, check) else {
            return;
        };
        if let Some(aircraft) = model.aircraft.as_deref() {
            for action in &cost.way {
                self.state = self.state.after(&aircraft.actions[*action]);
            }
        }
        if let Some(access) = check.access {
            self.paid[access] = true;
        }
        for word in cost.takes_away {
            if !self.gone.contains(&word) {
                self.gone.push(word);
            }
        }
    }
}
