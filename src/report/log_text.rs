//! The log of a job, one line an entry, and new words for an old entry.

use crate::diagnosis::given;
use crate::diagnosis::reading::takes_readings;
use crate::session::end_state::END_STATES;
use crate::session::entry::{Entry, What};
use crate::session::fields::FIELDS;
use crate::session::job::Job;
use crate::session::reading::answer_by_reading;
use crate::session::standing::standing;
use crate::session::watch::{Taken, taken_words};

/// Every entry there ever was, with its number and time; what does not stand says so.
pub fn log_lines(job: &Job) -> Vec<String> {
    let stands = standing(job.entries());
    let mut lines = Vec::new();
    let mut before: Option<&Entry> = None;
    let (mut done, mut back): (Vec<usize>, Vec<usize>) = (Vec::new(), Vec::new());
    for (place, entry) in job.entries().iter().enumerate() {
        let now = stands.entries.binary_search_by_key(&place, |(at, _)| *at);
        let now = now.ok().map(|at| &stands.entries[at].1);
        let is_change = matches!(entry.what, What::Change { .. });
        let is_answer = !matches!(entry.what, What::Undo | What::Redo | What::Change { .. });
        let mut line = format!(
            "{:>3}  {}  {}",
            place + 1,
            entry.at.clock(),
            words(job, &entry.what)
        );
        match entry.what {
            What::Undo => {
                line.push_str(
                    &done
                        .last()
                        .map_or(String::new(), |at| format!(" of {}", at + 1)),
                );
                back.extend(done.pop());
            }
            What::Redo => {
                line.push_str(
                    &back
                        .last()
                        .map_or(String::new(), |at| format!(" of {}", at + 1)),
                );
                done.extend(back.pop());
            }
            _ => {
                done.push(place);
                back.clear();
            }
        }
        match now {
            None if is_answer || !stands.done.contains(&place) && is_change => {
                line.push_str("  (taken back)");
            }
            Some(what) if is_answer && *what != entry.what => {
                line.push_str(&format!("  (changed: {})", words(job, what)));
            }
            _ => {}
        }
        if before.is_some_and(|before| before.at > entry.at) {
            line.push_str("  (the clock was set back before this)");
        }
        before = Some(entry);
        lines.push(line);
    }
    lines
}

/// What an entry says, in words.
pub fn words(job: &Job, what: &What) -> String {
    let model = job.model();
    let known = |value: &Option<String>| value.clone().unwrap_or_else(|| "not known".to_owned());
    match what {
        What::Field { field, value } => {
            let field = &FIELDS[*field];
            let value = value
                .as_deref()
                .map_or("not known".to_owned(), |v| field.read_back(v));
            format!("{}: {value}", field.id.replace('-', " "))
        }
        What::Condition { condition, word } => {
            let id = model.tree.conditions[*condition].id.replace('-', " ");
            let values = &model.tree.conditions[*condition].values;
            let own = |word: &str| values.iter().any(|(known, _)| known == word);
            let word = match word.as_deref() {
                Some(word) if own(word) => Some(word.replace('-', " ")),
                _ => word.clone(),
            };
            format!("{id}: {}", known(&word))
        }
        What::Answer {
            check,
            answer,
            read,
        } => {
            let check = &model.checks[*check];
            let answer = check.answers[*answer].replace('-', " ");
            let read = read
                .as_ref()
                .map_or(String::new(), |read| format!(", read {read}"));
            format!("{}: {answer}{read}", check.title)
        }
        What::Cannot { check, reason } => {
            let title = &model.checks[*check].title;
            let reason = reason
                .as_ref()
                .map_or(String::new(), |reason| format!(" ({reason})"));
            format!("{title}: cannot check{reason}")
        }
        What::Readings { values, from } => readings_words(values, from.as_deref()),
        What::NewWatch => "a new watch".to_owned(),
        What::Note(text) => format!("note: {text}"),
        What::Timer { label, minutes } => format!("timer {label}: {minutes} min"),
        What::Heard => "timers heard".to_owned(),
        What::End(end) => format!("end of job: {}", END_STATES[*end].title),
        What::Change { line, to } => format!("entry {} changed: {}", line + 1, words(job, to)),
        What::Undo => "undo".to_owned(),
        What::Redo => "redo".to_owned(),
        What::Foreign(_) => "a line that is kept and not used".to_owned(),
    }
}

/// One reading, or how many came from a file.
fn readings_words(values: &[Taken], from: Option<&str>) -> String {
    match (values, from) {
        ([one], None) => format!("reading {}", taken_words(one)),
        ([first, .., last], Some(from)) => format!(
            "{} readings of {from}, {} to {}",
            values.len(),
            first.at.clock(),
            last.at.clock()
        ),
        ([one], Some(from)) => format!("reading of {from}, {}", taken_words(one)),
        _ => "no reading".to_owned(),
    }
}

/// New words for the entry at a place; the error says what would do.
pub fn reword(job: &Job, place: usize, answer: &str) -> Result<What, String> {
    let Some(entry) = job.entries().get(place) else {
        return Err(format!(
            "There is no entry {}; the log numbers them.",
            place + 1
        ));
    };
    let unknown = matches!(answer, "0" | "cannot" | "not known");
    let model = job.model();
    Ok(match &entry.what {
        What::Field { field, .. } => {
            let value = if unknown {
                None
            } else {
                Some(FIELDS[*field].accept(answer)?)
            };
            let what = What::Field {
                field: *field,
                value,
            };
            match job.refuses(&what) {
                Some(reason) => return Err(reason),
                None => what,
            }
        }
        What::Condition { condition, .. } => {
            let id = &model.tree.conditions[*condition].id;
            if !unknown {
                given::condition(model, id, answer).map_err(|error| format!("{error}."))?;
            }
            What::Condition {
                condition: *condition,
                word: (!unknown).then(|| answer.to_owned()),
            }
        }
        What::Answer { check, .. } | What::Cannot { check, .. } => {
            let word = if unknown { "cannot" } else { answer };
            answered_again(job, *check, word)?
        }
        What::Note(_) => What::Note(answer.to_owned()),
        What::Readings { values, from: None } if values.len() == 1 => {
            let (at, gauge) = (values[0].at, values[0].gauge);
            let taken = job.reading_taken(answer, at);
            let taken = taken.map_err(|reason| format!("Not kept: {reason}."))?;
            What::Readings {
                values: vec![Taken { gauge, ..taken }],
                from: None,
            }
        }
        _ => {
            return Err(format!(
                "Entry {} cannot be changed; undo takes it back.",
                place + 1
            ));
        }
    })
}

/// Another answer to a check: one of its words, `cannot`, or a reading that it judges.
fn answered_again(job: &Job, check: usize, word: &str) -> Result<What, String> {
    let about = &job.model().checks[check];
    if word != "cannot" && about.answer(word).is_none() && takes_readings(about) {
        return answer_by_reading(job, check, word);
    }
    let (check, answer) =
        given::reply(job.model(), &about.id, word).map_err(|error| format!("{error}."))?;
    Ok(match answer {
        Some(answer) => What::Answer {
            check,
            answer,
            read: None,
        },
        None => What::Cannot {
            check,
            reason: None,
        },
    })
}
