//! The table of keys and commands.

use crate::base::text::pad;
use crate::console::bench::table::help_rows;
use crate::console::page::Page;

/// Writes the pane.
pub fn write(page: &mut Page) {
    page.strong("Keys, and commands after a colon");
    for (key, typed, help) in help_rows() {
        let head = format!("{} {}", pad(key, 6), pad(&typed, 14));
        if page.columns < 60 {
            page.hanging(
                7,
                &format!(
                    "{} {typed}{} {help}",
                    pad(key, 6),
                    if typed.is_empty() { "" } else { ":" }
                ),
            );
        } else if typed.chars().count() > 14 {
            page.text_kept(&format!("{} {typed}", pad(key, 6)));
            page.hanging(22, &format!("{}{help}", " ".repeat(22)));
        } else {
            page.hanging(22, &format!("{head} {help}"));
        }
    }
    page.blank();
    page.text("A reading with * differs from the healthy twin by more than its instruments do. What waits for its own time after the pumps stopped says not yet.");
}
