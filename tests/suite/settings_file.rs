//! The settings file: what it sets, and what is said of what is not understood.

use std::time::Duration;
use stillwheel::cli::settings::Settings;
use stillwheel::console::glyphs::Lines;
use stillwheel::console::theme::Look;

use crate::run::stillwheel;

fn read(text: &str) -> Settings {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("settings.yaml");
    std::fs::write(&path, text).unwrap();
    Settings::read(path.to_str().unwrap())
}

#[test]
fn what_is_set_counts_and_no_colour_goes_before_the_look() {
    let settings = read(
        "stillwheel: settings 1\nlook: night\nlines: box\nletters: false\nguard: 600 s\nplain: true\n",
    );
    let preferences = settings.preferences(true);
    assert_eq!(preferences.look, Look::Night);
    assert_eq!(preferences.lines, Lines::Box);
    assert!(!preferences.letters);
    assert_eq!(settings.plain, Some(true));
    assert_eq!(settings.preferences(false).look, Look::Mono);
    assert_eq!(
        settings.guard, None,
        "ten minutes would feel like a hung program"
    );
    assert_eq!(settings.notes.len(), 1);
}

#[test]
fn an_unknown_setting_is_named_with_its_line_and_the_rest_counts() {
    let settings = read("stillwheel: settings 1\nlok: day\nlines: box\nlook: pink\n");
    assert_eq!(settings.lines, Some(Lines::Box));
    assert_eq!(settings.look, None);
    assert_eq!(settings.notes.len(), 2, "{:?}", settings.notes);
    assert!(settings.notes[0].contains(":2:1"), "{:?}", settings.notes);
    assert!(settings.notes[0].contains("look"), "{:?}", settings.notes);
    assert!(settings.notes[1].contains(":4:7"), "{:?}", settings.notes);
    // Damaged beyond reading: nothing is set, and that is said.
    let damaged = read("look: [day\n");
    assert!(!damaged.notes.is_empty());
}

#[test]
fn the_file_that_is_printed_is_read_back_the_same() {
    let settings =
        read("stillwheel: settings 1\nlook: day\nguard: 0.5 s\nalone: true\njobs: somewhere\n");
    assert_eq!(settings.guard, Some(Duration::from_millis(500)));
    assert!(settings.notes.is_empty(), "{:?}", settings.notes);
    assert_eq!(read(&settings.file()), settings);
    // With nothing set it holds comments alone, and sets nothing.
    assert_eq!(read(&Settings::default().file()), Settings::default());
    let printed = stillwheel(&["settings", "--settings", "tests/documents/settings.yaml"]);
    assert_eq!(printed.code, 0, "{}", printed.err);
    assert!(printed.out.contains("\nlines: box\n"), "{}", printed.out);
}
