//! Every entry of the job.

use crate::console::state::State;
use crate::report::log_text::log_lines;

/// The lines of the screen.
pub fn texts(state: &State) -> Vec<String> {
    let mut lines = vec!["No.  time   entry (nothing is ever deleted)".to_owned()];
    lines.extend(log_lines(&state.job));
    lines.push("Change one with :change NUMBER ANSWER.".to_owned());
    lines
}
