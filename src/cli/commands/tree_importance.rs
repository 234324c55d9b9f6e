//! `tree importance TREE`: how much each event matters to the top.

use super::rank::complain_of;
use crate::authoring::desk::Desk;
use crate::authoring::document;
use crate::cli::args::ImportanceArguments;
use crate::cli::{exit, output};
use crate::report::importance::{importance_json, importance_text, refused_json};
use crate::tree::cut_sets::CutSets;
use crate::tree::importance::importance;

/// Works the measures out and prints them.
pub fn run(arguments: &ImportanceArguments) -> anyhow::Result<u8> {
    let mut desk = Desk::default();
    let aircraft = arguments.of.aircraft.as_deref();
    let Some(model) = document::tree(&mut desk, &arguments.of.tree, aircraft) else {
        return Ok(complain_of(&mut desk));
    };
    let mut sets = match CutSets::of(&model.tree, &model.priors) {
        Ok(sets) => sets,
        Err(error) => {
            if arguments.of.json {
                output::print_json(&refused_json(&error))?;
            } else {
                output::complain(&format!("error: {error}\n"));
            }
            return Ok(exit::PROBLEMS);
        }
    };
    let rows = importance(&model.tree, &mut sets);
    if arguments.of.json {
        output::print_json(&importance_json(&model, &rows))?;
    } else {
        output::print(&importance_text(&model, &rows, sets.exact()))?;
    }
    Ok(exit::FINE)
}
