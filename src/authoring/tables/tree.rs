//! Keys of a fault tree and of its conditions, events, gates and cases.

use super::check::CHECK;
use crate::authoring::form::Form as F;
use crate::authoring::form::{Table, may, must};
use crate::base::dimension::Dimension;
use crate::base::unit::UNITS;
use crate::diagnosis::fact::Fact;
use crate::plant::practice;

/// A whole tree.
pub static TREE: Table = Table {
    title: "a tree",
    open: false,
    fields: &[
        must(
            "stillwheel",
            F::Text,
            "Kind and version of the document: `tree 1`.",
        ),
        must(
            "id",
            F::Name,
            "Name of the tree, as commands and job files use it.",
        ),
        must("title", F::Text, "Name of the tree, as people read it."),
        may("version", F::Any, "Number of this issue of the tree."),
        may("note", F::Text, "What a reader should know first."),
        must(
            "report",
            F::Text,
            "The words of the report this tree answers.",
        ),
        may(
            "aircraft",
            F::Text,
            "Default aircraft: the id of an embedded one, or a path.",
        ),
        may(
            "needs-parts",
            F::Map(&F::Name),
            "Roles of parts, each with the kind of part it takes.",
        ),
        may(
            "use",
            F::List(&F::Text),
            "Tree files whose conditions, events, gates and checks are taken in.",
        ),
        may(
            "exposure",
            F::Quantity(Dimension::Time),
            "How long a fault could have been there unseen.",
        ),
        may(
            "unlisted",
            F::Number,
            "Share kept for a cause that is not in the tree.",
        ),
        may(
            "top-in-plant",
            F::Word(|| vec!["moves"]),
            "What the plant does where the top is true; `tree agree` holds causes against it.",
        ),
        may(
            "per-parking",
            F::Probability,
            "Chance that one parking ends in such a report; only where no part can cause it.",
        ),
        may(
            "rule",
            F::WordOr("none", &F::Entry(&RULE)),
            "When the search may stop.",
        ),
        may(
            "source",
            F::Text,
            "Where the figures of the tree come from, unless an entry says otherwise.",
        ),
        may(
            "conditions",
            F::Map(&F::Entry(&CONDITION)),
            "Facts of the parking.",
        ),
        must("events", F::Map(&F::Entry(&EVENT)), "Basic events."),
        must("gates", F::Map(&F::Entry(&GATE)), "Gates."),
        must("top", F::Text, "The node that the report says is true."),
        may(
            "checks",
            F::Map(&F::Entry(&CHECK)),
            "Observations that tell causes apart.",
        ),
        may(
            "cases",
            F::List(&F::Entry(&CASE)),
            "Worked cases the tree must get right.",
        ),
    ],
};

/// A file named under `use`: the same keys, with nothing demanded but the first.
pub static SHARED: Table = Table {
    title: "a tree taken in by another",
    open: true,
    fields: &[
        must(
            "stillwheel",
            F::Text,
            "Kind and version of the document: `tree 1`.",
        ),
        may(
            "conditions",
            F::Map(&F::Entry(&CONDITION)),
            "Facts of the parking.",
        ),
        may("events", F::Map(&F::Entry(&EVENT)), "Basic events."),
        may("gates", F::Map(&F::Entry(&GATE)), "Gates."),
        may(
            "checks",
            F::Map(&F::Entry(&CHECK)),
            "Observations that tell causes apart.",
        ),
    ],
};

static RULE: Table = Table {
    title: "a rule",
    open: false,
    fields: &[
        must(
            "share",
            F::Probability,
            "Share that the leading cause or group must reach.",
        ),
        may(
            "confirm",
            F::Word(|| vec!["needed", "none"]),
            "Whether a confirming check must stand.",
        ),
    ],
};

