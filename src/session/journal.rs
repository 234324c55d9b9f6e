//! A job as JSON lines: a header line, then one entry a line. Names, never places, are written,
//! so that a job outlives a change of its tree.

use serde_json::{Value, json};

use super::end_state::{self, END_STATES};
use super::entry::{Entry, What};
use super::fields::{self, FIELDS};
use super::header::{Header, VERSION};
use super::watch::Taken;
use crate::base::stamp::Stamp;
use crate::diagnosis::gauge_reading::{name_of, place_of};
use crate::diagnosis::model::Model;

/// The header line, without its line end.
pub fn header_line(header: &Header) -> String {
    json!({
        "stillwheel": format!("job {VERSION}"),
        "job": header.job,
        "tree": header.tree,
        "tree-version": header.tree_version,
        "checksum": header.checksum,
        "aircraft": header.aircraft,
        "opened": header.opened.to_string(),
        "program": header.program,
    })
    .to_string()
}

/// Reads a header line; the error is for people.
pub fn read_header(line: &str) -> Result<Header, String> {
    let value: Value = serde_json::from_str(line).map_err(|_| "its first line is damaged")?;
    let text = |key: &str| value.get(key).and_then(Value::as_str).map(str::to_owned);
    let kind = text("stillwheel").unwrap_or_default();
    let version = kind
        .strip_prefix("job ")
        .and_then(|v| v.parse::<u64>().ok());
    match version {
        None => return Err("it is not a job of this program".to_owned()),
        Some(version) if version > VERSION => {
            return Err(format!(
                "it was written by a newer program (job {version}, this one reads {VERSION})"
            ));
        }
        Some(_) => {}
    }
    let need = |key: &str| text(key).ok_or_else(|| format!("its first line has no `{key}`"));
    Ok(Header {
        job: need("job")?,
        tree: need("tree")?,
        tree_version: text("tree-version"),
        checksum: need("checksum")?,
        aircraft: text("aircraft"),
        opened: Stamp::parse(&need("opened")?).ok_or("its first line has no time")?,
        program: text("program").unwrap_or_default(),
    })
}

/// One entry as a line, without its line end.
pub fn entry_line(entry: &Entry, model: &Model) -> String {
    let mut value = what_json(&entry.what, model);
    if let Value::Object(map) = &mut value {
        map.insert("at".to_owned(), json!(entry.at.to_string()));
    }
    value.to_string()
}

fn what_json(what: &What, model: &Model) -> Value {
    match what {
        What::Field { field, value } => {
            json!({"entry": "field", "field": FIELDS[*field].id, "value": value})
        }
        What::Condition { condition, word } => {
            let id = &model.tree.conditions[*condition].id;
            json!({"entry": "condition", "condition": id, "value": word})
        }
        What::Answer {
            check,
            answer,
            read,
        } => {
            let check = &model.checks[*check];
            let answer = &check.answers[*answer];
            let mut line = json!({"entry": "answer", "check": check.id, "answer": answer});
            if let Some(read) = read {
                line["read"] = json!(read);
            }
            line
        }
        What::Cannot { check, reason } => {
            let id = &model.checks[*check].id;
            json!({"entry": "cannot", "check": id, "reason": reason})
        }
        What::Readings { values, from } => {
            let values: Vec<Value> = values.iter().map(taken_json).collect();
            json!({"entry": "readings", "from": from, "values": values})
        }
        What::NewWatch => json!({"entry": "new-watch"}),
        What::Note(text) => json!({"entry": "note", "text": text}),
        What::Timer { label, minutes } => {
            json!({"entry": "timer", "label": label, "minutes": minutes})
        }
        What::Heard => json!({"entry": "heard"}),
        What::End(state) => json!({"entry": "end", "state": END_STATES[*state].id}),
        What::Change { line, to } => {
            json!({"entry": "change", "line": line, "to": what_json(to, model)})
        }
        What::Undo => json!({"entry": "undo"}),
        What::Redo => json!({"entry": "redo"}),
        What::Foreign(text) => json!({"entry": "foreign", "text": text}),
    }
}

