//! `tree derive TREE`: answer lines worked out from the plant of the aircraft.

use std::sync::Arc;

use super::rank::complain_of;
use crate::authoring::desk::Desk;
use crate::authoring::document;
use crate::cli::args::DeriveArguments;
use crate::cli::{exit, output};
use crate::diagnosis::derivation::derive;
use crate::diagnosis::inference::Inference;
use crate::report::derived_text::{derived_json, derived_text};

/// Plays every fault and prints the lines of every check that says what its readings show.
pub fn run(arguments: &DeriveArguments) -> anyhow::Result<u8> {
    let mut desk = Desk::default();
    let aircraft = arguments.aircraft.as_deref();
    let Some(model) = document::tree(&mut desk, &arguments.tree, aircraft) else {
        return Ok(complain_of(&mut desk));
    };
    let inference = Inference::new(Arc::new(model));
    let derived = match derive(&inference) {
        Ok(derived) => derived,
        Err(error) => {
            output::complain(&format!("error: {error}\n"));
            return Ok(exit::PROBLEMS);
        }
    };
    let model = inference.model();
    if arguments.json {
        output::print_json(&derived_json(model, &derived))?;
    } else if derived.is_empty() {
        output::print("no check of this tree says under `shows` what its readings show\n")?;
    } else {
        output::print(&derived_text(model, &derived))?;
    }
    Ok(exit::FINE)
}
