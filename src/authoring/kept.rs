//! The file beside a tree that keeps what was worked out for it: answer lines, times to movement,
//! order of variables.
//!
//! Playing every fault takes seconds, and looking for a good order takes longer than all the rest
//! of a compilation. Both follow from the texts alone, so they are kept. The file names a checksum
//! of everything it rests on and one of its own content: what is not certain to be what would be
//! worked out now is not used, and only time is lost.

use serde::{Deserialize, Serialize};

use super::desk::Desk;
use crate::base::checksum::checksum;
use crate::diagnosis::check::Check;
use crate::diagnosis::derivation::{Derived, DerivedLine, RULES};
use crate::diagnosis::model::{Model, WorkedOut};
use crate::diagnosis::played_times::PlayedEvent;
use crate::diagnosis::time_to_movement::Played;
use crate::source::codes::document as code;
use crate::source::place::{FileId, Place};
use crate::source::problem::Problem;

/// First words of every such file, and the version of its form.
const FORM: &str = "kept 2";
/// How far the shares of a line may be from a sum of 1: rounding alone.
const SUM_SLACK: f64 = 1e-9;

/// What stands beside a tree.
#[derive(Debug)]
pub struct Kept {
    /// Checksum of everything that the tree of now rests on.
    pub texts: String,
    /// The tree, as it was named.
    tree: String,
    /// The file beside it.
    name: String,
    found: Found,
}

#[derive(Debug)]
enum Found {
    /// Nobody asked for it.
    Unasked,
    Nothing,
    /// Of other texts, another form or other rules.
    Stale,
    Fits(FileId, Box<Content>),
    Damaged(Problem),
}

/// What is kept.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Content {
    checks: Vec<KeptCheck>,
    times: Vec<KeptTime>,
    order: Vec<String>,
}

/// Hours to movement as the plant played them; without a cause those of a healthy aircraft.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct KeptTime {
    cause: Option<String>,
    hours: [[Option<f64>; 3]; 2],
}

/// The lines of one check.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct KeptCheck {
    check: String,
    lines: Vec<KeptLine>,
    healthy: KeptLine,
    silent: Vec<KeptLine>,
}

/// What is read with some events in, and the shares of the answers, where there are answers.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct KeptLine {
    when: Vec<String>,
    reading: String,
    shares: Vec<f64>,
}

/// The whole file.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Whole {
    stillwheel: String,
    texts: String,
    content: String,
    checks: Vec<KeptCheck>,
    times: Vec<KeptTime>,
    order: Vec<String>,
}

/// The name of the file beside a tree.
pub fn name_beside(tree: &str) -> String {
    let folder_ends = tree.rfind(['/', '\\']).map_or(0, |at| at + 1);
    let (folder, file) = tree.split_at(folder_ends);
    let stem = match file.rsplit_once('.') {
        Some((stem, _)) if !stem.is_empty() => stem,
        _ => file,
    };
    format!("{folder}{stem}.kept.json")
}

/// Checksum of all texts that a tree rests on, and of the rules by which this program works.
pub fn checksum_of(texts: &[&str]) -> String {
    let rules = format!("{} {RULES}", env!("CARGO_PKG_VERSION"));
    checksum(std::iter::once(rules.as_str()).chain(texts.iter().copied()))
}

/// Looks for the file beside a tree.
pub fn beside(desk: &mut Desk, tree: FileId, texts: String) -> Kept {
    let tree = desk.files.get(tree).name.clone();
    let name = name_beside(&tree);
    let found = if desk.without_kept {
        Found::Unasked
    } else {
        found(desk, &name, &texts)
    };
    Kept {
        texts,
        tree,
        name,
        found,
    }
}

fn found(desk: &mut Desk, name: &str, texts: &str) -> Found {
    let file = match desk.optional(name) {
        Ok(Some(file)) => file,
        Ok(None) => return Found::Nothing,
        Err((file, reason)) => return Found::Damaged(damaged(file, 0, &reason)),
    };
    let text = &desk.files.get(file).text;
    let value: serde_json::Value = match serde_json::from_str(text) {
        Ok(value) => value,
        Err(error) => return Found::Damaged(damaged(file, offset(text, &error), &plain(&error))),
    };
    let said = |key: &str| value.get(key).and_then(serde_json::Value::as_str);
    match (said("stillwheel"), said("texts")) {
        (Some(FORM), Some(of)) if of == texts => {}
        (Some(form), _) if form.starts_with("kept ") => return Found::Stale,
        _ => return Found::Damaged(damaged(file, 0, "it does not start as one")),
    }
    let whole: Whole = match serde_json::from_str(text) {
        Ok(whole) => whole,
        Err(error) => return Found::Damaged(damaged(file, offset(text, &error), &plain(&error))),
    };
    let content = Content {
        checks: whole.checks,
        times: whole.times,
        order: whole.order,
    };
    let same = whole.stillwheel == FORM && whole.texts == texts;
    if same && whole.content == content.checksum() {
        return Found::Fits(file, Box::new(content));
    }
    Found::Damaged(damaged(file, 0, "it is not as it was written"))
}

