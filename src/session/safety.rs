//! The questions that come before everything else, and the locks they open.

/// One safety question.
#[derive(Debug, PartialEq)]
pub struct Safety {
    /// The question.
    pub ask: &'static str,
    /// The lock that a yes opens.
    pub lock: &'static str,
    /// How it is done.
    pub how: &'static str,
}

/// The questions in their order: nose before mains, because the nose wheels carry no brake heat
/// and nobody stands in the roll path of an aircraft whose nose is not chocked.
pub const QUESTIONS: &[Safety] = &[
    Safety {
        ask: "Nose chocks IN, both ways, snug?",
        lock: "chocks",
        how: "From the side. Nobody in front of or behind any wheel until this is done.",
    },
    Safety {
        ask: "Main chocks IN, both ways, ice cleared under tyre and chock?",
        lock: "chocks",
        how: "Only after the nose, and after heat was judged from a distance.",
    },
    Safety {
        ask: "Flight deck held by a named person, or shut and tagged?",
        lock: "flight-deck",
        how: "Park lever, pump switches and ground cart: DO NOT OPERATE.",
    },
    Safety {
        ask: "Pump switches read and written down?",
        lock: "pump-state",
        how: "Read only. Pumping up now would erase the pressure and how fast it fell.",
    },
];

/// Whether a lock is open: every question for it was answered yes. Locks without a question are
/// settled at the check itself.
pub fn is_open(lock: &str, answers: &[Option<bool>]) -> bool {
    QUESTIONS
        .iter()
        .zip(answers)
        .filter(|(question, _)| question.lock == lock)
        .all(|(_, answer)| *answer == Some(true))
}
