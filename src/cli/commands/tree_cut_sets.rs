//! `tree cut-sets TREE`: what is enough to make the top true.

use super::rank::complain_of;
use crate::authoring::desk::Desk;
use crate::authoring::document;
use crate::cli::args::CutSetsArguments;
use crate::cli::{exit, output};
use crate::report::cut_sets::{cut_sets_json, cut_sets_text, refused_json};
use crate::tree::cut_sets::CutSets;

/// Works the cut sets out and prints them.
pub fn run(arguments: &CutSetsArguments) -> anyhow::Result<u8> {
    let mut desk = Desk::default();
    let aircraft = arguments.of.aircraft.as_deref();
    let Some(model) = document::tree(&mut desk, &arguments.of.tree, aircraft) else {
        return Ok(complain_of(&mut desk));
    };
    let sets = match CutSets::of(&model.tree, &model.priors) {
        Ok(sets) => sets,
        Err(error) => {
            if arguments.of.json {
                output::print_json(&refused_json(&model, &error))?;
            } else {
                output::complain(&format!("error: {error}\n"));
            }
            return Ok(exit::PROBLEMS);
        }
    };
    if arguments.of.json {
        output::print_json(&cut_sets_json(&model, &sets, arguments.order))?;
    } else {
        output::print(&cut_sets_text(&model, &sets, arguments.order))?;
    }
    Ok(exit::FINE)
}