fn damaged(file: FileId, at: usize, reason: &str) -> Problem {
    let message = format!("this kept file cannot be used: {reason}");
    Problem::new(code::KEPT, Place::new(file, at..at), message)
        .hint("write it anew with `stillwheel tree derive FILE --keep`, or delete it")
}

/// The byte at which a reader of JSON stopped.
fn offset(text: &str, error: &serde_json::Error) -> usize {
    let before = text.split_inclusive('\n').take(error.line().max(1) - 1);
    let before: usize = before.map(str::len).sum();
    let mut at = (before + error.column().max(1) - 1).min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

/// What a reader of JSON found wrong, without the place, which stands beside it.
fn plain(error: &serde_json::Error) -> String {
    let words = error.to_string();
    words
        .rsplit_once(" at line ")
        .map_or(words.clone(), |(words, _)| words.to_owned())
}

impl Content {
    /// Checksum of the content, however it is spaced.
    fn checksum(&self) -> String {
        checksum([serde_json::to_string(self).unwrap_or_default().as_str()])
    }
}

impl Kept {
    /// What is kept, for a model whose checks in `pending` carry no lines.
    ///
    /// Errors: it says that it belongs to these texts and does not.
    pub fn resolve(&self, model: &Model, pending: &[usize]) -> Result<Option<WorkedOut>, Problem> {
        let (file, content) = match &self.found {
            Found::Fits(file, content) => (*file, content),
            Found::Damaged(problem) => return Err(problem.clone()),
            _ => return Ok(None),
        };
        let derived = content.checks.iter().map(|check| check.resolve(model));
        let derived: Option<Vec<Derived>> = derived.collect();
        let order = order(model, &content.order);
        let fits = |derived: &Vec<Derived>| {
            derived
                .iter()
                .map(|one| one.check)
                .eq(pending.iter().copied())
        };
        let times = content.times.iter().map(|time| time.resolve(model));
        let times: Option<Vec<PlayedEvent>> = times.collect();
        match derived.filter(fits).zip(times) {
            Some((derived, times)) => Ok(Some(WorkedOut {
                texts: self.texts.clone(),
                derived,
                times,
                // An order that does not fit costs time alone.
                order: order.unwrap_or_default(),
            })),
            None => Err(damaged(file, 0, "its lines are not those of this tree")),
        }
    }

    /// What a reader should know where nothing kept was used.
    pub fn note(&self, needed: bool) -> Option<String> {
        let Self { tree, name, .. } = self;
        match self.found {
            Found::Nothing if needed => Some(format!(
                "{tree}: lines were worked out from the plant and are not kept; `stillwheel tree derive {tree} --keep` writes {name}, and loading is fast"
            )),
            Found::Stale => Some(format!(
                "{name} is stale: it was kept of other texts or by another program; `stillwheel tree derive {tree} --keep` writes it anew"
            )),
            _ => None,
        }
    }
}

impl KeptCheck {
    fn of(model: &Model, derived: &Derived) -> Self {
        let line = |when: &[usize], reading: &str, shares: &[f64]| KeptLine {
            when: when.iter().map(|at| model.causes[*at].id.clone()).collect(),
            reading: reading.to_owned(),
            shares: shares.to_vec(),
        };
        let (reading, shares) = &derived.otherwise;
        let lines = derived.lines.iter();
        let silent = derived.silent.iter();
        Self {
            check: model.checks[derived.check].id.clone(),
            lines: lines
                .map(|l| line(&l.when, &l.reading, &l.shares))
                .collect(),
            healthy: line(&[], reading, shares),
            silent: silent
                .map(|(when, reading)| line(when, reading, &[]))
                .collect(),
        }
    }

    /// The lines by place; `None` where they do not fit the model.
    fn resolve(&self, model: &Model) -> Option<Derived> {
        let check = model.check(&self.check)?;
        let events = |line: &KeptLine| -> Option<Vec<usize>> {
            line.when.iter().map(|event| model.cause(event)).collect()
        };
        let line = |line: &KeptLine| {
            Some(DerivedLine {
                when: events(line)?,
                reading: line.reading.clone(),
                shares: shares(&model.checks[check], &line.shares)?,
            })
        };
        let silent = |line: &KeptLine| Some((events(line)?, line.reading.clone()));
        let healthy = line(&self.healthy)?;
        Some(Derived {
            check,
            lines: self.lines.iter().map(line).collect::<Option<_>>()?,
            otherwise: (healthy.reading, healthy.shares),
            silent: self.silent.iter().map(silent).collect::<Option<_>>()?,
        })
    }
}

impl KeptTime {
    fn of(model: &Model, (event, played): &PlayedEvent) -> Self {
        Self {
            cause: event.map(|event| model.causes[event].id.clone()),
            hours: played.hours,
        }
    }

    /// The times by place; `None` where they do not fit the model.
    fn resolve(&self, model: &Model) -> Option<PlayedEvent> {
        let cells = self.hours.as_flattened().iter().flatten();
        let sound = cells.clone().all(|hours| *hours >= 0.0);
        let event = match &self.cause {
            Some(cause) => Some(model.cause(cause)?),
            None => None,
        };
        sound.then_some((event, Played { hours: self.hours }))
    }
}

/// Shares that can be those of a line of a check.
fn shares(check: &Check, shares: &[f64]) -> Option<Vec<f64>> {
    let sum: f64 = shares.iter().sum();
    let sound = shares.len() == check.answers.len()
        && shares.iter().all(|share| (0.0..=1.0).contains(share))
        && (sum - 1.0).abs() < SUM_SLACK;
    sound.then(|| shares.to_vec())
}

/// The variables of an order, events first and then conditions; `None` where one is not there or
/// stands twice.
fn order(model: &Model, names: &[String]) -> Option<Vec<usize>> {
    let events = model.tree.events.len();
    let variable = |name: &String| {
        let condition = || model.tree.conditions.iter().position(|c| c.id == *name);
        let condition = || condition().map(|at| events + at);
        model.cause(name).or_else(condition)
    };
    let order: Vec<usize> = names.iter().map(variable).collect::<Option<_>>()?;
    let mut once = order.clone();
    once.sort_unstable();
    once.dedup();
    (once.len() == order.len()).then_some(order)
}

/// The text of the file, for a model and the order in which its product is small.
pub fn text(model: &Model, order: &[usize]) -> Result<String, serde_json::Error> {
    let events = model.tree.events.len();
    let name = |variable: &usize| match variable.checked_sub(events) {
        Some(condition) => model.tree.conditions[condition].id.clone(),
        None => model.causes[*variable].id.clone(),
    };
    let derived = model.worked_out.derived.iter();
    let times = model.worked_out.times.iter();
    let content = Content {
        checks: derived.map(|one| KeptCheck::of(model, one)).collect(),
        times: times.map(|time| KeptTime::of(model, time)).collect(),
        order: order.iter().map(name).collect(),
    };
    // One row a check and line, so that a change is seen where it is.
    let mut checks: Vec<String> = Vec::new();
    for check in &content.checks {
        let rows = |lines: &[KeptLine]| -> Result<String, serde_json::Error> {
            let rows: Vec<String> = lines
                .iter()
                .map(serde_json::to_string)
                .collect::<Result<_, _>>()?;
            Ok(rows
                .iter()
                .map(|row| format!("\n        {row}"))
                .collect::<Vec<_>>()
                .join(","))
        };
        checks.push(format!(
            "\n    {{\n      \"check\": {},\n      \"lines\": [{}],\n      \"healthy\": {},\n      \"silent\": [{}]\n    }}",
            serde_json::to_string(&check.check)?,
            rows(&check.lines)?,
            serde_json::to_string(&check.healthy)?,
            rows(&check.silent)?
        ));
    }
    let times: Vec<String> = content
        .times
        .iter()
        .map(serde_json::to_string)
        .collect::<Result<_, _>>()?;
    let names: Vec<String> = content
        .order
        .iter()
        .map(serde_json::to_string)
        .collect::<Result<_, _>>()?;
    Ok(format!(
        "{{\n  \"stillwheel\": \"{FORM}\",\n  \"texts\": \"{}\",\n  \"content\": \"{}\",\n  \"checks\": [{}],\n  \"times\": [\n    {}\n  ],\n  \"order\": [\n    {}\n  ]\n}}\n",
        model.worked_out.texts,
        content.checksum(),
        checks.join(","),
        times.join(",\n    "),
        names.join(",\n    ")
    ))
}
