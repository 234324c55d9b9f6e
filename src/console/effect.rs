//! What the loop must do after an update.

/// One effect.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Effect {
    /// A new question stands on the screen: drop keys typed before it could be read.
    Guard,
    /// Leave the console.
    Leave,
}
