//! One thing that is wrong, with its place and one hint.

use super::code::{Code, Severity};
use super::file::SourceFiles;
use super::place::Place;

/// One problem found in a text.
#[derive(Debug, Clone, PartialEq)]
pub struct Problem {
    /// Which kind of problem.
    pub code: &'static Code,
    /// What was found, in the author's own words; a lower-case sentence without a full stop.
    pub message: String,
    /// Where it stands.
    pub place: Place,
    /// A second place that explains the first, with its label.
    pub second: Option<(Place, String)>,
    /// One hint on how to mend it.
    pub hint: Option<String>,
}

/// How many accepted words a hint lists; more would push the snippet off the screen.
const LISTED: usize = 24;

impl Problem {
    /// A problem at a place.
    pub fn new(code: &'static Code, place: Place, message: impl Into<String>) -> Self {
        Self {
            code,
            message: message.into(),
            place,
            second: None,
            hint: None,
        }
    }

    /// Adds the hint.
    #[must_use]
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }

    /// Adds a `did you mean` hint, or the list of what is accepted where nothing is near.
    #[must_use]
    pub fn suggest(self, wrong: &str, accepted: &[&str]) -> Self {
        match crate::base::suggestion::nearest(wrong, accepted.iter().copied()) {
            Some(near) => self.hint(format!("did you mean `{near}`?")),
            None if accepted.is_empty() => self,
            None if accepted.len() > LISTED => {
                let some = accepted[..LISTED].join(", ");
                let more = accepted.len() - LISTED;
                self.hint(format!("accepted here: {some} and {more} more"))
            }
            None => self.hint(format!("accepted here: {}", accepted.join(", "))),
        }
    }

    /// Adds the second place.
    #[must_use]
    pub fn second(mut self, place: Place, label: impl Into<String>) -> Self {
        self.second = Some((place, label.into()));
        self
    }

    /// Whether the document cannot be used because of it.
    pub fn is_error(&self) -> bool {
        self.code.severity == Severity::Error
    }
}

/// Sorts by file, place and code, and drops exact repeats.
pub fn sort(problems: &mut Vec<Problem>) {
    problems.sort_by(|a, b| {
        let key = |p: &Problem| (p.place.file, p.place.bytes.start, p.code.id);
        key(a).cmp(&key(b)).then_with(|| a.message.cmp(&b.message))
    });
    problems.dedup();
}

/// `FILE:LINE:COL` of a problem.
pub fn location(problem: &Problem, files: &SourceFiles) -> String {
    let place = &problem.place;
    let (line, column) = files.line_and_column(place.file, place.bytes.start);
    format!("{}:{line}:{column}", files.get(place.file).name)
}
