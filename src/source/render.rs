//! Turns problems into text: with the line they stand in, or one line each for editors.

use std::ops::Range;

use annotate_snippets::{AnnotationKind, Group, Level, Renderer, Snippet};

use super::code::Severity;
use super::file::SourceFiles;
use super::place::Place;
use super::problem::{Problem, location};
use crate::base::text::plural;

/// A long line is shown only around the problem, this many columns wide.
const TERM_WIDTH: usize = 100;

/// One problem with its source line, the stretch marked, and its hint.
pub fn snippet(problem: &Problem, files: &SourceFiles) -> String {
    let level = match problem.code.severity {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
    };
    let title = level.primary_title(&problem.message).id(problem.code.id);
    let mut group = Group::with_title(title);
    group = group.element(marked(&problem.place, None, files));
    if let Some((place, label)) = &problem.second {
        group = group.element(marked(place, Some(label), files));
    }
    if let Some(hint) = &problem.hint {
        group = group.element(Level::HELP.message(hint.as_str()));
    }
    Renderer::plain().term_width(TERM_WIDTH).render(&[group])
}

/// The source with one stretch marked; the second place of a problem carries its label.
fn marked<'a>(
    place: &Place,
    label: Option<&'a str>,
    files: &'a SourceFiles,
) -> Snippet<'a, annotate_snippets::Annotation<'a>> {
    let file = files.get(place.file);
    let kind = if label.is_some() {
        AnnotationKind::Context
    } else {
        AnnotationKind::Primary
    };
    // Only the lines around the place go in: a two-megabyte text would be copied otherwise.
    let (window, first_line, bytes) = window(&file.text, &place.bytes);
    Snippet::source(window)
        .line_start(first_line)
        .path(file.name.as_str())
        .annotation(kind.span(bytes).label(label))
}

/// The lines a stretch touches, the number of the first, and the stretch counted from there.
fn window<'a>(text: &'a str, bytes: &Range<usize>) -> (&'a str, usize, Range<usize>) {
    let start = text.floor_char_boundary(bytes.start.min(text.len()));
    let end = text.floor_char_boundary(bytes.end.clamp(start, text.len()));
    let (before, rest) = text.split_at(start);
    let from = before.rfind('\n').map_or(0, |at| at + 1);
    let inside = rest.split_at(end - start);
    let to = inside.1.find('\n').map_or(text.len(), |at| end + at);
    let line = before.matches('\n').count() + 1;
    let shown = text.get(from..to).unwrap_or(text);
    (shown, line, start - from..end - from)
}

/// One problem in one line: `FILE:LINE:COL: error[Y009]: message (hint)`.
pub fn line(problem: &Problem, files: &SourceFiles) -> String {
    let hint = problem
        .hint
        .as_ref()
        .map_or_else(String::new, |hint| format!(" ({hint})"));
    format!(
        "{}: {}[{}]: {}{hint}",
        location(problem, files),
        problem.code.severity.word(),
        problem.code.id,
        problem.message,
    )
}

/// `2 errors and 1 warning`, or `no problems`.
pub fn count_line(problems: &[Problem]) -> String {
    let errors = problems.iter().filter(|p| p.is_error()).count();
    let warnings = problems.len() - errors;
    match (errors, warnings) {
        (0, 0) => "no problems".to_owned(),
        (0, w) => plural(w, "warning"),
        (e, 0) => plural(e, "error"),
        (e, w) => format!("{} and {}", plural(e, "error"), plural(w, "warning")),
    }
}
