//! `tree check FILE...`: every problem of every document, all at once.

use serde_json::json;

use crate::authoring::desk::Desk;
use crate::authoring::document::{self, Document};
use crate::base::text::plural;
use crate::cli::args::CheckArguments;
use crate::cli::{exit, output};
use crate::source::problem::{self, Problem};
use crate::source::render;

/// Checks documents and prints what is wrong with them.
pub fn run(arguments: &CheckArguments) -> anyhow::Result<u8> {
    let mut desk = Desk::default();
    let mut notes = Vec::new();
    for name in &arguments.files {
        // Problems of one document must not make the next one look broken.
        let before = std::mem::take(&mut desk.problems);
        let found = document::any(&mut desk, name, arguments.aircraft.as_deref());
        if matches!(found, Some(Document::Tree(None))) {
            notes.push(format!(
                "{name}: no aircraft named, so only the structure was looked at"
            ));
        }
        notes.append(&mut desk.notes);
        let own = std::mem::replace(&mut desk.problems, before);
        desk.problems.extend(own);
    }
    problem::sort(&mut desk.problems);
    if arguments.json {
        output::print_json(&as_json(&desk, &notes))?;
    } else {
        output::print(&as_text(
            &desk,
            &notes,
            arguments.files.len(),
            arguments.lines,
        ))?;
    }
    Ok(if desk.unreadable {
        exit::FILE
    } else if desk.has_errors() {
        exit::PROBLEMS
    } else {
        exit::FINE
    })
}

/// Problems as text: one line each, or with their snippets, notes and count.
pub fn as_text(desk: &Desk, notes: &[String], documents: usize, lines: bool) -> String {
    let mut text = String::new();
    for problem in &desk.problems {
        if lines {
            text.push_str(&render::line(problem, &desk.files));
            text.push('\n');
        } else {
            text.push_str(&render::snippet(problem, &desk.files));
            text.push_str("\n\n");
        }
    }
    if !lines {
        for note in notes {
            text.push_str(&format!("note: {note}\n"));
        }
        let documents = plural(documents, "document");
        text.push_str(&format!(
            "{} in {documents}\n",
            render::count_line(&desk.problems)
        ));
    }
    text
}

/// Problems as JSON.
pub fn as_json(desk: &Desk, notes: &[String]) -> serde_json::Value {
    let row = |problem: &Problem| {
        let place = &problem.place;
        let (line, column) = desk.files.line_and_column(place.file, place.bytes.start);
        json!({
            "code": problem.code.id,
            "severity": problem.code.severity.word(),
            "file": desk.files.get(place.file).name,
            "line": line,
            "column": column,
            "message": problem.message,
            "hint": problem.hint,
        })
    };
    let problems: Vec<serde_json::Value> = desk.problems.iter().map(row).collect();
    let errors = desk
        .problems
        .iter()
        .filter(|problem| problem.is_error())
        .count();
    json!({
        "errors": errors,
        "warnings": desk.problems.len() - errors,
        "problems": problems,
        "notes": notes,
    })
}
