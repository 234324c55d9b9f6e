//! What can be entered into a job.

/// One entry of a job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Entry {
    /// A safety question was answered: its place in the list, and whether it is so.
    Safety {
        /// Place of the question.
        item: usize,
        /// Whether it is so; `None` where it cannot be said.
        so: Option<bool>,
    },
    /// A check was answered: places of check and answer.
    Answer {
        /// The check.
        check: usize,
        /// The answer.
        answer: usize,
    },
    /// A check cannot be made.
    Cannot {
        /// The check.
        check: usize,
    },
    /// The last entry still standing was taken back.
    Undo,
    /// The entry taken back last stands again.
    Redo,
}

/// The entries that stand, in order, and those taken back, last one last.
pub fn standing(entries: &[Entry]) -> (Vec<Entry>, Vec<Entry>) {
    let mut standing: Vec<Entry> = Vec::new();
    let mut back: Vec<Entry> = Vec::new();
    for entry in entries {
        match entry {
            Entry::Undo => back.extend(standing.pop()),
            Entry::Redo => standing.extend(back.pop()),
            other => {
                standing.push(other.clone());
                back.clear();
            }
        }
    }
    (standing, back)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn undo_and_redo_are_entries_and_nothing_is_deleted() {
        let a = Entry::Cannot { check: 1 };
        let b = Entry::Cannot { check: 2 };
        let mut log = vec![a.clone(), b.clone(), Entry::Undo, Entry::Undo, Entry::Redo];
        assert_eq!(standing(&log), (vec![a.clone()], vec![b.clone()]));
        log.push(Entry::Redo);
        assert_eq!(standing(&log).0, [a.clone(), b]);
        log.extend([Entry::Undo, Entry::Cannot { check: 3 }, Entry::Redo]);
        assert_eq!(standing(&log).0, [a, Entry::Cannot { check: 3 }]);
    }
}
