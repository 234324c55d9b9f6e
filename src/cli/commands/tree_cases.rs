//! `tree cases TREE`: the worked cases of a tree, and the step at which one comes out otherwise.

use std::sync::Arc;

use super::rank::complain_of;
use crate::authoring::cases::{place, problems};
use crate::authoring::desk::Desk;
use crate::authoring::document;
use crate::cli::args::CasesArguments;
use crate::cli::{exit, output};
use crate::diagnosis::inference::Inference;
use crate::diagnosis::worked_case::{Outcome, work_all};
use crate::report::cases::{cases_json, steps_text, summary};
use crate::source::{problem, render};

/// Works every case and prints those that fail.
pub fn run(arguments: &CasesArguments) -> anyhow::Result<u8> {
    let mut desk = Desk::default();
    let aircraft = arguments.of.aircraft.as_deref();
    let Some((model, sources)) =
        document::tree_with_sources(&mut desk, &arguments.of.tree, aircraft)
    else {
        return Ok(complain_of(&mut desk));
    };
    let main = &sources[0];
    let inference = Inference::new(Arc::new(model));
    let model = inference.model();
    let worked = match work_all(&inference) {
        Ok(worked) => worked,
        Err(error) => {
            output::complain(&format!("error: {error}\n"));
            return Ok(exit::PROBLEMS);
        }
    };
    if arguments.of.json {
        let places: Vec<Option<(usize, usize)>> = worked
            .iter()
            .map(|one| match one.outcome {
                Outcome::AsExpected => None,
                Outcome::Differs(step) | Outcome::Contradicts(step) => {
                    let place = place(one.case, one.steps[step].item, model, main);
                    Some(desk.files.line_and_column(place.file, place.bytes.start))
                }
            })
            .collect();
        output::print_json(&cases_json(model, &worked, &places))?;
    } else {
        let mut found = problems(&worked, model, main);
        problem::sort(&mut found);
        let snippets: String = found
            .iter()
            .map(|problem| format!("{}\n\n", render::snippet(problem, &desk.files)))
            .collect();
        let steps = steps_text(model, &worked);
        output::print(&format!("{snippets}{steps}{}", summary(model, &worked)))?;
    }
    let fine = worked.iter().all(|one| one.outcome == Outcome::AsExpected);
    Ok(if fine { exit::FINE } else { exit::PROBLEMS })
}
