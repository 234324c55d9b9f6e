//! A course of the bench: its beginning, what was set since, and how far it was played.

use std::sync::Arc;

use super::located::Located;
use crate::authoring::desk::Desk;
use crate::authoring::document::Source;
use crate::base::dimension::Dimension;
use crate::base::quantity::Quantity;
use crate::plant::aircraft::Aircraft;
use crate::plant::control::{Control, charge, controls, fault};
use crate::plant::course::{Charge, Course, Done, LONGEST, Play};
use crate::plant::error::PlantError;
use crate::plant::handle::Handle;
use crate::source::codes::bench as code;
use crate::source::place::Place;
use crate::source::problem::Problem;

/// Lowers a course and plays it. `None` where an error was found on the way.
pub fn lower(desk: &mut Desk, source: &Source, aircraft: &Arc<Aircraft>) -> Option<Course> {
    let work = Work {
        source,
        aircraft,
        controls: controls(aircraft),
        most: Handle::new(Arc::clone(aircraft)).map_or(0.0, |plant| plant.pump_pressure()),
        problems: &mut desk.problems,
    };
    let (course, places) = work.lower();
    if desk.has_errors() {
        return None;
    }
    if let Err((error, place)) = played(aircraft, &course, &places, source) {
        let problem = Problem::new(code::NOT_PLAYED, place, error.to_string());
        let hint = "what stands before it can be played; mend this, or take it out";
        desk.problems.push(problem.hint(hint));
        return None;
    }
    Some(course)
}

/// Plays a course step by step, so that what the plant refuses is shown where it stands.
fn played(
    aircraft: &Arc<Aircraft>,
    course: &Course,
    places: &[Place],
    source: &Source,
) -> Result<(), (PlantError, Place)> {
    let begin = Course {
        then: Vec::new(),
        until: 0,
        ..course.clone()
    };
    let at = |place: Place| move |error| (error, place);
    let mut play = Play::new(aircraft, &begin).map_err(at(source.place_of("begin")))?;
    for (done, place) in course.then.iter().zip(places) {
        play.go(done.at).map_err(at(place.clone()))?;
        play.set(done.clone()).map_err(at(place.clone()))?;
    }
    play.go(course.until).map_err(at(source.place_of("until")))
}

struct Work<'a> {
    source: &'a Source,
    aircraft: &'a Aircraft,
    controls: Vec<Control>,
    /// What the pumps give, Pa.
    most: f64,
    problems: &'a mut Vec<Problem>,
}

impl Work<'_> {
    /// The course, and where each thing that was set since its beginning stands.
    fn lower(mut self) -> (Course, Vec<Place>) {
        let mut course = Course::default();
        let file = self.source.file;
        if let Some(entry) = self.source.root.entry("begin") {
            let begin = Located::of(file, entry);
            course.charge = begin.field("charge").and_then(|field| self.charge(&field));
            let done = self.done(0, &begin);
            course.begin = done.into_iter().map(|(done, _)| done).collect();
        }
        let mut places = Vec::new();
        let mut last = 0;
        let then = self.source.root.get("then");
        for item in then.map_or(&[][..], |node| node.items()) {
            let Some(at) = item.entry("at").map(|entry| Located::of(file, entry)) else {
                continue;
            };
            let time = self.time(&at, last);
            last = time.unwrap_or(last);
            let one = Located { node: item, ..at };
            for (done, place) in self.done(last, &one) {
                course.then.push(done);
                places.push(place);
            }
        }
        let until = self.source.root.entry("until");
        let until = until.and_then(|entry| self.time(&Located::of(file, entry), last));
        course.until = until.unwrap_or(last);
        (course, places)
    }

    /// A time in tenths of a second that is not before another one.
    fn time(&mut self, field: &Located<'_>, last: u64) -> Option<u64> {
        let text = field.node.text()?;
        // What is no time at all was said by the form check.
        let seconds = Quantity::parse(text, Dimension::Time).ok()?.si();
        let most = 240.0 * 3600.0;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "it is held between 0 and ten days"
        )]
        let tenths = (seconds.clamp(0.0, 2.0 * most) * 10.0).round() as u64;
        if (last..=LONGEST).contains(&tenths) {
            return Some(tenths);
        }
        let message = if tenths < last {
            format!("`{text}` is before what stands above it")
        } else {
            format!("`{text}` is more than ten days")
        };
        let problem = Problem::new(code::ORDER, field.value_place(), message);
        let hint = "times count from the beginning of the course, each no earlier than the last";
        self.problems.push(problem.hint(hint));
        None
    }

    fn charge(&mut self, field: &Located<'_>) -> Option<Charge> {
        let text = field.node.text().unwrap_or_default();
        match charge("charge", text, self.most) {
            Ok(pascals) => Some(Charge {
                text: text.to_owned(),
                pascals,
            }),
            Err(error) => {
                self.refused(field, error.to_string());
                None
            }
        }
    }

    fn refused(&mut self, field: &Located<'_>, message: String) {
        let problem = Problem::new(code::VALUE, field.value_place(), message);
        self.problems
            .push(problem.hint("write it as the bench does"));
    }

    /// What one entry sets at a time, with the place of each.
    fn done(&mut self, at: u64, entry: &Located<'_>) -> Vec<(Done, Place)> {
        let mut done = Vec::new();
        if let Some(set) = entry.field("set") {
            for field in Located::entries(set.file, set.node) {
                done.extend(self.control(at, &field));
            }
        }
        if let Some(faults) = entry.field("faults") {
            for part in Located::entries(faults.file, faults.node) {
                for field in Located::entries(part.file, part.node) {
                    done.extend(self.fault(at, &part, &field));
                }
            }
        }
        done
    }

    fn control(&mut self, at: u64, field: &Located<'_>) -> Option<(Done, Place)> {
        let found = self.controls.iter().find(|known| known.name == field.key);
        let Some(control) = found else {
            let message = format!("there is no control `{}`", field.key);
            let problem = Problem::new(code::UNKNOWN_CONTROL, field.place(), message);
            let known: Vec<&str> = self.controls.iter().map(|c| c.name.as_str()).collect();
            self.problems.push(problem.suggest(field.key, &known));
            return None;
        };
        let value = field.node.text().unwrap_or_default();
        match control.read(value, in_seconds(at), self.most) {
            Ok(change) => Some((
                Done {
                    at,
                    name: control.name.clone(),
                    value: value.to_owned(),
                    change,
                },
                field.value_place(),
            )),
            Err(error) => {
                self.refused(field, error.to_string());
                None
            }
        }
    }

    fn fault(&mut self, at: u64, part: &Located<'_>, field: &Located<'_>) -> Option<(Done, Place)> {
        let name = format!("{}/{}", part.key, field.key);
        let value = field.node.text().unwrap_or_default();
        match fault(self.aircraft, &name, value) {
            Ok(change) => {
                let done = Done {
                    at,
                    name,
                    value: value.to_owned(),
                    change,
                };
                Some((done, field.value_place()))
            }
            Err(error) => {
                let known = self.aircraft.parts.iter().any(|own| own.id == part.key);
                let place = if known { field.place() } else { part.place() };
                let problem = Problem::new(code::UNKNOWN_FAULT, place, error.to_string());
                let hint = "`faults` on the bench lists every part with its faults";
                self.problems.push(problem.hint(hint));
                None
            }
        }
    }
}

#[expect(
    clippy::cast_precision_loss,
    reason = "ten days are far below the numbers that are held exactly"
)]
fn in_seconds(tenths: u64) -> f64 {
    tenths as f64 / 10.0
}
