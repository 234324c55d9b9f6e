//! Two issues of a tree side by side: what changed in words, and what that does.

use serde_json::{Value, json};

use crate::base::text::{pad, plural, wrap};
use crate::diagnosis::cause::Part;
use crate::diagnosis::inference::Belief;
use crate::diagnosis::model::Model;
use crate::diagnosis::ranking::{ranking, rounded};
use crate::diagnosis::worked_case::{Outcome, Worked};

/// Lines are at most this wide.
const COLUMNS: usize = 78;
/// Columns of a cause.
const CAUSE: usize = 34;
/// A share that moved by less than this of 100 is not worth a line, where its place is the same.
const MOVED: f64 = 0.05;

/// One issue: the tree, what is believed under the report alone, and its cases.
#[derive(Debug)]
pub struct Issue<'a> {
    /// The tree.
    pub model: &'a Model,
    /// Under the report alone.
    pub belief: &'a Belief,
    /// Its cases.
    pub worked: &'a [Worked],
}

/// A cause in two issues: place from 1, and share; `None` where it is not there.
struct Row<'a> {
    id: &'a str,
    old: Option<(usize, f64)>,
    new: Option<(usize, f64)>,
}

/// A case in two issues: who leads, with what share, and whether that was expected.
struct CaseRow<'a> {
    name: &'a str,
    old: Option<(String, f64, bool)>,
    new: Option<(String, f64, bool)>,
}

fn places<'a>(issue: &Issue<'a>) -> Vec<(&'a str, usize, f64)> {
    let rows = ranking(issue.model, issue.belief, Part::Cause);
    let place = |(at, row): (usize, &crate::diagnosis::ranking::Ranked)| {
        let id = issue.model.causes[row.event].id.as_str();
        (id, at + 1, row.probability)
    };
    rows.iter().enumerate().map(place).collect()
}

fn rows<'a>(old: &Issue<'a>, new: &Issue<'a>) -> Vec<Row<'a>> {
    let (before, after) = (places(old), places(new));
    let find = |list: &[(&str, usize, f64)], id: &str| {
        let found = list.iter().find(|(other, ..)| *other == id);
        found.map(|(_, place, share)| (*place, *share))
    };
    let mut all: Vec<Row<'_>> = after
        .iter()
        .map(|(id, place, share)| Row {
            id,
            old: find(&before, id),
            new: Some((*place, *share)),
        })
        .collect();
    let gone = before.iter().filter(|(id, ..)| find(&after, id).is_none());
    all.extend(gone.map(|(id, place, share)| Row {
        id,
        old: Some((*place, *share)),
        new: None,
    }));
    all
}

fn case_rows<'a>(old: &Issue<'a>, new: &Issue<'a>) -> Vec<CaseRow<'a>> {
    fn all<'a>(issue: &Issue<'a>) -> Vec<(&'a str, (String, f64, bool))> {
        let one = |worked: &Worked| {
            let leads = worked.steps.last().and_then(|step| step.leads);
            let (id, share) = leads.map_or(("nothing can be true", 0.0), |(event, share)| {
                (issue.model.causes[event].id.as_str(), share)
            });
            let fine = worked.outcome == Outcome::AsExpected;
            let name = issue.model.cases[worked.case].name.as_str();
            (name, (id.to_owned(), share, fine))
        };
        issue.worked.iter().map(one).collect()
    }
    let (before, after) = (all(old), all(new));
    let find = |list: &[(&str, (String, f64, bool))], name: &str| {
        let found = list.iter().find(|(other, _)| *other == name);
        found.map(|(_, row)| row.clone())
    };
    let mut rows: Vec<CaseRow<'_>> = after
        .iter()
        .map(|(name, row)| CaseRow {
            name,
            old: find(&before, name),
            new: Some(row.clone()),
        })
        .collect();
    let gone = before
        .iter()
        .filter(|(name, _)| find(&after, name).is_none());
    rows.extend(gone.map(|(name, row)| CaseRow {
        name,
        old: Some(row.clone()),
        new: None,
    }));
    rows
}

