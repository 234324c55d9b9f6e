//! The ways to end.

use crate::console::page::Page;
use crate::session::end_state::END_STATES;

/// Writes the screen. Enter writes the command of the marked one, for a second Enter.
pub fn write(page: &mut Page) {
    for (place, end) in END_STATES.iter().enumerate() {
        page.item(place, &format!("{:>2}  {}", place + 1, end.title));
    }
    page.text("Choose with Enter, or :end NUMBER. None of them says serviceable.");
}
