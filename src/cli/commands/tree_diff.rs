//! `tree diff OLD NEW`: what changed between two issues of a tree, and what that does.

use std::sync::Arc;

use super::rank::complain_of;
use crate::authoring::desk::Desk;
use crate::authoring::difference::changes;
use crate::authoring::document;
use crate::cli::args::DiffArguments;
use crate::cli::{exit, output};
use crate::diagnosis::evidence::Evidence;
use crate::diagnosis::inference::Inference;
use crate::diagnosis::worked_case::work_all;
use crate::report::difference::{Issue, difference_json, difference_text};

/// Compares the texts, the ranking before any check, and every case.
pub fn run(arguments: &DiffArguments) -> anyhow::Result<u8> {
    let mut desk = Desk::default();
    let aircraft = arguments.aircraft.as_deref();
    let mut read = Vec::new();
    for name in [&arguments.old, &arguments.new] {
        let Some((model, sources)) = document::tree_with_sources(&mut desk, name, aircraft) else {
            return Ok(complain_of(&mut desk));
        };
        let inference = Inference::new(Arc::new(model));
        let evidence = Evidence::report_only(inference.model());
        let believed = inference
            .believe(&evidence)
            .map_err(|error| error.to_string());
        let worked = work_all(&inference).map_err(|error| error.to_string());
        match (believed, worked) {
            (Ok(belief), Ok(worked)) => read.push((sources, inference, belief, worked)),
            (Err(error), _) | (_, Err(error)) => {
                output::complain(&format!("error: {name}: {error}\n"));
                return Ok(exit::PROBLEMS);
            }
        }
    }
    let [old, new] = &read[..] else {
        return Ok(exit::PROBLEMS);
    };
    let changes = changes(&old.0, &new.0);
    let [before, after] = [old, new].map(|(_, inference, belief, worked)| Issue {
        model: inference.model(),
        belief,
        worked,
    });
    if arguments.json {
        output::print_json(&difference_json(&changes, &before, &after))?;
    } else {
        output::print(&difference_text(&changes, &before, &after))?;
    }
    Ok(exit::FINE)
}
