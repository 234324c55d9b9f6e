//! Worked cases and confirming checks: names that can only be resolved once everything is there.

use super::located::Located;
use super::names::{Meaning, Names};
use crate::authoring::document::Source;
use crate::authoring::shape as shape_of;
use crate::authoring::shape::tree as shape;
use crate::diagnosis::cause::Confirm;
use crate::diagnosis::check::Check;
use crate::diagnosis::given::{self, GivenError};
use crate::diagnosis::model::{Case, Model};
use crate::source::codes::checks as code;
use crate::source::problem::Problem;

/// Resolves the confirming check of an event.
pub fn confirm(
    entry: &Located<'_>,
    shape: &shape::Confirm,
    names: &Names,
    checks: &[Check],
) -> Result<Option<Confirm>, Problem> {
    let field = entry.field("confirm");
    let place = |key: &str| field.map_or_else(|| entry.place(), |field| field.place_of(key));
    let Some(check) = names.check(&shape.check) else {
        let known = names.of(|meaning| matches!(meaning, Meaning::Check(_)));
        let message = format!("there is no check `{}`", shape.check);
        let problem = Problem::new(code::CONFIRM, place("check"), message);
        return Err(problem.suggest(&shape.check, &known));
    };
    let about = &checks[check];
    // A check that could not be read has its own problem already.
    if about.lines.is_empty() {
        return Ok(None);
    }
    about
        .answer(&shape.answer)
        .map(|answer| Some(Confirm { check, answer }))
        .ok_or_else(|| {
            let known: Vec<&str> = about.answers.iter().map(String::as_str).collect();
            let message = format!("check `{}` has no answer `{}`", about.id, shape.answer);
            let problem = Problem::new(code::CONFIRM, place("answer"), message);
            problem.suggest(&shape.answer, &known)
        })
}

/// Resolves the worked cases of a tree.
pub fn cases(main: &Source, model: &Model, problems: &mut Vec<Problem>) -> Vec<Case> {
    let nodes = main.root.get("cases").map_or(&[][..], |node| node.items());
    let shapes = nodes
        .iter()
        .filter_map(|node| Some((node, shape_of::read(node).ok()?)));
    shapes
        .map(|(node, shape)| case(main.file, node, &shape, model, problems))
        .collect()
}

fn case(
    file: crate::source::place::FileId,
    node: &crate::authoring::yaml::Node,
    shape: &shape::Case,
    model: &Model,
    problems: &mut Vec<Problem>,
) -> Case {
    let at = |section: &str, key: &str| {
        let entry = node.get(section).and_then(|section| section.entry(key));
        let bytes = entry.map_or(&node.bytes, |entry| &entry.key_bytes);
        crate::source::place::Place::new(file, bytes.clone())
    };
    let mut refuse = |place, error: &GivenError| problems.push(refusal(model, place, error));
    let mut case = Case {
        name: shape.name.clone(),
        given: Vec::new(),
        answers: Vec::new(),
        first: Vec::new(),
    };
    // What could not be read has its own problem already.
    let broken = |name: &str| {
        model
            .tree
            .conditions
            .iter()
            .any(|c| c.id == name && c.values.is_empty())
            || model
                .checks
                .iter()
                .any(|c| c.id == name && c.lines.is_empty())
    };
    // In the order written: a case is worked step by step.
    let order = |section: &str, name: &str| {
        let entries = node
            .get(section)
            .map_or(&[][..], |section| section.entries());
        entries.iter().position(|entry| entry.key == name)
    };
    let mut known: Vec<(&String, &String)> = shape.given.iter().collect();
    known.sort_by_key(|(name, _)| order("given", name));
    for (name, word) in known.into_iter().filter(|(name, _)| !broken(name)) {
        match given::condition(model, name, word) {
            Ok(given) => case.given.push(given),
            Err(error) => refuse(at("given", name), &error),
        }
    }
    let mut answers: Vec<(&String, &String)> = shape.answers.iter().collect();
    answers.sort_by_key(|(name, _)| order("answers", name));
    for (name, word) in answers.into_iter().filter(|(name, _)| !broken(name)) {
        match given::reply(model, name, word) {
            Ok(answer) => case.answers.push(answer),
            Err(error) => refuse(at("answers", name), &error),
        }
    }
    let first = &shape.expect.first.0;
    case.first = expected(first, model, &at("expect", "first"), problems);
    case
}

/// The causes of which one must lead.
fn expected(
    names: &[String],
    model: &Model,
    place: &crate::source::place::Place,
    problems: &mut Vec<Problem>,
) -> Vec<usize> {
    let mut first = Vec::new();
    for name in names {
        if let Some(cause) = model.cause(name) {
            first.push(cause);
            continue;
        }
        let known: Vec<&str> = model.causes.iter().map(|c| c.id.as_str()).collect();
        let message = format!("there is no cause `{name}`");
        let problem = Problem::new(code::CASE, place.clone(), message);
        problems.push(problem.suggest(name, &known));
    }
    first
}

/// What is wrong with a name or a word of a case.
fn refusal(model: &Model, place: crate::source::place::Place, error: &GivenError) -> Problem {
    let problem = Problem::new(code::CASE, place, error.to_string());
    let checks = || model.checks.iter().map(|c| c.id.as_str());
    let conditions = || model.tree.conditions.iter().map(|c| c.id.as_str());
    match error {
        GivenError::NoCheck(name) => problem.suggest(name, &checks().collect::<Vec<_>>()),
        GivenError::NoCondition(name) => problem.suggest(name, &conditions().collect::<Vec<_>>()),
        _ => problem.hint("name conditions, checks and answers of this tree"),
    }
}
