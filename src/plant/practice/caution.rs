//! Cautions shown at the point of use. Every one ends with the approved data having the last word.

use super::{Word, word_list};

/// The cautions.
pub const CAUTIONS: &[Word] = &[
    Word {
        name: "roll",
        text: "The aircraft can move. Chock the nose first, then the mains, both ways. Nobody in front of or behind any wheel until the nose is chocked. Do not try to hold it by hand.",
        source: "UK AAIB event of 11 February 2009; NASA ASRS ACN 399402",
    },
    Word {
        name: "hot-brakes",
        text: "Brakes may be hot and get hotter for 25 minutes or more after a stop. Come from the front or rear once the nose is chocked, never in line with the axle. No liquid on a hot wheel.",
        source: "US Navy P-1260 p. 1-15",
    },
    Word {
        name: "stored-pressure",
        text: "With pumps off the accumulator still drives the brakes. Exhaust it by the approved means and prove zero on a gauge before a line is opened.",
        source: "29 CFR 1910.147; OSHA letter of 10 November 1999",
    },
    Word {
        name: "fluid-jet",
        text: "Never search for a leak with a hand. Use card or an absorbent. A pin-hole injection looks small and is a surgical emergency: hospital now, with the fluid's data sheet.",
        source: "WAC 296-45-285(f)",
    },
    Word {
        name: "fluid",
        text: "Sealed goggles and resistant gloves. Fluid in the eye or on the skin: flush with clean water at once and get medical help.",
        source: "common practice, no source",
    },
    Word {
        name: "nitrogen",
        text: "Dry nitrogen only, never oxygen, never shop air. Prove the fluid side empty first. Turn only the swivel nut, face and hands out of line, small steps. Ventilate a closed well.",
        source: "NAVEDTRA 14315",
    },
    Word {
        name: "crush",
        text: "Brakes may clamp at any moment. No fingers and no tool between the discs unless pump switches are off and tagged.",
        source: "common practice, no source",
    },
    Word {
        name: "wheel-well",
        text: "Gear pins in and gear-door locks in before anybody enters a wheel well. Two people at night.",
        source: "common practice, no source",
    },
    Word {
        name: "live-wires",
        text: "The hot battery bus is live with the battery switch off. Prove dead with the meter. No rings, no watch.",
        source: "14 CFR 25.1353 family; common practice",
    },
    Word {
        name: "wakes-systems",
        text: "Power wakes whatever was left on. Gear lever down, pins in, every pump switch off and tagged, flap lever agrees with the flaps, park lever untouched.",
        source: "common practice, no source",
    },
    Word {
        name: "moves-surfaces",
        text: "Pump pressure moves controls, steering, flaps and doors. Clear and guarded all round, people out of wells and away from the trucks.",
        source: "common practice, no source",
    },
    Word {
        name: "no-brake-after",
        text: "From here on the aircraft has NO brake at all. Chocks and tug only.",
        source: "common practice, no source",
    },
];

word_list!(CAUTIONS);