/// Whether a cause moved enough to be shown.
fn moved(row: &Row<'_>) -> bool {
    match (row.old, row.new) {
        (Some((was, before)), Some((is, after))) => {
            was != is || (100.0 * (after - before)).abs() >= MOVED
        }
        _ => true,
    }
}

/// The whole for people.
pub fn difference_text(changes: &[String], old: &Issue<'_>, new: &Issue<'_>) -> String {
    let mut text = format!(
        "{} -> {}: {}\n",
        issue_name(old.model),
        issue_name(new.model),
        plural(changes.len(), "change")
    );
    for change in changes {
        for (at, line) in wrap(change, COLUMNS - 4).iter().enumerate() {
            let indent = if at == 0 { "  " } else { "    " };
            text.push_str(&format!("{indent}{line}\n"));
        }
    }
    let [before, after] = [old, new].map(|issue| issue.model.priors.top);
    text.push_str(&format!(
        "\nChance of the top per parking: {before:.4e} -> {after:.4e}\n"
    ));
    let rows = rows(old, new);
    let shown: Vec<&Row<'_>> = rows.iter().filter(|row| moved(row)).collect();
    if shown.is_empty() {
        text.push_str("No cause stands elsewhere before any check.\n");
    } else {
        text.push_str("Causes before any check, of 100 jobs, and place in the ranking:\n");
    }
    for row in shown {
        let side = |side: Option<(usize, f64)>| {
            side.map_or("not there".to_owned(), |(place, share)| {
                format!("{:.2} ({place})", 100.0 * share)
            })
        };
        text.push_str(&format!(
            "  {} {:>12} -> {}\n",
            pad(row.id, CAUSE),
            side(row.old),
            side(row.new)
        ));
    }
    text.push_str(&case_text(&case_rows(old, new)));
    text
}

fn issue_name(model: &Model) -> String {
    let version = model.version.as_deref();
    version.map_or(model.id.clone(), |version| {
        format!("{} {version}", model.id)
    })
}

fn case_text(rows: &[CaseRow<'_>]) -> String {
    let mut text = String::new();
    let mut same = 0;
    for row in rows {
        let side = |side: &Option<(String, f64, bool)>| match side {
            None => "not there".to_owned(),
            Some((id, share, fine)) => {
                let mark = if *fine { "" } else { ", not as expected" };
                format!("{id} at {share:.3}{mark}")
            }
        };
        let alike = match (&row.old, &row.new) {
            (Some(old), Some(new)) => {
                old.0 == new.0 && old.2 == new.2 && rounded(old.1 - new.1).abs() < 5e-4
            }
            _ => false,
        };
        if alike {
            same += 1;
            continue;
        }
        text.push_str(&format!(
            "  case `{}`: {} -> {}\n",
            row.name,
            side(&row.old),
            side(&row.new)
        ));
    }
    let head = if text.is_empty() {
        ""
    } else {
        "Cases, and what leads in the end:\n"
    };
    format!("{head}{text}{} come out as before.\n", plural(same, "case"))
}

/// The same for other programs.
pub fn difference_json(changes: &[String], old: &Issue<'_>, new: &Issue<'_>) -> Value {
    let side = |side: Option<(usize, f64)>| {
        side.map(|(place, share)| json!({"place": place, "probability": share}))
    };
    let causes: Vec<Value> = rows(old, new)
        .iter()
        .map(|row| json!({"id": row.id, "old": side(row.old), "new": side(row.new)}))
        .collect();
    let side = |side: &Option<(String, f64, bool)>| {
        side.as_ref().map(
            |(id, share, fine)| json!({"leads": id, "probability": share, "as_expected": fine}),
        )
    };
    let cases: Vec<Value> = case_rows(old, new)
        .iter()
        .map(|row| json!({"name": row.name, "old": side(&row.old), "new": side(&row.new)}))
        .collect();
    json!({
        "old": issue_name(old.model),
        "new": issue_name(new.model),
        "changes": changes,
        "top": {"old": old.model.priors.top, "new": new.model.priors.top},
        "causes": causes,
        "cases": cases,
    })
}
