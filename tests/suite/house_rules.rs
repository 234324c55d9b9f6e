//! Rules of the house that a compiler does not know.

use std::collections::BTreeSet;
use std::process::Command;

use crate::layers::{sources, without_tests};
use crate::run::{files, root};

const TOP_LEVEL: &[&str] = &[
    "Cargo.toml",
    "Cargo.lock",
    "README.md",
    "DEVELOPERS.md",
    "CHANGELOG.md",
    "LICENSE",
    "src",
    "fault-trees",
    "tests",
    "demo-data",
];

const LONGEST_FILE: usize = 400;
const LONGEST_FUNCTION: usize = 60;

#[test]
fn the_top_level_holds_nothing_else() {
    let listed = Command::new("git")
        .args(["ls-files"])
        .current_dir(root())
        .output()
        .expect("git lists the files of the project");
    let text = String::from_utf8(listed.stdout).unwrap();
    let tops: BTreeSet<&str> = text
        .lines()
        .filter_map(|line| line.split('/').next())
        .collect();
    let odd: Vec<&&str> = tops
        .iter()
        .filter(|top| !TOP_LEVEL.contains(top) && !top.starts_with('.'))
        .collect();
    assert!(odd.is_empty(), "{odd:?}");
}

#[test]
fn files_are_short() {
    for path in sources(&root().join("src")) {
        let text = std::fs::read_to_string(&path).unwrap();
        let lines = text.lines().count();
        assert!(
            lines <= LONGEST_FILE,
            "{} has {lines} lines",
            path.display()
        );
    }
}

/// Counts from a line with `fn name` to the closing brace of the same indentation.
#[test]
fn functions_are_short() {
    for path in sources(&root().join("src")) {
        let text = std::fs::read_to_string(&path).unwrap();
        let lines: Vec<&str> = text.lines().collect();
        for (at, line) in lines.iter().enumerate() {
            let body = line.trim_start();
            let starts = [
                "fn ",
                "pub fn ",
                "pub(super) fn ",
                "pub const fn ",
                "const fn ",
            ];
            if !starts.iter().any(|start| body.starts_with(start)) || line.ends_with('}') {
                continue;
            }
            let indent = &line[..line.len() - body.len()];
            let closing = format!("{indent}}}");
            let length = lines[at..]
                .iter()
                .position(|line| **line == closing)
                .unwrap_or(0)
                + 1;
            assert!(
                length <= LONGEST_FUNCTION,
                "{}:{} has {length} lines",
                path.display(),
                at + 1
            );
        }
    }
}

#[test]
fn nothing_unwraps_or_panics_in_the_sources() {
    for path in sources(&root().join("src")) {
        let text = std::fs::read_to_string(&path).unwrap();
        for word in [
            ".unwrap()",
            ".expect(",
            "panic!(",
            "unreachable!(",
            "todo!(",
            "dbg!(",
        ] {
            assert!(
                !without_tests(&text).contains(word),
                "{} has {word}",
                path.display()
            );
        }
    }
}

#[test]
fn colours_are_named_in_the_theme_only() {
    for path in sources(&root().join("src")) {
        let text = std::fs::read_to_string(&path).unwrap();
        let named = text.contains("Color::") || text.contains("style::Color");
        assert!(
            !named || path.ends_with("console/theme.rs"),
            "{}",
            path.display()
        );
    }
}

#[test]
fn every_code_is_explained_and_has_a_fixture() {
    let mut texts = files("tests/bad-input", "txt");
    texts.extend(files("tests/documents", "txt"));
    texts.extend(files("tests/rules", "txt"));
    texts.extend(files("tests/exchange", "txt"));
    let expected: Vec<String> = texts
        .iter()
        .map(|path| std::fs::read_to_string(path).unwrap())
        .collect();
    let mut ids = BTreeSet::new();
    for code in stillwheel::source::codes::all() {
        assert!(ids.insert(code.id), "{} stands twice", code.id);
        assert!(code.text.len() > 40, "{} is not explained", code.id);
        assert!(code.text.ends_with('.'), "{}", code.id);
        let shown = format!("[{}]", code.id);
        assert!(
            expected.iter().any(|text| text.contains(&shown)),
            "{} has no fixture in tests/bad-input",
            code.id
        );
    }
}

#[test]
fn the_readme_holds_the_keys_and_the_commands() {
    let readme = std::fs::read_to_string(root().join("README.md")).unwrap();
    for (key, help) in stillwheel::console::keys::help_rows() {
        assert!(
            readme.contains(&format!("| {key} | {help} |")),
            "{key} {help}"
        );
    }
    for row in stillwheel::console::command::COMMANDS {
        let words = format!("{} {}", row.name, row.argument);
        let letter = row
            .letter
            .map_or(String::new(), |letter| letter.to_string());
        let line = format!("| :{} | {letter} | {} |", words.trim_end(), row.help);
        assert!(readme.contains(&line), "{line}");
    }
    for command in [
        "cargo run --release",
        "cargo test",
        "tree check fault-trees/*.yaml",
        "| rank TREE |",
        "| hold AIRCRAFT |",
        "| readings AIRCRAFT |",
    ] {
        assert!(readme.contains(command), "{command}");
    }
}

#[test]
fn a_key_means_one_thing_at_a_time() {
    use stillwheel::console::keys::BINDINGS;
    for (at, row) in BINDINGS.iter().enumerate() {
        assert!(row.help.ends_with('.'), "{}", row.shown);
        for other in &BINDINGS[at + 1..] {
            let shared = row.keys.iter().any(|key| other.keys.contains(key));
            assert!(!shared, "{} and {}", row.help, other.help);
        }
    }
}
