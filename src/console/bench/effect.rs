//! What an action wants from outside.

/// One effect.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Effect {
    /// Write the course into this file.
    Save(String),
    /// Read a course from this file.
    Load(String),
    /// Give the terminal to the shell for a while.
    Suspend,
    /// Leave.
    Leave,
}
