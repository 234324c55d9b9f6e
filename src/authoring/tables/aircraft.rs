//! Keys of an aircraft and of its states, actions, parts and links.

use crate::authoring::form::Form as F;
use crate::authoring::form::{Table, may, must};
use crate::base::dimension::Dimension;
use crate::plant::practice;

/// A whole aircraft.
pub static AIRCRAFT: Table = Table {
    title: "an aircraft",
    open: false,
    fields: &[
        must(
            "stillwheel",
            F::Text,
            "Kind and version of the document: `aircraft 1`.",
        ),
        must(
            "id",
            F::Name,
            "Name of the aircraft, as commands and trees use it.",
        ),
        must("title", F::Text, "Name of the aircraft, as people read it."),
        must(
            "note",
            F::Text,
            "What a reader should know first: that it is invented.",
        ),
        may("fluid", F::Entry(&FLUID), "The hydraulic fluid."),
        may("mass", F::Quantity(Dimension::Mass), "Mass as parked."),
        may(
            "environment",
            F::Entry(&ENVIRONMENT),
            "Where it is parked unless somebody says otherwise.",
        ),
        must(
            "states",
            F::Map(&F::List(&F::Name)),
            "What can be switched, with its positions.",
        ),
        may(
            "as-found",
            F::Map(&F::Name),
            "The state a job starts in; the first position where none is named.",
        ),
        may(
            "actions",
            F::Map(&F::Entry(&ACTION)),
            "What changes a state.",
        ),
        may(
            "access",
            F::Map(&F::Entry(&ACCESS)),
            "Set-ups that several checks share.",
        ),
        must("parts", F::Map(&F::Entry(&PART)), "The parts."),
        may(
            "links",
            F::List(&F::Any),
            "What is joined: the kind of link, and the ports.",
        ),
        may(
            "bind",
            F::Map(&F::Name),
            "Roles that trees ask for, each with the part that plays it.",
        ),
        may("source", F::Text, "Where the figures come from."),
    ],
};

static FLUID: Table = Table {
    title: "a fluid",
    open: false,
    fields: &[
        may("title", F::Text, "What it is."),
        must(
            "density",
            F::Quantity(Dimension::Density),
            "Density at 15 C.",
        ),
        must(
            "expansion",
            F::Quantity(Dimension::PerKelvin),
            "Thermal expansion.",
        ),
        must(
            "bulk-modulus",
            F::Quantity(Dimension::GaugePressure),
            "Stiffness.",
        ),
        must(
            "viscosity",
            F::List(&F::Text),
            "Two points, each `V mm2/s at T C`.",
        ),
        may("source", F::Text, "Where the figures come from."),
    ],
};

static ENVIRONMENT: Table = Table {
    title: "an environment",
    open: false,
    fields: &[
        may(
            "temperature",
            F::Quantity(Dimension::Temperature),
            "Air temperature.",
        ),
        may(
            "slope",
            F::Quantity(Dimension::Slope),
            "Slope along the aircraft.",
        ),
        may(
            "wind",
            F::Quantity(Dimension::Speed),
            "Wind along the aircraft.",
        ),
    ],
};

static ACTION: Table = Table {
    title: "an action",
    open: false,
    fields: &[
        must("sets", F::Map(&F::Name), "The positions it leaves behind."),
        must("do", F::Text, "What is done."),
        may(
            "needs",
            F::Map(&F::List(&F::Name)),
            "States it must start from.",
        ),
        must("minutes", F::Number, "Minutes it takes."),
        may("people", F::Count, "People it takes."),
        may(
            "locks",
            F::List(&F::Word(practice::lock::names)),
            "What must be in place before it may be started.",
        ),
        may(
            "takes-away",
            F::List(&F::Word(practice::evidence::names)),
            "Evidence it takes away.",
        ),
        may(
            "cautions",
            F::List(&F::Word(practice::caution::names)),
            "Cautions shown with it.",
        ),
        may("reference", F::Text, "Where the approved data stand."),
    ],
};

static ACCESS: Table = Table {
    title: "an access",
    open: false,
    fields: &[
        must("do", F::Text, "What is done."),
        must("minutes", F::Number, "Minutes it takes, once."),
        may("people", F::Count, "People it takes."),
        may(
            "locks",
            F::List(&F::Word(practice::lock::names)),
            "What must be in place before it may be started.",
        ),
        may(
            "cautions",
            F::List(&F::Word(practice::caution::names)),
            "Cautions shown with it.",
        ),
        may("reference", F::Text, "Where the approved data stand."),
    ],
};

static PART: Table = Table {
    title: "a part",
    // The kind of part says which other keys there are.
    open: true,
    fields: &[
        must("kind", F::Name, "The kind of part."),
        may("title", F::Text, "What it is called."),
        may(
            "at",
            F::List(&F::Count),
            "Its place on the grid of the schematic: column, row.",
        ),
        may(
            "faults",
            F::Map(&F::Entry(&FAULT)),
            "What can be wrong with it.",
        ),
        may("source", F::Text, "Where the figures come from."),
    ],
};

static FAULT: Table = Table {
    title: "a fault",
    // A fault overrides parameters of its part's kind.
    open: true,
    fields: &[
        must(
            "title",
            F::Text,
            "What is wrong, as a technician would say it.",
        ),
        must("rate", F::Quantity(Dimension::Rate), "Failures per hour."),
        may("severity", F::Number, "How bad it is; 1 is the usual case."),
        may("source", F::Text, "Where the rate comes from."),
    ],
};

/// Keys of a part that every kind has; the rest are parameters of the kind.
pub fn common_part_keys() -> impl Iterator<Item = &'static str> {
    PART.fields.iter().map(|field| field.key)
}

/// Keys of a fault that every kind has; the rest override parameters of the kind.
pub fn common_fault_keys() -> impl Iterator<Item = &'static str> {
    FAULT.fields.iter().map(|field| field.key)
}
