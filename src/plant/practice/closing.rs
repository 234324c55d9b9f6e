//! What must be done after a part was opened or changed.

use super::{Word, word_list};

const TRADE: &str = "common practice, no source";

/// The closing tasks.
pub const CLOSING: &[Word] = &[
    Word {
        name: "bleed",
        text: "Bleed the brakes",
        source: TRADE,
    },
    Word {
        name: "leak-check",
        text: "Leak check under pressure",
        source: TRADE,
    },
    Word {
        name: "leak-down",
        text: "Brake leak-down check with its approved limit",
        source: TRADE,
    },
    Word {
        name: "re-service",
        text: "Re-service fluid and gas",
        source: TRADE,
    },
    Word {
        name: "lever-check",
        text: "Lever and latch check, both seats",
        source: TRADE,
    },
    Word {
        name: "duplicate-inspection",
        text: "Independent inspection where required",
        source: TRADE,
    },
    Word {
        name: "panels",
        text: "Panels closed",
        source: TRADE,
    },
    Word {
        name: "breaker-collar",
        text: "Breaker collar off, breaker in",
        source: TRADE,
    },
];

word_list!(CLOSING);
