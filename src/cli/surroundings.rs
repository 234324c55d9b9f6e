//! What the program was started in: terminal or pipe, colour or not.

use std::io::IsTerminal;

/// What the environment says, read once.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Surroundings {
    /// Whether a full screen can be drawn: input and output are terminals that can move a cursor.
    pub full_screen: bool,
    /// Whether colour may be used.
    pub colour: bool,
}

impl Surroundings {
    /// Reads the environment.
    ///
    /// `NO_COLOR` counts when set and not empty (the convention of that name, as quoted in
    /// public issue trackers). `TERM` unset, empty or `dumb` means no full screen.
    pub fn read() -> Self {
        let variable = |name: &str| std::env::var_os(name).unwrap_or_default();
        let term = variable("TERM");
        let able = !term.is_empty() && term != "dumb";
        let terminals = std::io::stdin().is_terminal() && std::io::stdout().is_terminal();
        Self {
            full_screen: terminals && able,
            colour: variable("NO_COLOR").is_empty(),
        }
    }
}
