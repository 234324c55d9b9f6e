//! What the next person has to know, as one page; Enter begins the hand-over.

use crate::console::page::Page;
use crate::console::state::State;
use crate::report::write_up::hand_over;

/// Writes the screen.
pub fn write(page: &mut Page, state: &State) {
    page.text("Enter hands over: it asks what is open, then the next person reads back.");
    for block in hand_over(&state.job, state.now) {
        page.strong(&block.title);
        for line in &block.lines {
            page.indented(2, line);
        }
    }
    if state.job.field("accepted") != Some("yes") {
        page.text("It is not complete until the next person has read back and accepted.");
    }
}
