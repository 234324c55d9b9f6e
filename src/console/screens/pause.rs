//! Where you were, for when you come back.

use crate::console::state::State;
use crate::report::pause_card::pause_card;

/// The lines of the screen.
pub fn texts(state: &State) -> Vec<String> {
    pause_card(&state.job, &state.name, state.now)
}
