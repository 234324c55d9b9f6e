//! `tree derive TREE`: answer lines worked out from the plant of the aircraft.

use std::sync::Arc;

use anyhow::Context;

use super::rank::complain_of;
use crate::authoring::desk::Desk;
use crate::authoring::{document, embedded, kept};
use crate::base::text::plural;
use crate::cli::args::DeriveArguments;
use crate::cli::{exit, output};
use crate::diagnosis::derivation::{derive, readable};
use crate::diagnosis::inference::Inference;
use crate::report::derived_text::{derived_json, derived_text};

/// Plays every fault and prints the lines of every check that says what its readings show.
pub fn run(arguments: &DeriveArguments) -> anyhow::Result<u8> {
    if arguments.keep {
        return keep(arguments);
    }
    let mut desk = Desk::default();
    let aircraft = arguments.aircraft.as_deref();
    let Some(model) = document::tree(&mut desk, &arguments.tree, aircraft) else {
        return Ok(complain_of(&mut desk));
    };
    let derived = match derive(&model, &readable(&model)) {
        Ok(derived) => derived,
        Err(error) => {
            output::complain(&format!("error: {error}\n"));
            return Ok(exit::PROBLEMS);
        }
    };
    if arguments.json {
        output::print_json(&derived_json(&model, &derived))?;
    } else if derived.is_empty() {
        output::print("no check of this tree says under `shows` what its readings show\n")?;
    } else {
        output::print(&derived_text(&model, &derived))?;
    }
    Ok(exit::FINE)
}

/// Works everything out anew and keeps it beside the tree.
fn keep(arguments: &DeriveArguments) -> anyhow::Result<u8> {
    let tree = arguments.tree.as_str();
    if embedded::by_id(tree).is_some() {
        output::complain(&format!(
            "`{tree}` is part of the program, and nothing can be kept beside it; `stillwheel demo DIR` writes it out\n"
        ));
        return Ok(exit::COMMAND_LINE);
    }
    let mut desk = Desk {
        without_kept: true,
        ..Desk::default()
    };
    let aircraft = arguments.aircraft.as_deref();
    let Some(model) = document::tree(&mut desk, tree, aircraft) else {
        return Ok(complain_of(&mut desk));
    };
    let inference = Inference::new(Arc::new(model));
    let (model, order) = (inference.model(), inference.order());
    let name = kept::name_beside(tree);
    let text = kept::text(model, &order)?;
    std::fs::write(&name, text).with_context(|| format!("cannot write {name}"))?;
    let checks = plural(model.worked_out.derived.len(), "check");
    let variables = plural(order.len(), "variable");
    let states = inference
        .states()
        .map_or("too many".to_owned(), |n| n.to_string());
    output::print(&format!(
        "wrote {name}: lines of {checks}, order of {variables}, {states} states\n"
    ))?;
    Ok(exit::FINE)
}
