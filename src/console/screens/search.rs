//! Search: what is typed, and what was found by it.

use crate::console::page::Page;
use crate::console::search::found;
use crate::console::state::State;

/// Writes the screen. Enter goes to what is marked.
pub fn write(page: &mut Page, state: &State) {
    page.strong("Words of a check, a cause, a part, an entry or a key, in any order");
    page.input(&state.input);
    let results = found(state, &state.input);
    if results.is_empty() && !state.input.trim().is_empty() {
        page.text("Nothing holds these words.");
    }
    for (place, result) in results.iter().enumerate() {
        page.item(place, &format!("{:<7} {}", result.kind, result.words));
    }
}
