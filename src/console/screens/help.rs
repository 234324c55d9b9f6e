//! The keys and the words of the screen.

use crate::console::command::COMMANDS;
use crate::console::keys::help_rows;
use crate::console::page::Page;

/// Writes the screen.
pub fn write(page: &mut Page) {
    page.strong("Keys, letters in either case");
    for (key, help) in help_rows() {
        page.hanging(9, &format!("  {key:<6} {help}"));
    }
    page.blank();
    page.strong("Commands, after a colon");
    for row in COMMANDS {
        let words = format!("{} {}", row.name, row.argument);
        page.hanging(25, &format!("  {words:<22} {}", row.help));
    }
    page.blank();
    page.strong("Words");
    for text in [
        "of 100   of 100 jobs like this one, how many had this cause.",
        "<1       possible, and less than one in 100.",
        "+9       what the last entry moved, in points of 100.",
        "0        cannot check: the search goes on without it.",
        "OLD      read more than 15 minutes ago; read it again before you rely on it.",
    ] {
        page.hanging(11, &format!("  {text}"));
    }
}
