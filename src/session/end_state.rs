//! How a job can end. One must be chosen; none of them says serviceable.

use super::field::Section;

/// One way to end.
#[derive(Debug, PartialEq, Eq)]
pub struct EndState {
    /// Its name in job files.
    pub id: &'static str,
    /// What is shown.
    pub title: &'static str,
    /// What it means, for the write-up.
    pub text: &'static str,
    /// What is asked before it counts.
    pub sections: &'static [Section],
    /// Whether it needs the confirming check to stand.
    pub needs_proof: bool,
    /// Whether it says that a part had failed; `None` where it says neither.
    pub part: Option<bool>,
}

use Section as S;

/// Every way to end.
pub const END_STATES: &[EndState] = &[
    EndState {
        id: "fixed",
        title: "Fault proved and fixed",
        text: "The cause was confirmed, the work was done, and the leak-down was taken afterwards.",
        sections: &[S::Work, S::Proof, S::TidyUp],
        needs_proof: true,
        part: Some(true),
    },
    EndState {
        id: "part-awaited",
        title: "Fault proved, part awaited, made safe",
        text: "The cause was confirmed. A part is awaited. The aircraft stays chocked.",
        sections: &[S::Work, S::TidyUp],
        needs_proof: true,
        part: Some(true),
    },
    EndState {
        id: "deferred",
        title: "Fault proved, deferred under an approved item",
        text: "The cause was confirmed. The decision to defer stands in approved data.",
        sections: &[S::Deferral, S::TidyUp],
        needs_proof: true,
        part: Some(true),
    },
    EndState {
        id: "held-as-designed",
        title: "Held as long as designed, no part",
        text: "The stored pressure ran down. Nothing was replaced. Left unattended without chocks is a procedure finding at any hour.",
        sections: &[S::Proof, S::TidyUp],
        needs_proof: false,
        part: Some(false),
    },
    EndState {
        id: "not-set",
        title: "Never set, part set, or set on no pressure",
        text: "No part had failed. Nothing was replaced. Recorded and to be briefed.",
        sections: &[S::Proof, S::TidyUp],
        needs_proof: false,
        part: Some(false),
    },
    EndState {
        id: "let-go",
        title: "Let go by a person",
        text: "No part had failed. Nothing was replaced. Recorded and to be briefed.",
        sections: &[S::TidyUp],
        needs_proof: false,
        part: Some(false),
    },
    EndState {
        id: "something-else",
        title: "Brake held, something else moved it",
        text: "Ice, chock, gust, tug or thrust. Nothing was replaced.",
        sections: &[S::TidyUp],
        needs_proof: false,
        part: Some(false),
    },
    EndState {
        id: "indication",
        title: "Indication only, brake good",
        text: "The brake held; what shows it did not. The deferral decision is in approved data: tell the certifying person.",
        sections: &[S::Work, S::TidyUp],
        needs_proof: false,
        part: None,
    },
    EndState {
        id: "not-reproduced",
        title: "Not reproduced",
        text: "The cause was not shown. What was excluded and what was not is listed. To be kept chocked, and watched over the next two parks.",
        sections: &[S::TidyUp],
        needs_proof: false,
        part: None,
    },
    EndState {
        id: "engineering",
        title: "Sent to engineering",
        text: "The cause was not shown. The aircraft stays chocked and the report open.",
        sections: &[S::TidyUp],
        needs_proof: false,
        part: None,
    },
    EndState {
        id: "frozen",
        title: "Scene frozen for investigators",
        text: "Somebody was hurt, something was hit, or it still moved. Nothing was touched.",
        sections: &[],
        needs_proof: false,
        part: None,
    },
    EndState {
        id: "wrong-report",
        title: "Wrong or duplicate report",
        text: "The aircraft at hand is not the one of the report.",
        sections: &[],
        needs_proof: false,
        part: None,
    },
];

/// The place of an end state.
pub fn place(id: &str) -> Option<usize> {
    END_STATES.iter().position(|state| state.id == id)
}
