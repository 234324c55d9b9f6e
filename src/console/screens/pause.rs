//! Where you were, for when you come back.

use crate::console::page::Page;
use crate::console::state::State;
use crate::report::pause_card::pause_card;

/// Writes the screen.
pub fn write(page: &mut Page, state: &State) {
    for line in pause_card(&state.job, &state.name, state.now) {
        page.text_kept(&line);
    }
}
