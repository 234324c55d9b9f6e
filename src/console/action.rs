//! What a key can mean.

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
    /// Take the marked answer.
    Accept,
    /// Mark the answer above.
    Up,
    /// Mark the answer below.
    Down,
    /// Take back the last entry.
    Undo,
    /// Put back what was taken back.
    Redo,
    /// Show what speaks for and against the causes.
    Why,
    /// Show every entry.
    Log,
    /// Show where you were.
    Pause,
    /// Show the ways to end.
    Ends,
    /// Show what was said.
    Messages,
    /// Step to the next look.
    Look,
    /// Show the keys of this screen.
    Help,
    /// Go back one screen.
    Back,
    /// Give the terminal to the shell for a while.
    Suspend,
    /// Leave; nothing to save.
    Quit,
}
