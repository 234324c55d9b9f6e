//! What can be switched on an aircraft, and the shortest way from one state to another.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap};

use super::procedure::Action;

/// One switch of the aircraft with its positions: `power` with `none` and `external`.
#[derive(Debug, Clone, PartialEq)]
pub struct Switch {
    /// Its name.
    pub id: String,
    /// Its positions, in the order written.
    pub positions: Vec<String>,
}

/// A switch in a position, both as places in their lists.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Setting {
    /// Which switch.
    pub switch: usize,
    /// Which of its positions.
    pub position: usize,
}

/// The position of every switch.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct State(pub Vec<usize>);

/// For some switches, the positions that will do.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Needs(pub Vec<(usize, Vec<usize>)>);

impl Needs {
    /// Whether a state will do.
    pub fn met_by(&self, state: &State) -> bool {
        self.0.iter().all(|(switch, positions)| {
            state
                .0
                .get(*switch)
                .is_some_and(|now| positions.contains(now))
        })
    }
}

impl State {
    /// The state after an action.
    #[must_use]
    pub fn after(&self, action: &Action) -> Self {
        let mut next = self.clone();
        for setting in &action.sets {
            if let Some(position) = next.0.get_mut(setting.switch) {
                *position = setting.position;
            }
        }
        next
    }
}

/// The cheapest way to a state that will do: places of the actions in order, and their minutes.
///
/// `None` where no sequence of actions leads there. Ties go to the way found first, which is the
/// one whose actions stand first in the document.
/// Complexity: Dijkstra's search over at most the product of all positions.
pub fn cheapest_way(from: &State, needs: &Needs, actions: &[Action]) -> Option<(Vec<usize>, f64)> {
    let mut best: BTreeMap<State, (u64, Vec<usize>)> = BTreeMap::new();
    let mut queue = BinaryHeap::new();
    best.insert(from.clone(), (0, Vec::new()));
    queue.push(Reverse((0, from.clone())));
    while let Some(Reverse((cost, state))) = queue.pop() {
        let (known, way) = best.get(&state)?.clone();
        if cost > known {
            continue;
        }
        if needs.met_by(&state) {
            let minutes = way
                .iter()
                .filter_map(|i| actions.get(*i))
                .map(|a| a.minutes);
            return Some((way.clone(), minutes.sum()));
        }
        for (index, action) in actions.iter().enumerate() {
            if !action.needs.met_by(&state) {
                continue;
            }
            let next = state.after(action);
            let next_cost = cost + millis(action.minutes);
            if best.get(&next).is_none_or(|(known, _)| next_cost < *known) {
                let mut next_way = way.clone();
                next_way.push(index);
                best.insert(next.clone(), (next_cost, next_way));
                queue.push(Reverse((next_cost, next)));
            }
        }
    }
    None
}

/// Minutes as whole thousandths, so that costs can be ordered.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "minutes are checked to be finite and not negative when the document is read"
)]
fn millis(minutes: f64) -> u64 {
    (minutes * 1000.0).round() as u64
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plant::procedure::Step;

    fn action(id: &str, switch: usize, position: usize, minutes: f64, needs: Needs) -> Action {
        Action {
            id: id.into(),
            sets: vec![Setting { switch, position }],
            needs,
            minutes,
            step: Step::default(),
        }
    }

    #[test]
    fn the_cheapest_way_chains_actions_that_need_each_other() {
        // Switch 0 is power, switch 1 is pumps, and pumps need power.
        let powered = Needs(vec![(0, vec![1])]);
        let actions = [
            action("power-on", 0, 1, 8.0, Needs::default()),
            action("pumps-on", 1, 1, 10.0, powered),
        ];
        let from = State(vec![0, 0]);
        let way = cheapest_way(&from, &Needs(vec![(1, vec![1])]), &actions);
        assert_eq!(way, Some((vec![0, 1], 18.0)));
        assert_eq!(
            cheapest_way(&from, &Needs(vec![(0, vec![0])]), &actions),
            Some((vec![], 0.0))
        );
        assert_eq!(
            cheapest_way(&from, &Needs(vec![(1, vec![7])]), &actions),
            None
        );
    }
}
