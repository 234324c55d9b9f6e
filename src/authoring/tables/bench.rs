//! Keys of a course of the bench.

use crate::authoring::form::Form as F;
use crate::authoring::form::{Table, may, must};
use crate::base::dimension::Dimension;

/// A whole course.
pub static BENCH: Table = Table {
    title: "a course of the bench",
    open: false,
    fields: &[
        must(
            "stillwheel",
            F::Text,
            "Kind and version of the document: `bench 1`.",
        ),
        must(
            "aircraft",
            F::Text,
            "The aircraft: the id of an embedded one, or a path.",
        ),
        may(
            "begin",
            F::Entry(&BEGIN),
            "How it was parked, where it is not as found.",
        ),
        may(
            "then",
            F::List(&F::Entry(&DONE)),
            "What was set since, in the order of its times.",
        ),
        may(
            "until",
            F::Quantity(Dimension::Time),
            "How far it was played; the last of the times where nothing is said.",
        ),
    ],
};

static BEGIN: Table = Table {
    title: "the beginning of a course",
    open: false,
    fields: &[
        may(
            "charge",
            F::Any,
            "Pressure of the store as the pumps stop; what they give where nothing is said.",
        ),
        may("set", F::Map(&F::Any), "Controls with their values."),
        may(
            "faults",
            F::Map(&F::Map(&F::Any)),
            "Parts, each with its faults and their severity.",
        ),
    ],
};

static DONE: Table = Table {
    title: "what was set at one time",
    open: false,
    fields: &[
        must(
            "at",
            F::Quantity(Dimension::Time),
            "When, since the beginning.",
        ),
        may("set", F::Map(&F::Any), "Controls with their values."),
        may(
            "faults",
            F::Map(&F::Map(&F::Any)),
            "Parts, each with its faults and their severity; 0 takes one out.",
        ),
    ],
};
