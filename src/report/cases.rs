//! Worked cases as text and JSON.

use serde_json::{Value, json};

use crate::base::text::{pad, plural};
use crate::diagnosis::model::Model;
use crate::diagnosis::worked_case::{Outcome, Step, Worked, step_words};

/// Columns of what became known, and of a cause.
const STEP: usize = 36;
const CAUSE: usize = 26;

/// How the cases came out, in one line, and how long they take.
pub fn summary(model: &Model, worked: &[Worked]) -> String {
    let failed = failed(worked).count();
    let cases = plural(worked.len(), "case");
    let title = &model.title;
    if worked.is_empty() {
        return format!("{title}: no cases; give some under `cases`\n");
    }
    let count = f64::from(u32::try_from(worked.len()).unwrap_or(u32::MAX));
    let checks: f64 = worked.iter().map(|one| checks(model, one)).sum();
    let minutes: f64 = worked.iter().map(|one| one.minutes).sum();
    let out = match failed {
        0 => "all as expected".to_owned(),
        failed => format!("{failed} otherwise than expected"),
    };
    format!(
        "{title}: {cases}, {out}; {:.1} checks and {:.0} min a case\n",
        checks / count,
        minutes / count
    )
}

fn checks(model: &Model, one: &Worked) -> f64 {
    let answers = model.cases[one.case].answers.len();
    f64::from(u32::try_from(answers).unwrap_or(u32::MAX))
}

/// The cases that came out otherwise.
fn failed(worked: &[Worked]) -> impl Iterator<Item = &Worked> {
    worked
        .iter()
        .filter(|one| one.outcome != Outcome::AsExpected)
}

/// The steps of every case that failed, the one that differs marked.
pub fn steps_text(model: &Model, worked: &[Worked]) -> String {
    let mut text = String::new();
    for one in failed(worked) {
        let case = &model.cases[one.case];
        let differs = differs(one);
        text.push_str(&format!("case `{}`\n", case.name));
        text.push_str(&format!(
            "    {} {}  {}\n",
            pad("what became known", STEP),
            pad("what leads, of 100", CAUSE + 6),
            "best expected"
        ));
        for (at, step) in one.steps.iter().enumerate() {
            let mark = if Some(at) == differs { ">" } else { " " };
            let words = step_words(model, case, step.item);
            let row = format!(
                "  {mark} {} {}  {}",
                pad(&words, STEP),
                pad(&leads(model, step), CAUSE + 6),
                expected(model, step)
            );
            text.push_str(&format!("{}\n", row.trim_end()));
        }
        text.push('\n');
    }
    text
}

fn differs(one: &Worked) -> Option<usize> {
    match one.outcome {
        Outcome::AsExpected => None,
        Outcome::Differs(step) | Outcome::Contradicts(step) => Some(step),
    }
}

fn leads(model: &Model, step: &Step) -> String {
    match step.leads {
        Some((event, share)) => share_of(&model.causes[event].id, share),
        None => "nothing can be true".to_owned(),
    }
}

fn share_of(id: &str, share: f64) -> String {
    format!("{} {:>4.1}", pad(id, CAUSE), 100.0 * share)
}

fn expected(model: &Model, step: &Step) -> String {
    let Some((event, rank, share)) = step.expected else {
        return String::new();
    };
    let id = &model.causes[event].id;
    format!("{:.1} in place {rank}: {id}", 100.0 * share)
}

/// Every case for other programs; `places` gives line and column of each case's step that differs.
pub fn cases_json(model: &Model, worked: &[Worked], places: &[Option<(usize, usize)>]) -> Value {
    let id = |event: usize| &model.causes[event].id;
    let row = |(one, place): (&Worked, &Option<(usize, usize)>)| {
        let case = &model.cases[one.case];
        let step = |step: &Step| {
            json!({
                "step": step_words(model, case, step.item),
                "leads": step.leads.map(|(event, _)| id(event)),
                "probability": step.leads.map(|(_, share)| share),
                "expected": step.expected.map(|(event, _, _)| id(event)),
                "place_in_ranking": step.expected.map(|(_, rank, _)| rank),
                "expected_probability": step.expected.map(|(_, _, share)| share),
            })
        };
        let outcome = match one.outcome {
            Outcome::AsExpected => "as-expected",
            Outcome::Differs(_) => "differs",
            Outcome::Contradicts(_) => "contradicts",
        };
        json!({
            "name": case.name,
            "outcome": outcome,
            "first": case.first.iter().map(|event| id(*event)).collect::<Vec<_>>(),
            "differs_at": differs(one),
            "line": place.map(|place| place.0),
            "column": place.map(|place| place.1),
            "checks": case.answers.len(),
            "minutes": one.minutes,
            "steps": one.steps.iter().map(step).collect::<Vec<_>>(),
        })
    };
    let rows: Vec<Value> = worked.iter().zip(places).map(row).collect();
    json!({
        "tree": model.id,
        "cases": rows,
        "failed": failed(worked).count(),
    })
}