static CONDITION: Table = Table {
    title: "a condition",
    open: false,
    fields: &[
        must("ask", F::Text, "The question that settles it."),
        may("chance", F::Probability, "Chance of yes."),
        may(
            "one-of",
            F::Map(&F::Probability),
            "Values with their chances, adding up to 1.",
        ),
        may(
            "quantity",
            F::Word(unit_symbols),
            "Unit of the number that is asked for.",
        ),
        may(
            "usual",
            F::List(&F::Text),
            "Two values: one in twenty lies below the first, one in twenty above the second.",
        ),
        may(
            "bands",
            F::Map(&F::Text),
            "Named stretches of the quantity: `up to`, `above`, `A to B`.",
        ),
        may(
            "in-plant",
            F::Word(Fact::names),
            "The fact of the parking for which the plant takes the number; without bands.",
        ),
        may("source", F::Text, "Where the chance comes from."),
        may("note", F::Text, "What a reader should know."),
    ],
};

static EVENT: Table = Table {
    title: "an event",
    open: false,
    fields: &[
        may(
            "title",
            F::Text,
            "What happened, as a technician would say it.",
        ),
        may(
            "fault",
            F::Text,
            "Role and fault of a part: `park-valve/jammed-open`.",
        ),
        may("rate", F::Quantity(Dimension::Rate), "Failures per hour."),
        may("chance", F::Probability, "Chance per parking."),
        may("seen", F::Entry(&SEEN), "Share of counted reports."),
        may(
            "exposure",
            F::Quantity(Dimension::Time),
            "How long this fault could have been there unseen.",
        ),
        may(
            "given",
            F::Text,
            "The node behind which alone the event acts.",
        ),
        may(
            "moves",
            F::Any,
            "When it moves the aircraft: `at-once`, `as-designed`, or two times.",
        ),
        may(
            "confirm",
            F::Entry(&CONFIRM),
            "The check whose stated answer must stand first.",
        ),
        may(
            "remedy",
            F::WordOr("none", &F::Entry(&REMEDY)),
            "What is done about it.",
        ),
        may("looks-like", F::Text, "What one sees."),
        may(
            "cautions",
            F::List(&F::Word(practice::caution::names)),
            "Cautions shown beside it.",
        ),
        may("reference", F::Text, "Where the approved data stand."),
        may("source", F::Text, "Where the figure comes from."),
        may("note", F::Text, "What a reader should know."),
    ],
};

static SEEN: Table = Table {
    title: "a count of reports",
    open: false,
    fields: &[
        must("count", F::Count, "Reports in which this was the cause."),
        must("of", F::Count, "Reports counted."),
    ],
};

static CONFIRM: Table = Table {
    title: "a confirming check",
    open: false,
    fields: &[
        must("check", F::Name, "The check."),
        must("answer", F::Text, "The answer that confirms."),
    ],
};

static REMEDY: Table = Table {
    title: "a remedy",
    open: false,
    fields: &[
        must("do", F::Text, "What is done."),
        may("minutes", F::Number, "Minutes it takes."),
        may("people", F::Count, "People it takes."),
        may(
            "puts-back",
            F::List(&F::Word(practice::closing::names)),
            "What must be done afterwards.",
        ),
    ],
};

static GATE: Table = Table {
    title: "a gate",
    open: false,
    fields: &[
        may("title", F::Text, "What the gate means."),
        may("any", F::List(&F::Text), "True when one of these is."),
        may("all", F::List(&F::Text), "True when all of these are."),
        may("at-least", F::Count, "How many of `of` make it true."),
        may("of", F::List(&F::Text), "The nodes `at-least` counts."),
        may("not", F::Text, "True when this node is not."),
        may(
            "either",
            F::List(&F::Text),
            "True when one of the two is and the other is not.",
        ),
        may("note", F::Text, "What a reader should know."),
    ],
};

static CASE: Table = Table {
    title: "a case",
    open: false,
    fields: &[
        must("name", F::Text, "What the case is called."),
        may("given", F::Map(&F::Text), "Conditions that are known."),
        may("answers", F::Map(&F::Text), "Checks that were answered."),
        must("expect", F::Entry(&EXPECT), "What must come out."),
        may("source", F::Text, "Where the case comes from."),
    ],
};

static EXPECT: Table = Table {
    title: "an expectation",
    open: false,
    fields: &[must(
        "first",
        F::OneOrMore(&F::Name),
        "Causes of which one must lead.",
    )],
};

fn unit_symbols() -> Vec<&'static str> {
    UNITS.iter().map(|unit| unit.symbol).collect()
}
