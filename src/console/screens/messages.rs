//! What was said since the start.

use crate::console::page::Page;
use crate::console::state::State;

/// Writes the screen.
pub fn write(page: &mut Page, state: &State) {
    for message in &state.messages {
        page.text(message);
    }
}
