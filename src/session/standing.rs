//! Which entries stand once undo, redo and changes are followed.

use super::entry::{Entry, What};

/// The entries that stand, each with its place among all entries; changes are put in.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Standing {
    /// Place and meaning of every entry that stands, in order.
    pub entries: Vec<(usize, What)>,
    /// Places of everything that was not taken back, changes included.
    pub done: Vec<usize>,
    /// Whether something can be taken back.
    pub can_undo: bool,
    /// Whether something taken back can be put back.
    pub can_redo: bool,
}

/// Follows undo, redo and changes. Notes and timers stand like answers.
pub fn standing(entries: &[Entry]) -> Standing {
    let mut done: Vec<usize> = Vec::new();
    let mut back: Vec<usize> = Vec::new();
    for (place, entry) in entries.iter().enumerate() {
        match entry.what {
            What::Undo => back.extend(done.pop()),
            What::Redo => done.extend(back.pop()),
            _ => {
                done.push(place);
                back.clear();
            }
        }
    }
    let mut stands: Vec<(usize, What)> = Vec::new();
    for place in &done {
        match &entries[*place].what {
            What::Change { line, to } => {
                if let Some(earlier) = stands.iter_mut().find(|(at, _)| at == line) {
                    earlier.1 = (**to).clone();
                }
            }
            other => stands.push((*place, other.clone())),
        }
    }
    Standing {
        entries: stands,
        can_undo: !done.is_empty(),
        can_redo: !back.is_empty(),
        done,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::stamp::Stamp;

    fn cannot(check: usize) -> What {
        What::Cannot {
            check,
            reason: None,
        }
    }

    fn run(whats: &[What]) -> Vec<(usize, What)> {
        let at = Stamp::from_seconds(0);
        let entries: Vec<Entry> = whats
            .iter()
            .cloned()
            .map(|what| Entry { at, what })
            .collect();
        standing(&entries).entries
    }

    #[test]
    fn undo_and_redo_are_entries_and_nothing_is_deleted() {
        let log = [cannot(1), cannot(2), What::Undo, What::Undo, What::Redo];
        assert_eq!(run(&log), [(0, cannot(1))]);
        let log = [cannot(1), cannot(2), What::Undo, cannot(3), What::Redo];
        assert_eq!(run(&log), [(0, cannot(1)), (3, cannot(3))]);
    }

    #[test]
    fn a_change_keeps_the_place_and_can_be_taken_back() {
        let change = What::Change {
            line: 0,
            to: Box::new(cannot(9)),
        };
        let log = [cannot(1), cannot(2), change.clone()];
        assert_eq!(run(&log), [(0, cannot(9)), (1, cannot(2))]);
        let log = [cannot(1), cannot(2), change, What::Undo];
        assert_eq!(run(&log), [(0, cannot(1)), (1, cannot(2))]);
    }
}
