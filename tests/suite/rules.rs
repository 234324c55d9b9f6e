//! The rules of a well-made tree: for each a document that breaks it alone, and one that nearly does.

use crate::run::{expect_file, root, stillwheel_in};
use stillwheel::authoring::rules::RULES;

#[test]
fn every_rule_has_a_document_that_breaks_it_and_one_that_does_not() {
    let folder = root().join("tests/rules");
    for rule in RULES {
        let bad = format!("{}-bad.yaml", rule.name);
        let run = stillwheel_in(&folder, &["tree", "check", &bad], "");
        // A warning refuses nothing.
        assert_eq!(run.code, 0, "{bad}: {}", run.out);
        expect_file(&folder.join(&bad).with_extension("txt"), &run.out);
        let codes: Vec<&str> = run
            .out
            .lines()
            .filter_map(|line| line.strip_prefix("warning["))
            .filter_map(|line| line.split(']').next())
            .collect();
        assert_eq!(codes, [rule.code.id], "{bad}: {}", run.out);
        let good = format!("{}-good.yaml", rule.name);
        let run = stillwheel_in(&folder, &["tree", "check", &good], "");
        assert_eq!((run.code, run.err.as_str()), (0, ""), "{good}: {}", run.out);
        assert!(!run.out.contains("warning["), "{good}: {}", run.out);
    }
}

/// Every rule stands in its file, and every file is in the list.
#[test]
fn every_rule_is_listed() {
    let folder = root().join("src/authoring/rules");
    let mut files: Vec<String> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .map(|path| {
            path.file_stem()
                .unwrap()
                .to_str()
                .unwrap()
                .replace('_', "-")
        })
        .filter(|name| name != "whole")
        .collect();
    files.sort();
    let mut names: Vec<&str> = RULES.iter().map(|rule| rule.name).collect();
    names.sort_unstable();
    assert_eq!(files, names);
    let mut ids: Vec<&str> = RULES.iter().map(|rule| rule.code.id).collect();
    ids.sort_unstable();
    let in_order: Vec<&str> = RULES.iter().map(|rule| rule.code.id).collect();
    assert_eq!(ids, in_order);
}
