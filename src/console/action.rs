//! What a key can mean.

/// What the person wants.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Action {
    /// Answer with the option at this place.
    Answer(usize),
    /// It cannot be checked, or is not known.
    Cannot,
    /// Take the marked option.
    Accept,
    /// Mark the option above.
    Up,
    /// Mark the option below.
    Down,
    /// Take back the last entry.
    Undo,
    /// Put back what was taken back.
    Redo,
    /// Show what speaks for and against the causes.
    Why,
    /// Show the keys of this screen.
    Help,
    /// Go back one screen.
    Back,
    /// Leave; nothing to save.
    Quit,
}
