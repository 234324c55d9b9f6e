//! Which readings of the plant give which answer of a check.

use super::around::Around;
use super::condition::ends_of;
use super::located::Located;
use crate::authoring::shape::check::Check as Shape;
use crate::base::dimension::Dimension;
use crate::base::unit::Unit;
use crate::diagnosis::check::{NOTHING, Shown, Shows};
use crate::plant::aircraft::Aircraft;
use crate::plant::observe::{Observable, readings_of};
use crate::source::codes::checks as code;
use crate::source::place::Place;
use crate::source::problem::Problem;

/// Lowers `shows`, and looks whether `reads` names a reading that the aircraft has.
pub fn lower(
    entry: &Located<'_>,
    shape: &Shape,
    answers: &[String],
    around: &Around<'_>,
    problems: &mut Vec<Problem>,
) -> Vec<Shows> {
    let (Some(field), Some(aircraft)) = (entry.field("shows"), around.aircraft) else {
        return Vec::new();
    };
    let refuse = |place: Place, message: String, hint: &str| {
        Problem::new(code::SHOWS, place, message).hint(hint)
    };
    let Some(name) = shape.reads.as_deref() else {
        let message = format!("`{}` says what a reading shows and takes none", entry.key);
        problems.push(refuse(
            field.place(),
            message,
            "name the reading under `reads`",
        ));
        return Vec::new();
    };
    let Some(observable) = named(name, aircraft) else {
        let names = names(aircraft);
        let known: Vec<&str> = names.iter().map(String::as_str).collect();
        let message = format!("the aircraft has no reading `{name}`");
        let problem = Problem::new(code::SHOWS, entry.place_of("reads"), message);
        problems.push(problem.suggest(name, &known));
        return Vec::new();
    };
    let mut shows = Vec::new();
    for row in Located::entries(entry.file, field.node) {
        let Some(answer) = answers.iter().position(|answer| answer == row.key) else {
            let message = format!("`{}` is no answer of `{}`", row.key, entry.key);
            let known: Vec<&str> = answers.iter().map(String::as_str).collect();
            let problem = Problem::new(code::SHOWS, row.place(), message);
            problems.push(problem.suggest(row.key, &known));
            continue;
        };
        for node in row.node.items() {
            let place = Place::new(entry.file, node.bytes.clone());
            match shown(
                node.text().unwrap_or_default(),
                observable,
                aircraft,
                &place,
            ) {
                Ok(readings) => {
                    let readings = readings.into_iter();
                    shows.extend(readings.map(|reading| Shows { answer, reading }));
                }
                Err(problem) => problems.push(problem),
            }
        }
    }
    shows
}

/// A word, or a stretch of the unit in which the reading is taken.
///
/// The name of a kind stands for every part of that kind, and that of a role for the part that has
/// it, so that a tree names no part of one aircraft.
fn shown(
    text: &str,
    observable: &Observable,
    aircraft: &Aircraft,
    place: &Place,
) -> Result<Vec<Shown>, Problem> {
    if let Some(dimension) = dimension(observable).filter(|_| text != NOTHING) {
        let (from, to) = ends_of(text, dimension, place)?;
        return Ok(vec![Shown::Between(from, to)]);
    }
    let role = aircraft.roles.iter().find(|(role, _)| role == text);
    let parts = aircraft.parts.iter().enumerate();
    let named = parts
        .filter(|(at, part)| part.kind.name == text || role.is_some_and(|(_, bound)| bound == at));
    let named = named.map(|(_, part)| Shown::Word(part.id.clone()));
    Ok(std::iter::once(Shown::Word(text.to_owned()))
        .chain(named)
        .collect())
}

fn dimension(observable: &Observable) -> Option<Dimension> {
    Unit::find(observable.unit).map(|unit| unit.dimension)
}

fn names(aircraft: &Aircraft) -> Vec<String> {
    readings_of(aircraft).map(|(name, ..)| name).collect()
}

fn named(name: &str, aircraft: &Aircraft) -> Option<&'static Observable> {
    readings_of(aircraft)
        .find(|(known, ..)| known == name)
        .map(|(_, row, _)| row)
}
