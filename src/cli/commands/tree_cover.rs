//! `tree cover TREE`: which check tells which causes apart, and what is missing.

use std::sync::Arc;

use super::rank::complain_of;
use crate::authoring::desk::Desk;
use crate::authoring::document;
use crate::base::suggestion::nearest;
use crate::cli::args::CoverArguments;
use crate::cli::{exit, output};
use crate::diagnosis::coverage::{coverage, unread};
use crate::diagnosis::inference::Inference;
use crate::report::coverage::{check_text, coverage_json, coverage_text};

/// Compares every pair of causes and prints the weak ones first.
pub fn run(arguments: &CoverArguments) -> anyhow::Result<u8> {
    let mut desk = Desk::default();
    let aircraft = arguments.of.aircraft.as_deref();
    let Some(model) = document::tree(&mut desk, &arguments.of.tree, aircraft) else {
        return Ok(complain_of(&mut desk));
    };
    let inference = Inference::new(Arc::new(model));
    let model = inference.model();
    let found = match coverage(&inference) {
        Ok(found) => found,
        Err(error) => {
            output::complain(&format!("error: {error}\n"));
            return Ok(exit::PROBLEMS);
        }
    };
    if let Some(name) = &arguments.check {
        let Some(check) = model.check(name) else {
            let hint = nearest(name, model.checks.iter().map(|check| check.id.as_str()));
            let hint = hint.map_or(String::new(), |near| format!("; did you mean `{near}`?"));
            output::complain(&format!("error: there is no check `{name}`{hint}\n"));
            return Ok(exit::COMMAND_LINE);
        };
        output::print(&check_text(model, &found, check))?;
        return Ok(exit::FINE);
    }
    let unread = match arguments
        .plant
        .then(|| unread::unread(model, &found))
        .transpose()
    {
        Ok(unread) => unread,
        Err(error) => {
            output::complain(&format!("error: {error}\n"));
            return Ok(exit::PROBLEMS);
        }
    };
    if arguments.of.json {
        output::print_json(&coverage_json(model, &found, unread.as_deref()))?;
    } else {
        output::print(&coverage_text(model, &found, unread.as_deref()))?;
    }
    Ok(exit::FINE)
}
