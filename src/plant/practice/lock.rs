//! Locks: what must be in place, seen by somebody, before a step may be started.

use super::{Word, word_list};

/// The locks.
pub const LOCKS: &[Word] = &[
    Word {
        name: "chocks",
        text: "Chocks IN: nose first, then mains, both ways, snug",
        source: "UK AAIB event of 11 February 2009: no chocks, park valve failure",
    },
    Word {
        name: "flight-deck",
        text: "One named person holds the flight deck, or the door is shut and tagged",
        source: "common practice, no source",
    },
    Word {
        name: "pump-state",
        text: "Pump switches read and written down",
        source: "common practice, no source",
    },
    Word {
        name: "gear-pins",
        text: "Gear pins and gear-door locks in",
        source: "common practice, no source",
    },
    Word {
        name: "people-clear",
        text: "Everybody clear of wheels, wells and moving surfaces, on one person's word",
        source: "NASA ASRS ACN 356914, 1110337",
    },
    Word {
        name: "tug",
        text: "Tug connected, tug brake set, driver in it, nobody between tug and aircraft",
        source: "common practice, no source",
    },
];

word_list!(LOCKS);
