//! What a key can mean.

use super::state::Screen;

/// What the person wants.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Action {
    /// Answer with the choice of this digit.
    Digit(char),
    /// A letter of what is being typed.
    Type(char),
    /// Rub out the last letter.
    Erase,
    /// Rub out everything that was typed.
    Clear,
    /// Take what was typed.
    Send,
    /// Start a typed command.
    Command,
    /// Take what is marked.
    Accept,
    /// Move the mark, or the page.
    Move(Move),
    /// Take back the last entry.
    Undo,
    /// Put back what was taken back.
    Redo,
    /// Show a screen.
    Show(Screen),
    /// Turn to the other sheet of the schematic.
    Sheet,
    /// Look at the schematic closer, or from further away.
    Zoom,
    /// A timer that is over was heard.
    Heard,
    /// Step to the next look.
    Look,
    /// Step to the next characters for lines.
    Lines,
    /// The screen alone, or with the panels beside it.
    Focus,
    /// Go back one screen.
    Back,
    /// Give the terminal to the shell for a while.
    Suspend,
    /// Leave; nothing to save.
    Quit,
}

/// A way to move.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Move {
    /// One up.
    Up,
    /// One down.
    Down,
    /// One screen up.
    PageUp,
    /// One screen down.
    PageDown,
    /// To the first.
    First,
    /// To the last.
    Last,
}
