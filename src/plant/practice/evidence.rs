//! Kinds of evidence that a step can take away.

use super::{Word, word_list};

const OWN: &str = "our own list, from what investigators ask for first";

/// The kinds of evidence.
pub const EVIDENCE: &[Word] = &[
    Word {
        name: "positions",
        text: "where lever, pedals, switches, breaker and valve stood",
        source: OWN,
    },
    Word {
        name: "pressure",
        text: "the pressure as found, and how fast it fell",
        source: OWN,
    },
    Word {
        name: "fluid",
        text: "fluid on the ground and on parts",
        source: OWN,
    },
    Word {
        name: "ground",
        text: "tyre and chock marks",
        source: OWN,
    },
    Word {
        name: "recorder",
        text: "recorder and fault memory",
        source: OWN,
    },
    Word {
        name: "gas",
        text: "the gas charge as found",
        source: OWN,
    },
    Word {
        name: "duplicate",
        text: "the fault itself, which may not show again once the part was moved",
        source: OWN,
    },
];

word_list!(EVIDENCE);
