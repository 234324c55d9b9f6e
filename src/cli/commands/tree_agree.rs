//! `tree agree FILE`: a tree held against the plant of its aircraft.

use std::sync::Arc;

use super::rank::complain_of;
use super::tree_check::{as_json, as_text};
use crate::authoring::agreement::problems;
use crate::authoring::desk::Desk;
use crate::authoring::document;
use crate::cli::args::AgreeArguments;
use crate::cli::{exit, output};
use crate::diagnosis::agreement::agree;
use crate::diagnosis::inference::Inference;
use crate::source::problem;

/// Plays every fault, compares, and prints where the two differ.
pub fn run(arguments: &AgreeArguments) -> anyhow::Result<u8> {
    let mut desk = Desk::default();
    let aircraft = arguments.aircraft.as_deref();
    let Some((model, sources)) = document::tree_with_sources(&mut desk, &arguments.tree, aircraft)
    else {
        return Ok(complain_of(&mut desk));
    };
    let inference = Inference::new(Arc::new(model));
    let findings = match agree(&inference) {
        Ok(findings) => findings,
        Err(error) => {
            output::complain(&format!("error: {error}\n"));
            return Ok(exit::PROBLEMS);
        }
    };
    let model = inference.model();
    desk.problems = problems(&findings, model, &sources);
    problem::sort(&mut desk.problems);
    let mut notes = Vec::new();
    if !model.moves {
        notes.push(format!(
            "{}: without `top-in-plant` no cause is held against what moves",
            arguments.tree
        ));
    }
    let silent = model.checks.iter().filter(|check| check.shows.is_empty());
    let silent: Vec<&str> = silent.map(|check| check.id.as_str()).collect();
    if !silent.is_empty() {
        notes.push(format!(
            "without `shows`, so not held against the plant: {}",
            silent.join(", ")
        ));
    }
    if arguments.json {
        output::print_json(&as_json(&desk, &notes))?;
    } else {
        output::print(&as_text(&desk, &notes, 1, arguments.lines))?;
    }
    Ok(if findings.is_empty() {
        exit::FINE
    } else {
        exit::PROBLEMS
    })
}
