//! Roles and their looks. The only place that names a colour.

use ratatui::style::{Color, Modifier, Style};

/// One look for each role.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Theme {
    /// Plain text.
    pub text: Style,
    /// Text that matters most on the screen.
    pub strong: Style,
    /// People can be hurt.
    pub warning: Style,
    /// Aircraft or evidence can be harmed.
    pub caution: Style,
    /// What to do next.
    pub next: Style,
    /// The marked row.
    pub marked: Style,
}

/// No colour: bold and reverse only.
pub const MONO: Theme = Theme {
    text: Style::new(),
    strong: Style::new().add_modifier(Modifier::BOLD),
    warning: Style::new().add_modifier(Modifier::REVERSED.union(Modifier::BOLD)),
    caution: Style::new().add_modifier(Modifier::BOLD),
    next: Style::new().add_modifier(Modifier::BOLD),
    marked: Style::new().add_modifier(Modifier::REVERSED),
};

/// The terminal's own ink and paper, and three of its colours. Yellow and blue are not used as
/// ink, because one of them cannot be read on every paper.
pub const TERMINAL: Theme = Theme {
    text: Style::new(),
    strong: Style::new().add_modifier(Modifier::BOLD),
    warning: Style::new()
        .fg(Color::Red)
        .add_modifier(Modifier::REVERSED.union(Modifier::BOLD)),
    caution: Style::new().fg(Color::Red).add_modifier(Modifier::BOLD),
    next: Style::new().fg(Color::Green).add_modifier(Modifier::BOLD),
    marked: Style::new().add_modifier(Modifier::REVERSED),
};
