//! `tree cover`: which check tells which causes apart, and what a further one should see.

use crate::run::{expect_file, root, stillwheel};
use serde_json::Value;

const TREE: &str = "tests/documents/coverage.yaml";

fn json(arguments: &[&str]) -> Value {
    let run = stillwheel(arguments);
    assert_eq!(run.code, 0, "{}", run.err);
    serde_json::from_str(&run.out).unwrap()
}

fn pair<'a>(found: &'a Value, one: &str, other: &str) -> &'a Value {
    let pairs = found["pairs"].as_array().unwrap();
    let is = |row: &&Value| row["one"] == one && row["other"] == other;
    pairs.iter().find(is).unwrap()
}

#[test]
fn a_pair_that_nothing_tells_apart_is_named_first() {
    let run = stillwheel(&["tree", "cover", TREE]);
    assert_eq!(run.code, 0, "{}", run.err);
    expect_file(&root().join("tests/documents/coverage.txt"), &run.out);
    let found = json(&["tree", "cover", "--json", TREE]);
    let twins = serde_json::json!(["left-pawl-worn", "right-pawl-worn"]);
    assert_eq!(found["groups"], serde_json::json!([twins]));
    assert_eq!(found["pairs"][0]["one"], "left-pawl-worn");
    assert_eq!(found["pairs"][0]["other"], "right-pawl-worn");
    assert!(found["pairs"][0]["best"].is_null());
    // A lamp that is no cause tells nothing about causes.
    let lamp = found["checks"].as_array().unwrap();
    let lamp = lamp.iter().find(|row| row["check"] == "lamp").unwrap();
    assert_eq!(lamp["pairs"], 0);
    // A surer look at the seat is worth most: the lever errs, and the seat leaks most often. Once
    // it is settled, one of the twins is what is left to see.
    let missing = ["seat-leaks", "left-pawl-worn"];
    for (row, wanted) in found["missing"].as_array().unwrap().iter().zip(missing) {
        assert_eq!(row["node"], wanted);
    }
    let other = &found["missing"][1]["other"];
    assert_eq!(other, &serde_json::json!(["right-pawl-worn"]));
}

/// A sure check gives one bit about a fair coin; one that errs in 1 of 10 gives 1 - H(0.1) = 0.531
/// bits (capacity of the binary symmetric channel, C. E. Shannon, Bell System Technical Journal 27,
/// 1948; the figure from memory, worked out here again).
#[test]
fn bits_are_those_of_a_channel() {
    let found = json(&["tree", "cover", "--json", TREE]);
    let bits = |one, other| pair(&found, one, other)["bits"].as_f64().unwrap();
    let h = |p: f64| -p * p.log2() - (1.0 - p) * (1.0 - p).log2();
    assert!((bits("hose-split", "seat-leaks") - 1.0).abs() < 1e-12);
    assert!((bits("left-pawl-worn", "seat-leaks") - 0.531).abs() < 5e-4);
    assert!((bits("left-pawl-worn", "seat-leaks") - (1.0 - h(0.1))).abs() < 1e-12);
    // Shares are those of the report alone: 1, 1, 2 and 4 of about 8 in all.
    let twins = pair(&found, "left-pawl-worn", "right-pawl-worn");
    assert!((twins["share"].as_f64().unwrap() - 0.25).abs() < 2e-3);
    // Nothing tells the twins apart, so the bound is the root of the product of their shares.
    assert!((twins["mistaken"].as_f64().unwrap() - 0.125).abs() < 1e-3);
    // 2 sqrt(0.1 x 0.9) = 0.6 of that of a coin; the lever is the one check that errs.
    let other = pair(&found, "left-pawl-worn", "seat-leaks");
    let bound = (0.125f64 * 0.5).sqrt() * 0.6;
    assert!((other["mistaken"].as_f64().unwrap() - bound).abs() < 2e-3);
}

#[test]
fn one_check_shows_the_causes_by_answer() {
    let run = stillwheel(&["tree", "cover", "--check", "lever-stays", TREE]);
    assert!(
        run.out
            .contains("no, likeliest with:\n  0.900  left-pawl-worn"),
        "{}",
        run.out
    );
    let run = stillwheel(&["tree", "cover", "--check", "lever-stay", TREE]);
    assert_eq!(run.code, 2);
    assert!(
        run.err.contains("did you mean `lever-stays`?"),
        "{}",
        run.err
    );
}

/// What `tree agree` says of a shipped tree is said here too, by name.
#[test]
fn groups_are_those_of_the_comparison_with_the_plant() {
    let tree = "tests/documents/disagrees.yaml";
    let found = json(&["tree", "cover", "--plant", "--json", tree]);
    let groups = serde_json::json!([["brake-leaks", "fitting-weeps"]]);
    assert_eq!(found["groups"], groups);
    // A brake that leaks and a fitting that weeps wet different parts, which no check of it reads.
    let unread = found["unread"].as_array().unwrap();
    let tells = unread.iter().any(|row| {
        let pairs = row["pairs"].as_array().unwrap();
        let apart = |p: &Value| p["one"] == "brake-leaks" && p["other"] == "fitting-weeps";
        pairs.iter().any(apart)
    });
    assert!(tells, "{unread:#?}");
}
