//! What the shipped tree must make of two faults at once, and of faults that were not in it.

use crate::run::stillwheel;

const TREE: &str = "crept-while-parked";

/// A shipped tree ranked under some answers.
pub fn ranked(tree: &str, answers: &[&str]) -> serde_json::Value {
    let mut arguments = vec!["rank", tree, "--json"];
    for answer in answers {
        arguments.extend(["--answer", answer]);
    }
    let run = stillwheel(&arguments);
    assert_eq!(run.code, 0, "{}", run.err);
    serde_json::from_str(&run.out).unwrap()
}

/// The first names of a list.
pub fn ids<'a>(json: &'a serde_json::Value, list: &str, count: usize) -> Vec<&'a str> {
    let rows = json[list].as_array().unwrap();
    rows[..count]
        .iter()
        .map(|row| row["id"].as_str().unwrap())
        .collect()
}

#[test]
fn two_leaks_at_once_stand_first_and_second() {
    let json = ranked(
        TREE,
        &[
            "fluid-where=at-a-brake",
            "highest-wet=piston",
            "leak-down=slow",
            "listen=beyond-metering",
            "listen-beyond=park-valve",
            "return-flow=more",
            "witness-mark=yes",
            "position-indicator=shut",
        ],
    );
    let mut first = ids(&json, "causes", 2);
    first.sort_unstable();
    assert_eq!(first, ["brake-seal-leaks", "valve-seat-leaks"]);
}

#[test]
fn a_dead_lamp_beside_a_seat_leak_leads_the_bystanders_and_not_the_causes() {
    let json = ranked(
        TREE,
        &[
            "park-light=no",
            "held-caption=yes",
            "position-indicator=shut",
            "witness-mark=yes",
            "leak-down=slow",
            "listen-beyond=park-valve",
            "reservoirs=main-up",
        ],
    );
    assert_eq!(ids(&json, "causes", 1), ["valve-seat-leaks"]);
    assert_eq!(ids(&json, "bystanders", 1), ["lamp-dead"]);
}

/// A part that leaks behind the one that was in the tree first must not leave that one standing:
/// the seat of the park valve was named where the charge check valve had leaked back.
#[test]
fn a_leak_at_the_store_does_not_charge_the_park_valve() {
    let json = ranked(
        TREE,
        &[
            "leak-down=slow",
            "fluid-where=none",
            "wet-at-valves=none",
            "listen=at-the-store",
            "listen-at-store=charge-check-valve",
            "store-watch=hard",
        ],
    );
    assert_eq!(ids(&json, "causes", 1), ["charge-check-valve-leaks"]);
    let seat = json["causes"]
        .as_array()
        .unwrap()
        .iter()
        .find(|row| row["id"] == "valve-seat-leaks")
        .unwrap();
    assert!(seat["probability"].as_f64().unwrap() < 0.05);
}
