//! The layer rule and the owners of outside crates, held against the sources.

use crate::run::root;
use std::path::{Path, PathBuf};

/// Every layer with the layers it may use. Nothing below `cli` reads arguments or environment.
const MAY_USE: &[(&str, &[&str])] = &[
    ("base", &[]),
    ("source", &["base"]),
    ("plant", &["base"]),
    ("tree", &["base"]),
    ("diagnosis", &["base", "plant", "tree"]),
    ("session", &["base", "diagnosis"]),
    (
        "training",
        &["base", "plant", "tree", "diagnosis", "session"],
    ),
    (
        "report",
        &["base", "plant", "tree", "diagnosis", "session", "training"],
    ),
    (
        "authoring",
        &["base", "source", "plant", "tree", "diagnosis", "report"],
    ),
    (
        "console",
        &["base", "plant", "tree", "diagnosis", "session", "report"],
    ),
    (
        "cli",
        &[
            "base",
            "source",
            "plant",
            "tree",
            "diagnosis",
            "session",
            "training",
            "report",
            "authoring",
            "console",
        ],
    ),
];

/// Outside crates, with the paths below `src` that may name them.
const OWNERS: &[(&str, &[&str])] = &[
    ("petgraph", &["plant/graph.rs", "tree/"]),
    ("saphyr_parser", &["authoring/survey.rs"]),
    (
        "serde_yaml",
        &[
            "authoring/shape.rs",
            "authoring/shape/",
            "authoring/lower/tree.rs",
        ],
    ),
    ("annotate_snippets", &["source/render.rs"]),
    (
        "serde_json",
        &[
            "report/",
            "cli/",
            "session/",
            "authoring/kept.rs",
            "authoring/schema.rs",
        ],
    ),
    ("roxmltree", &["authoring/exchange/"]),
    ("ratatui", &["console/"]),
    ("crossterm", &["console/"]),
    ("signal_hook", &["console/terminal.rs"]),
    ("etcetera", &["cli/surroundings.rs"]),
    ("jiff", &["base/stamp.rs"]),
    (
        "clap_complete",
        &["cli/args.rs", "cli/commands/completions.rs"],
    ),
    ("clap_mangen", &["cli/commands/man.rs"]),
    ("clap", &["cli/args", "cli/commands/", "main.rs"]),
    ("anyhow", &["cli/", "main.rs"]),
    (
        "std::fs",
        &[
            "authoring/desk.rs",
            "cli/",
            "session/follow.rs",
            "session/store",
        ],
    ),
    ("std::env", &["cli/"]),
];

pub fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(sources(&path));
        } else if path.extension().is_some_and(|e| e == "rs") {
            found.push(path);
        }
    }
    found.sort();
    found
}

fn below_src(path: &Path) -> String {
    let short = path.strip_prefix(root().join("src")).unwrap();
    short.to_string_lossy().replace('\\', "/")
}

/// The part of a file before its unit tests: tests may reach further.
pub fn without_tests(text: &str) -> &str {
    text.split("#[cfg(test)]").next().unwrap()
}

#[test]
fn every_layer_uses_only_what_it_may() {
    let mut wrong = Vec::new();
    for path in sources(&root().join("src")) {
        let name = below_src(&path);
        let layer = name.split(['/', '.']).next().unwrap().to_owned();
        if layer == "main" || layer == "lib" {
            continue;
        }
        let row = MAY_USE.iter().find(|(known, _)| *known == layer);
        let (_, allowed) = row.unwrap_or_else(|| panic!("{layer} has no row in the layer table"));
        let text = std::fs::read_to_string(&path).unwrap();
        for found in text.split("crate::").skip(1) {
            let used: String = found
                .chars()
                .take_while(|c| c.is_alphanumeric() || *c == '_')
                .collect();
            let known = MAY_USE.iter().any(|(layer, _)| *layer == used);
            if known && used != layer && !allowed.contains(&used.as_str()) {
                wrong.push(format!("{name} uses {used}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_outside_crate_is_named_where_it_belongs() {
    let mut wrong = Vec::new();
    for path in sources(&root().join("src")) {
        let name = below_src(&path);
        let text = std::fs::read_to_string(&path).unwrap();
        let code: Vec<&str> = without_tests(&text)
            .lines()
            .filter(|line| !line.trim_start().starts_with("//"))
            .collect();
        for (outside, owners) in OWNERS {
            let named = code
                .iter()
                .any(|line| line.contains(&format!("{outside}::")));
            let owned = owners
                .iter()
                .any(|owner| name.starts_with(owner) || name == *owner);
            if named && !owned {
                wrong.push(format!("{name} names {outside}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
