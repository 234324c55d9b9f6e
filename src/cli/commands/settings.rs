//! `settings`: where the settings file lies, and the file with everything that can be set.

use crate::cli::surroundings::Surroundings;
use crate::cli::{exit, output};

/// Prints the place as a comment, then the file.
pub fn run(surroundings: &Surroundings) -> anyhow::Result<u8> {
    let settings = &surroundings.settings;
    let place = surroundings.settings_file.as_ref().map_or(
        "no place: the user has no folder of his own".to_owned(),
        |path| path.display().to_string(),
    );
    output::print(&format!(
        "# Settings of stillwheel. They are read from:\n#   {place}\n{}",
        settings.file()
    ))?;
    for note in &settings.notes {
        output::complain(&format!("note: {note}\n"));
    }
    Ok(exit::FINE)
}
