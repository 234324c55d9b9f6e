//! `tree agree`: two descriptions of one aircraft, and every kind of difference at its line.

use crate::run::{expect_file, root, stillwheel, stillwheel_in};

const TREE: &str = "tests/documents/disagrees.yaml";

#[test]
fn every_kind_of_difference_stands_at_its_line() {
    let run = stillwheel(&["tree", "agree", TREE]);
    assert_eq!(run.code, 1, "{}", run.err);
    expect_file(&root().join("tests/documents/disagrees.txt"), &run.out);
    let lines = stillwheel(&["tree", "agree", "--lines", TREE]).out;
    let of = |code: &str| -> Vec<&str> { lines.lines().filter(|l| l.contains(code)).collect() };
    // The lamp leaves the aircraft standing, so it is no cause.
    assert_eq!(of("G001").len(), 1, "{lines}");
    assert!(of("G001")[0].contains("`lamp-out`"), "{lines}");
    // Two leaks that fall through to the same lines.
    assert_eq!(of("G004").len(), 1, "{lines}");
    assert!(
        of("G004")[0].contains("`brake-leaks` and `fitting-weeps`"),
        "{lines}"
    );
    // A leaking seat leaves the light lit: it reports the cam.
    let lit = |l: &&&str| l.contains("`valve-seat-leaks` alone reads lit");
    assert_eq!(of("G002").iter().filter(lit).count(), 1, "{lines}");
    assert!(of("G002")[0].starts_with(&format!("{TREE}:40:")), "{lines}");
    // A healthy aircraft falls 15 bar, between the two answers.
    assert!(
        of("G003").iter().any(|l| l.contains("a healthy aircraft")),
        "{lines}"
    );
    // A pump-down costs the pressure of the night.
    assert_eq!(of("G005").len(), 1, "{lines}");
    assert!(of("G005")[0].contains("`stop`"), "{lines}");
    // Cross-flow is found by the plant alone: nothing of it leaks.
    for cross_flow in ["left-cable/stretched", "right-cross-rod/detached"] {
        assert!(
            of("G006").iter().any(|l| l.contains(cross_flow)),
            "{cross_flow}\n{lines}"
        );
    }
    // Faults of indication stand in no list of what moves it.
    for indication in ["gas-transmitter", "pressure-indicator", "park-relay"] {
        assert!(
            !of("G006").iter().any(|l| l.contains(indication)),
            "{lines}"
        );
    }
}

fn changed(from: &str, to: &str) -> String {
    let text = std::fs::read_to_string(root().join(TREE)).unwrap();
    assert!(text.contains(from), "{from}");
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("tree.yaml"), text.replace(from, to)).unwrap();
    let run = stillwheel_in(
        folder.path(),
        &["tree", "agree", "--lines", "tree.yaml"],
        "",
    );
    run.out + &run.err
}

#[test]
fn what_is_put_right_is_no_longer_found() {
    let light = "      - {when: valve-seat-leaks, chance: 0.02}\n";
    assert!(!changed(light, "").contains("alone reads lit, which"));
    assert!(!changed("[up to 12 bar]", "[up to 18 bar]").contains("G003"));
    let harmless = "    hazard: pressure\n";
    let said = "    hazard: pressure\n    takes-away: [pressure]\n";
    assert!(!changed(harmless, said).contains("G005"));
    // Read alike by every check that is left, two leaks are one thing to a technician.
    let apart = changed(light, "");
    assert!(
        apart.contains("G004") && apart.contains("`relief-weeps`"),
        "{apart}"
    );
}

#[test]
fn a_reading_that_is_not_there_and_an_answer_that_is_none_are_errors_at_their_place() {
    let reading = changed("reads: knee-bar", "reads: knee-bars");
    assert!(
        reading.contains("C011") && reading.contains("did you mean `knee-bar`"),
        "{reading}"
    );
    let answer = changed("\"no\": [dark]", "\"off\": [dark]");
    assert!(
        answer.contains("C011") && answer.contains("`off` is no answer"),
        "{answer}"
    );
    let unit = changed("[above 18 bar]", "[above 18 L]");
    assert!(unit.contains("18 L"), "{unit}");
}

#[test]
fn without_an_aircraft_or_a_top_in_the_plant_it_says_what_it_cannot_do() {
    let silent = changed("top-in-plant: moves\n", "");
    assert!(
        !silent.contains("G006") && !silent.contains("G001"),
        "{silent}"
    );
    let none = changed("aircraft: demo-twin\n", "");
    assert!(none.contains("names no aircraft"), "{none}");
}

#[test]
fn json_gives_code_place_and_words() {
    let run = stillwheel(&["tree", "agree", "--json", TREE]);
    let value: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    let problems = value["problems"].as_array().unwrap();
    assert!(
        problems
            .iter()
            .all(|p| p["line"].as_u64().is_some_and(|line| line > 0))
    );
    assert!(problems.iter().any(|p| p["code"] == "G006"));
    assert_eq!(value["errors"], 0);
}
