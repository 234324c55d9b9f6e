//! What can be entered into a job.

use super::watch::Taken;
use crate::base::stamp::Stamp;

/// One entry of a job with its time.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// When it was made.
    pub at: Stamp,
    /// What it says.
    pub what: What,
}

/// What an entry says.
#[derive(Debug, Clone, PartialEq)]
pub enum What {
    /// A field was answered, as typed; `None` where it is not known.
    Field {
        /// Place of the field.
        field: usize,
        /// What was typed.
        value: Option<String>,
    },
    /// A condition was settled, as typed; `None` where it is not known.
    Condition {
        /// Place of the condition.
        condition: usize,
        /// What was typed.
        word: Option<String>,
    },
    /// A check was answered: places of check and answer.
    Answer {
        /// The check.
        check: usize,
        /// The answer.
        answer: usize,
        /// The reading it was judged by, as typed, where there was one.
        read: Option<String>,
    },
    /// A check cannot be made.
    Cannot {
        /// The check.
        check: usize,
        /// Why not.
        reason: Option<String>,
    },
    /// Readings of watched gauges.
    Readings {
        /// The readings.
        values: Vec<Taken>,
        /// Name of the file they came from; `None` where they were typed.
        from: Option<String>,
    },
    /// The watch ends; the next reading begins another.
    NewWatch,
    /// Words for the log.
    Note(String),
    /// A timer was started.
    Timer {
        /// What it is for.
        label: String,
        /// Minutes it runs.
        minutes: u32,
    },
    /// Whoever heard them says so: timers that are over end.
    Heard,
    /// A way to end was chosen: its place.
    End(usize),
    /// An earlier entry was changed: its place among all entries, and what it says now.
    Change {
        /// Place of the earlier entry.
        line: usize,
        /// What it says now.
        to: Box<What>,
    },
    /// The last entry still standing was taken back.
    Undo,
    /// The entry taken back last stands again.
    Redo,
    /// An entry of an older tree that means nothing in this one; kept as it was written.
    Foreign(String),
}
