//! What the program was started in: terminal or pipe, colour or not.

use std::io::IsTerminal;
use std::path::{Path, PathBuf};
use std::time::Duration;

use anyhow::Context;
use etcetera::BaseStrategy;

use super::settings::Settings;
use crate::base::stamp::Stamp;

/// What time it is.
pub fn now() -> Stamp {
    let since = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH);
    // A clock before 1970 counts as 1970; the log shows that it was set back.
    let seconds = since.map_or(0, |since| since.as_secs());
    Stamp::from_seconds(i64::try_from(seconds).unwrap_or(0))
}

/// What the environment says, read once.
#[derive(Debug, Clone, PartialEq)]
pub struct Surroundings {
    /// Whether a full screen can be drawn: input and output are terminals that can move a cursor.
    pub full_screen: bool,
    /// Whether colour may be used.
    pub colour: bool,
    /// Whether the terminal is at the other end of a remote shell.
    pub remote: bool,
    /// Where the settings are read from; `None` where the user has no folder of his own.
    pub settings_file: Option<PathBuf>,
    /// The settings.
    pub settings: Settings,
}

impl Surroundings {
    /// Reads the environment.
    ///
    /// `NO_COLOR` counts when set and not empty (the convention of that name, as quoted in
    /// public issue trackers). `TERM` unset, empty or `dumb` means no full screen. `settings` is
    /// the file that was typed; without it the user's own is read where there is one.
    pub fn read(settings: Option<&Path>) -> Self {
        let variable = |name: &str| std::env::var_os(name).unwrap_or_default();
        let term = variable("TERM");
        let able = !term.is_empty() && term != "dumb";
        let terminals = std::io::stdin().is_terminal() && std::io::stdout().is_terminal();
        let own = || {
            let user = etcetera::choose_base_strategy().ok()?;
            Some(user.config_dir().join("stillwheel").join("settings.yaml"))
        };
        let file = settings.map(Path::to_owned).or_else(own);
        // One that was typed must be there; the user's own may be missing.
        let read = |path: &PathBuf| {
            let wanted = settings.is_some() || path.exists();
            wanted.then(|| Settings::read(&path.display().to_string()))
        };
        Self {
            full_screen: terminals && able,
            colour: variable("NO_COLOR").is_empty(),
            remote: !variable("SSH_CONNECTION").is_empty(),
            settings: file.as_ref().and_then(read).unwrap_or_default(),
            settings_file: file,
        }
    }

    /// How long after a new question keys are dropped. Over a remote shell more of them are on
    /// their way.
    pub fn guard(&self) -> Duration {
        let usual = if self.remote { 600 } else { 250 };
        self.settings.guard.unwrap_or(Duration::from_millis(usual))
    }

    /// The folder of the job files: the one that was typed, the one set, or the user's own.
    pub fn jobs_folder(&self, typed: Option<&Path>) -> anyhow::Result<PathBuf> {
        let named = typed
            .map(Path::to_owned)
            .or_else(|| self.settings.jobs.clone());
        if let Some(named) = named {
            return Ok(named);
        }
        let user = etcetera::choose_base_strategy();
        let user = user.context("the user has no folder of his own; name one with --jobs DIR")?;
        Ok(user.data_dir().join("stillwheel").join("jobs"))
    }
}
