//! Lines of checks that carry none: taken from what is kept, or worked out from the plant.

use super::around::Around;
use super::located::Located;
use crate::authoring::kept::Kept;
use crate::diagnosis::check::AnswerLine;
use crate::diagnosis::derivation::derive;
use crate::diagnosis::model::{Model, WorkedOut};
use crate::diagnosis::played_times::play;
use crate::source::codes::{agreement, checks as code, tree};
use crate::source::problem::Problem;

/// Whether the lines of a check are to be worked out: it says what its readings show and no more.
fn is_pending(entry: &Located<'_>) -> bool {
    let has = |key: &str| entry.field(key).is_some();
    has("shows") && !has("yes") && !has("lines")
}

/// Whether any check is to have its lines worked out.
pub fn any(entries: &[Located<'_>]) -> bool {
    entries.iter().any(is_pending)
}

/// Lines that stand in until the whole tree is there.
pub fn stand_in(answers: usize) -> Vec<AnswerLine> {
    let answer = |at| if at == 0 { 1.0 } else { 0.0 };
    vec![AnswerLine {
        when: Vec::new(),
        shares: (0..answers).map(answer).collect(),
    }]
}

/// What is wrong with such a check where there is no aircraft whose plant could be played.
pub fn without_aircraft(
    entry: &Located<'_>,
    around: &Around<'_>,
    problems: &[Problem],
) -> Option<Problem> {
    // An aircraft that was named and cannot be used has its own problem already.
    let named = problems
        .iter()
        .any(|problem| problem.code == tree::AIRCRAFT);
    if named || around.aircraft.is_some() {
        return None;
    }
    let message = format!(
        "the lines of `{}` are worked out from the plant, and no aircraft is named",
        entry.key
    );
    let hint = "name the aircraft, or add `yes:`, or `answers:` with `lines:`";
    Some(Problem::new(code::NOT_DERIVED, entry.place_of("shows"), message).hint(hint))
}

/// Fills in the lines of every check that carries none, and the order of the variables.
///
/// Without a kept file that fits, every fault is played, which takes seconds.
pub fn complete(
    model: &mut Model,
    entries: &[Located<'_>],
    kept: &Kept,
    (problems, notes): (&mut Vec<Problem>, &mut Vec<String>),
) {
    let places = 0..entries.len().min(model.checks.len());
    let pending: Vec<usize> = places.filter(|at| is_pending(&entries[*at])).collect();
    model.worked_out.texts.clone_from(&kept.texts);
    match kept.resolve(model, &pending) {
        Ok(Some(worked_out)) => model.worked_out = worked_out,
        Ok(None) => {
            notes.extend(kept.note(!pending.is_empty()));
            work_out(model, &pending, entries, problems);
            model.worked_out.times = play(model);
        }
        Err(problem) => {
            problems.push(problem);
            work_out(model, &pending, entries, problems);
            model.worked_out.times = play(model);
        }
    }
    fill_in(model, entries, problems);
}

/// Works the lines out from the plant.
fn work_out(
    model: &mut Model,
    pending: &[usize],
    entries: &[Located<'_>],
    problems: &mut Vec<Problem>,
) {
    let mut refuse = |check: &usize, why: &str| {
        let entry = &entries[*check];
        let message = format!("the lines of `{}` cannot be worked out: {why}", entry.key);
        let problem = Problem::new(code::NOT_DERIVED, entry.place_of("shows"), message);
        problems.push(problem.hint("add `yes:`, or `answers:` with `lines:`"));
    };
    if pending.is_empty() {
        return;
    }
    match derive(model, pending) {
        Ok(derived) => {
            let found = |check: &&usize| derived.iter().any(|one| one.check == **check);
            for check in pending.iter().filter(|check| !found(check)) {
                refuse(check, "there is nothing to read in the state it needs");
            }
            model.worked_out.derived = derived;
        }
        Err(error) => pending
            .iter()
            .take(1)
            .for_each(|check| refuse(check, &error.to_string())),
    }
}

/// Puts the lines into their checks, and says which faults no answer covers.
fn fill_in(model: &mut Model, entries: &[Located<'_>], problems: &mut Vec<Problem>) {
    let WorkedOut { derived, .. } = &model.worked_out;
    for one in derived {
        model.checks[one.check].lines = one.answer_lines();
        for (events, reading) in &one.silent {
            let subject = subject(model, events);
            let message = format!("{subject} reads {reading}, and no answer shows that");
            let place = entries[one.check].place_of("shows");
            let problem = Problem::new(agreement::NO_ANSWER, place, message);
            problems.push(problem.hint("add the reading to an answer under `shows`"));
        }
    }
}

/// Which faults are in, as the start of a sentence.
fn subject(model: &Model, events: &[usize]) -> String {
    let names: Vec<String> = events
        .iter()
        .map(|event| format!("`{}`", model.causes[*event].id))
        .collect();
    match names.as_slice() {
        [] => "a healthy aircraft".to_owned(),
        [one] => format!("{one} alone"),
        several => format!("{} together", several.join(" with ")),
    }
}
