//! The ways to end.

use crate::session::end_state::END_STATES;

/// The lines of the screen.
pub fn texts() -> Vec<String> {
    let rows = END_STATES.iter().enumerate();
    let mut lines: Vec<String> = rows
        .map(|(place, end)| format!("  {:>2}  {}", place + 1, end.title))
        .collect();
    lines.push("Choose with :end NUMBER. None of them says serviceable.".to_owned());
    lines
}