/// All entries of a job file, and what is wrong with single lines.
///
/// A line that cannot be read keeps its place as a foreign entry, so that nothing after it moves.
pub fn entries<'a>(
    lines: impl Iterator<Item = &'a str>,
    model: &Model,
) -> (Vec<Entry>, Vec<String>) {
    let mut entries = Vec::new();
    let mut problems = Vec::new();
    for (place, line) in lines.enumerate() {
        let read = serde_json::from_str::<Value>(line)
            .map_err(|_| "it is damaged".to_owned())
            .and_then(|value| read_entry(&value, model));
        match read {
            Ok(entry) => entries.push(entry),
            Err(reason) => {
                problems.push(format!("line {} is kept and not used: {reason}", place + 2));
                let at = entries
                    .last()
                    .map_or(Stamp::from_seconds(0), |e: &Entry| e.at);
                let what = What::Foreign(line.to_owned());
                entries.push(Entry { at, what });
            }
        }
    }
    (entries, problems)
}

fn read_entry(value: &Value, model: &Model) -> Result<Entry, String> {
    let at = value
        .get("at")
        .and_then(Value::as_str)
        .and_then(Stamp::parse);
    let at = at.ok_or("it has no time")?;
    Ok(Entry {
        at,
        what: read_what(value, model)?,
    })
}

fn read_what(value: &Value, model: &Model) -> Result<What, String> {
    let text = |key: &str| value.get(key).and_then(Value::as_str).map(str::to_owned);
    let need = |key: &str| text(key).ok_or_else(|| format!("it has no `{key}`"));
    let check = || -> Result<usize, String> {
        let id = need("check")?;
        model
            .check(&id)
            .ok_or_else(|| format!("the tree has no check `{id}` any more"))
    };
    Ok(match need("entry")?.as_str() {
        "field" => {
            let id = need("field")?;
            What::Field {
                field: fields::place(&id).ok_or_else(|| format!("there is no field `{id}`"))?,
                value: text("value"),
            }
        }
        "condition" => What::Condition {
            condition: condition(model, &need("condition")?)?,
            word: text("value"),
        },
        "answer" => answer(model, check()?, &need("answer")?, text("read"))?,
        "cannot" => What::Cannot {
            check: check()?,
            reason: text("reason"),
        },
        "readings" => readings(value, text("from"))?,
        "new-watch" => What::NewWatch,
        "note" => What::Note(need("text")?),
        "timer" => What::Timer {
            label: need("label")?,
            minutes: value
                .get("minutes")
                .and_then(Value::as_u64)
                .and_then(|m| u32::try_from(m).ok())
                .ok_or("it has no minutes")?,
        },
        "heard" => What::Heard,
        "end" => {
            let id = need("state")?;
            What::End(end_state::place(&id).ok_or_else(|| format!("no end state `{id}`"))?)
        }
        "change" => What::Change {
            line: value
                .get("line")
                .and_then(Value::as_u64)
                .and_then(|line| usize::try_from(line).ok())
                .ok_or("it has no line")?,
            to: Box::new(read_what(value.get("to").ok_or("it has no `to`")?, model)?),
        },
        "undo" => What::Undo,
        "redo" => What::Redo,
        "foreign" => What::Foreign(need("text")?),
        other => return Err(format!("`{other}` is not known")),
    })
}

fn taken_json(taken: &Taken) -> Value {
    let gauge = name_of(taken.gauge);
    json!({"at": taken.at.to_string(), "gauge": gauge, "read": taken.typed})
}

fn readings(value: &Value, from: Option<String>) -> Result<What, String> {
    let values = value.get("values").and_then(Value::as_array);
    let values = values.ok_or("it has no `values`")?;
    let values = values.iter().map(read_taken).collect::<Result<_, _>>()?;
    Ok(What::Readings { values, from })
}

fn read_taken(value: &Value) -> Result<Taken, String> {
    let text = |key: &str| value.get(key).and_then(Value::as_str);
    let need = |key: &str| text(key).ok_or_else(|| format!("a reading has no `{key}`"));
    let gauge = need("gauge")?;
    Ok(Taken {
        at: Stamp::parse(need("at")?).ok_or("a reading has no time")?,
        gauge: place_of(gauge).ok_or_else(|| format!("there is no gauge `{gauge}`"))?,
        typed: need("read")?.to_owned(),
    })
}

fn condition(model: &Model, id: &str) -> Result<usize, String> {
    let found = model.tree.conditions.iter().position(|c| c.id == id);
    found.ok_or_else(|| format!("the tree has no condition `{id}` any more"))
}

/// An answer by its word, with the reading it was judged by.
fn answer(model: &Model, check: usize, word: &str, read: Option<String>) -> Result<What, String> {
    let answer = model.checks[check].answer(word);
    let answer = answer.ok_or_else(|| format!("the check has no answer `{word}` any more"))?;
    Ok(What::Answer {
        check,
        answer,
        read,
    })
}
