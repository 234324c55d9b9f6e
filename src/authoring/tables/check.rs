//! Keys of a check and of its answer lines.

use crate::authoring::form::Form as F;
use crate::authoring::form::{Table, may, must};
use crate::plant::practice;

/// A check.
pub static CHECK: Table = Table {
    title: "a check",
    open: false,
    fields: &[
        may("title", F::Text, "Short name for lists."),
        must("ask", F::Text, "The question, in at most 20 words."),
        may("how", F::Text, "How it is done."),
        may(
            "asks",
            F::Word(|| vec!["crew", "ramp", "maintenance", "records"]),
            "Who is asked, where a person or a record is the instrument.",
        ),
        may(
            "yes",
            F::List(&F::Entry(&LINE)),
            "Chance of yes: the first line whose node holds decides.",
        ),
        may(
            "answers",
            F::List(&F::Name),
            "Answers, where yes and no are not enough.",
        ),
        may(
            "lines",
            F::List(&F::Entry(&LINE)),
            "Shares of the answers: the first line whose node holds decides.",
        ),
        may(
            "reads",
            F::Name,
            "The reading of the plant this check takes.",
        ),
        may(
            "shows",
            F::Map(&F::List(&F::Text)),
            "For each answer the readings that give it: words, or `up to`, `above`, `A to B`.",
        ),
        may(
            "minutes",
            F::Number,
            "Minutes of work, without access and without the way to the state.",
        ),
        may("people", F::Count, "People needed."),
        may(
            "access",
            F::Name,
            "Set-up shared with other checks and paid once; `none` where there is none.",
        ),
        may("tools", F::List(&F::Text), "Tools needed."),
        may(
            "needs",
            F::Map(&F::List(&F::Name)),
            "States the aircraft must be in.",
        ),
        may(
            "locks",
            F::List(&F::Word(practice::lock::names)),
            "What must be in place before it may be started.",
        ),
        may(
            "needs-evidence",
            F::List(&F::Word(practice::evidence::names)),
            "Evidence without which the check comes too late.",
        ),
        may(
            "takes-away",
            F::List(&F::Word(practice::evidence::names)),
            "Evidence the check takes away.",
        ),
        may(
            "hazard",
            F::Word(practice::hazard::names),
            "The worst the check does; less is proposed first.",
        ),
        may(
            "hazard-why",
            F::Text,
            "Why it is proposed out of the order of hazard.",
        ),
        may(
            "repeatable",
            F::Flag,
            "Whether a second answer adds to the first instead of replacing it.",
        ),
        may(
            "cautions",
            F::List(&F::Word(practice::caution::names)),
            "Cautions shown with it.",
        ),
        may("reference", F::Text, "Where the approved data stand."),
        may(
            "limit",
            F::Text,
            "The limit: `approved-data`, or a demo figure.",
        ),
        may(
            "puts-back",
            F::List(&F::Word(practice::closing::names)),
            "What must be done afterwards.",
        ),
        may("source", F::Text, "Where the chances come from."),
        may("note", F::Text, "What a reader should know."),
    ],
};

static LINE: Table = Table {
    title: "an answer line",
    open: false,
    fields: &[
        may(
            "when",
            F::OneOrMore(&F::Text),
            "The node, or all the nodes, that must hold.",
        ),
        may("chance", F::Probability, "Chance of yes."),
        may(
            "shares",
            F::List(&F::Probability),
            "Share of each answer, in the order of `answers`.",
        ),
        may(
            "otherwise",
            F::OneOrMore(&F::Probability),
            "Chance or shares where no line above holds.",
        ),
        may("source", F::Text, "Where the figure comes from."),
    ],
};
