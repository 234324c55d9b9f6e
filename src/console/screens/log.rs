//! Every entry of the job.

use crate::console::page::Page;
use crate::console::state::State;
use crate::report::log_text::log_lines;

/// Writes the screen. Enter on an entry starts its change.
pub fn write(page: &mut Page, state: &State) {
    page.row("  No.  time   entry (nothing is ever deleted; Enter changes one)");
    for (place, line) in log_lines(&state.job).iter().enumerate() {
        page.item(place, line);
    }
}

/// The newest entries, as many as fit, for a panel.
pub fn newest(page: &mut Page, state: &State, rows: usize) {
    let lines = log_lines(&state.job);
    let from = lines.len().saturating_sub(rows);
    for line in lines.iter().skip(from) {
        page.row(line);
    }
}
