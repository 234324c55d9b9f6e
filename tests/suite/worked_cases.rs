//! `tree cases`: every case worked, and the step at which one comes out otherwise.

use crate::run::{expect_file, root, stillwheel};
use serde_json::Value;

const FAILING: &str = "tests/documents/failing-cases.yaml";

fn json(tree: &str, code: i32) -> Value {
    let run = stillwheel(&["tree", "cases", "--json", tree]);
    assert_eq!(run.code, code, "{}", run.err);
    serde_json::from_str(&run.out).unwrap()
}

#[test]
fn a_case_that_fails_is_shown_at_the_step_that_differs() {
    let run = stillwheel(&["tree", "cases", FAILING]);
    assert_eq!(run.code, 1, "{}", run.err);
    expect_file(&root().join("tests/documents/failing-cases.txt"), &run.out);
    let found = json(FAILING, 1);
    let text = std::fs::read_to_string(root().join(FAILING)).unwrap();
    let at = |name: &str| -> String {
        let cases = found["cases"].as_array().unwrap();
        let case = cases.iter().find(|case| case["name"] == name).unwrap();
        let (Some(line), Some(column)) = (case["line"].as_u64(), case["column"].as_u64()) else {
            return String::new();
        };
        let line = text.lines().nth(line as usize - 1).unwrap();
        line[column as usize - 1..]
            .split(':')
            .next()
            .unwrap()
            .to_owned()
    };
    assert_eq!(at("as it should be"), "");
    // Known that nobody touched the lever, nobody can have let it go.
    assert_eq!(at("lost on the way"), "lever-touched");
    // The dark light sets it back more than thirty to one (0.03 against 0.9), the indicator 19 to 1.
    assert_eq!(at("never led"), "park-light");
    // A lamp that is dead in its test is not lit.
    assert_eq!(at("cannot be"), "park-light");
    assert_eq!(at("cannot be made"), "");
    assert_eq!(found["failed"], 3);
}

#[test]
fn answers_are_worked_in_the_order_written() {
    let found = json(FAILING, 1);
    let case = &found["cases"][2];
    let steps: Vec<&str> = case["steps"]
        .as_array()
        .unwrap()
        .iter()
        .map(|step| step["step"].as_str().unwrap())
        .collect();
    assert_eq!(steps, ["the report", "park-light: no", "indicator: yes"]);
}

#[test]
fn cases_of_shipped_trees_come_out_as_expected() {
    for tree in ["crept-while-parked", "pressure-found-gone"] {
        let found = json(tree, 0);
        assert!(found["cases"].as_array().unwrap().len() >= 40, "{tree}");
        assert_eq!(found["failed"], 0);
        let run = stillwheel(&["tree", "cases", tree]);
        assert!(run.out.contains("all as expected"), "{}", run.out);
    }
}
