//! What the program was started in: terminal or pipe, colour or not.

use std::io::IsTerminal;
use std::path::{Path, PathBuf};

use anyhow::Context;
use etcetera::BaseStrategy;

use crate::base::stamp::Stamp;

/// What time it is.
pub fn now() -> Stamp {
    let since = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH);
    // A clock before 1970 counts as 1970; the log shows that it was set back.
    let seconds = since.map_or(0, |since| since.as_secs());
    Stamp::from_seconds(i64::try_from(seconds).unwrap_or(0))
}

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

/// The folder of the job files: the one that was typed, or the user's own.
pub fn jobs_folder(typed: Option<&Path>) -> anyhow::Result<PathBuf> {
    if let Some(typed) = typed {
        return Ok(typed.to_owned());
    }
    let user = etcetera::choose_base_strategy();
    let user = user.context("the user has no folder of his own; name one with --jobs DIR")?;
    Ok(user.data_dir().join("stillwheel").join("jobs"))
}
