//! `tree derive`: lines from the plant, and back into the tree.

use crate::run::{expect_file, root, stillwheel, stillwheel_in};

fn derived(tree: &str) -> String {
    let run = stillwheel(&["tree", "derive", tree]);
    assert_eq!(run.code, 0, "{}", run.err);
    run.out
}

#[test]
fn lines_come_with_their_readings() {
    let text = derived("tests/documents/disagrees.yaml");
    expect_file(&root().join("tests/documents/disagrees-derived.txt"), &text);
}

/// A leak reads low and a transmitter reads high: together the gauge looks well, and neither
/// single line may decide. From the traps of the trade: common practice, no source.
#[test]
fn a_pair_that_hides_itself_stands_above_both_of_its_faults() {
    let text = derived("tests/documents/masks.yaml");
    let at = |words: &str| {
        text.find(words)
            .unwrap_or_else(|| panic!("{words} in\n{text}"))
    };
    let pair = at("when: [valve-seat-leaks, transmitter-high], shares: [0.01, 0.98, 0.01]");
    let leak = at("when: valve-seat-leaks, shares: [0.97, 0.02, 0.01]");
    let high = at("when: transmitter-high, shares: [0.01, 0.02, 0.97]");
    assert!(pair < leak && pair < high, "{text}");
}

/// The words under a check of a derived text.
fn lines_of(text: &str, check: &str) -> String {
    let head = format!("  {check}:\n");
    let from = text.find(&head).unwrap() + head.len();
    let lines = text[from..]
        .lines()
        .take_while(|line| line.starts_with("    "));
    lines.map(|line| format!("{line}\n")).collect()
}

#[test]
fn derived_lines_put_into_the_tree_contradict_nothing() {
    let path = root().join("tests/documents/masks.yaml");
    let tree = std::fs::read_to_string(path).unwrap();
    let own = "    lines:\n      - {otherwise: [0.3, 0.4, 0.3]}\n";
    assert!(tree.contains(own));
    let folder = tempfile::tempdir().unwrap();
    let agree = |text: &str| {
        std::fs::write(folder.path().join("tree.yaml"), text).unwrap();
        let run = stillwheel_in(
            folder.path(),
            &["tree", "agree", "--lines", "tree.yaml"],
            "",
        );
        run.out + &run.err
    };
    assert!(agree(&tree).contains("G002"), "{}", agree(&tree));
    let lines = lines_of(&derived("tests/documents/masks.yaml"), "indicator");
    let after = agree(&tree.replace(own, &lines));
    assert!(!after.contains("G00"), "{after}");
}

#[test]
fn json_holds_the_same_lines() {
    let run = stillwheel(&["tree", "derive", "--json", "tests/documents/masks.yaml"]);
    let value: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(value[0]["check"], "indicator");
    assert_eq!(
        value[0]["lines"][0]["when"],
        serde_json::json!(["valve-seat-leaks", "transmitter-high"])
    );
    for line in value[0]["lines"].as_array().unwrap() {
        let sum: f64 = line["shares"]
            .as_array()
            .unwrap()
            .iter()
            .filter_map(serde_json::Value::as_f64)
            .sum();
        assert!((sum - 1.0).abs() < 1e-12, "{line}");
    }
}

#[test]
fn a_tree_without_readings_says_so() {
    assert!(derived("tests/documents/small-rules.yaml").contains("no check of this tree"));
}
