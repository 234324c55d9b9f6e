//! The keys and the words of the screen.

use ratatui::text::Line;

use crate::console::keys::help_rows;
use crate::console::theme::Theme;

/// The lines of the help screen.
pub fn lines(theme: &Theme) -> Vec<Line<'static>> {
    let mut lines = vec![Line::styled("Keys, letters in either case", theme.strong)];
    for (key, help) in help_rows() {
        lines.push(Line::styled(format!("  {key:<6} {help}"), theme.text));
    }
    lines.push(Line::default());
    for text in [
        "of 100   of 100 jobs like this one, how many had this cause.",
        "<1       possible, and less than one in 100.",
        "0        cannot check: the search goes on without it.",
    ] {
        lines.push(Line::styled(format!("  {text}"), theme.text));
    }
    lines
}
