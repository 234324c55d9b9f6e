//! What the loop must do after an update.

use crate::session::entry::What;

/// One effect.
#[derive(Debug, Clone, PartialEq)]
pub enum Effect {
    /// Put an entry on disk, then into the job.
    Enter(What),
    /// Look at the followed file.
    Look,
    /// Give the terminal to the shell for a while.
    Suspend,
    /// Leave the console.
    Leave,
}
