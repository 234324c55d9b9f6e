//! When it moved, as one term of evidence: against counting every combination, against `hold`,
//! and as it is typed.

use crate::rank_command::refused;
use crate::run::stillwheel;
use serde_json::Value;

const TIMED: &str = "tests/documents/timed.yaml";

fn rank(tree: &str, given: &[&str], answers: &[&str]) -> Value {
    let mut arguments = vec!["rank", tree, "--json"];
    arguments.extend(given.iter().flat_map(|given| ["--given", given]));
    arguments.extend(answers.iter().flat_map(|answer| ["--answer", answer]));
    let run = stillwheel(&arguments);
    assert_eq!(run.code, 0, "{}", run.err);
    serde_json::from_str(&run.out).unwrap()
}

fn probability(ranked: &Value, id: &str) -> f64 {
    let lists = ["causes", "bystanders"].map(|list| ranked[list].as_array().unwrap().clone());
    let mut rows = lists.into_iter().flatten();
    let row = rows.find(|row| row["id"] == id).unwrap();
    row["probability"].as_f64().unwrap()
}

/// Chance that an event of the document has not moved it by some hours, written anew: even over
/// three minutes, or every factor alike between two times; one in fifty at any time.
fn stands(event: usize, hours: f64) -> f64 {
    let factors =
        |from: f64, to: f64| 1.0 - ((hours / from).ln() / (to / from).ln()).clamp(0.0, 1.0);
    let own = match event {
        0 => 1.0 - (hours / 0.05).clamp(0.0, 1.0),
        1 => factors(1.0, 10.0),
        2 => factors(4.0, 20.0),
        _ => factors(0.1, 40.0),
    };
    0.98 * own + 0.02 * factors(0.02, 48.0)
}

/// Every combination of the document counted: chances of `soon`, `slow`, `later`, `by-hand`,
/// `lamp` and of an unlisted cause, given that it moved between two times and the light's answer.
fn counted(from: f64, to: f64, lit: Option<bool>) -> Vec<f64> {
    let chances = [0.01, 0.02, 0.03, 0.04, 0.3, 0.2];
    let holds = |bits: u32, at: usize| bits & (1 << at) != 0;
    let prior = |bits: u32| -> f64 {
        let factor = |at: usize| {
            if holds(bits, at) {
                chances[at]
            } else {
                1.0 - chances[at]
            }
        };
        (0..6).map(factor).product()
    };
    let top = |bits: u32| (0..3).any(|at| holds(bits, at)) || (holds(bits, 3) && holds(bits, 5));
    let q: f64 = (0..64).filter(|bits| top(*bits)).map(prior).sum();
    let unlisted = 0.1 * q / (1.0 - 0.1 + 0.1 * q);
    let mut sums = [0.0; 6];
    let mut total = 0.0;
    for bits in 0..64 {
        let present: Vec<usize> = (0..4).filter(|at| holds(bits, *at)).collect();
        let all_stand =
            |hours: f64| -> f64 { present.iter().map(|at| stands(*at, hours)).product() };
        let nobody =
            |hours: f64| 1.0 - ((hours / 0.02_f64).ln() / (48.0_f64 / 0.02).ln()).clamp(0.0, 1.0);
        let light = match (lit, holds(bits, 1), holds(bits, 4)) {
            (None, ..) => 1.0,
            (Some(lit), true, _) => {
                if lit {
                    0.2
                } else {
                    0.8
                }
            }
            (Some(lit), _, true) => {
                if lit {
                    0.1
                } else {
                    0.9
                }
            }
            (Some(lit), ..) => {
                if lit {
                    0.9
                } else {
                    0.1
                }
            }
        };
        let (weight, outside) = if top(bits) {
            (all_stand(from) - all_stand(to), unlisted)
        } else {
            let both = |hours: f64| all_stand(hours) * nobody(hours);
            (unlisted * (both(from) - both(to)), 1.0)
        };
        let mass = prior(bits) * light * weight;
        total += mass;
        for (at, sum) in sums.iter_mut().take(5).enumerate() {
            *sum += if holds(bits, at) { mass } else { 0.0 };
        }
        sums[5] += mass * outside;
    }
    sums.iter().map(|sum| sum / total).collect()
}

#[test]
fn it_is_what_counting_every_combination_gives() {
    for (typed, from, to) in [
        ("2 h to 6 h", 2.0, 6.0),
        ("0 h to 30 min", 0.0, 0.5),
        ("5 h", 4.5, 5.5),
    ] {
        for lit in [None, Some(true), Some(false)] {
            let answers: &[&str] = match lit {
                None => &[],
                Some(true) => &["light=yes"],
                Some(false) => &["light=no"],
            };
            let ranked = rank(TIMED, &[&format!("moved-after={typed}")], answers);
            let wanted = counted(from, to, lit);
            let ids = ["soon", "slow", "later", "by-hand", "lamp"];
            for (id, wanted) in ids.iter().zip(&wanted) {
                let found = probability(&ranked, id);
                assert!(
                    (found - wanted).abs() < 1e-12,
                    "{typed} {lit:?} {id}: {found} {wanted}"
                );
            }
            let found = ranked["unlisted"].as_f64().unwrap();
            assert!(
                (found - wanted[5]).abs() < 1e-12,
                "{typed} {lit:?}: {found} {}",
                wanted[5]
            );
        }
    }
}

#[test]
fn without_a_time_nothing_changes_and_facts_are_no_nodes() {
    let open = rank(TIMED, &[], &["light=no"]);
    let shares = [0.01, 0.02, 0.03];
    assert!(probability(&open, "slow") > shares[1]);
    let nodes = open["nodes"].as_object().unwrap();
    assert!(nodes.contains_key("touched"));
    assert!(
        !nodes.keys().any(|name| name.starts_with("moved-after")),
        "{nodes:?}"
    );
}

/// Whether the shipped tree explains so many hours without a fault is what `hold` says of them.
#[test]
fn held_as_designed_follows_hours_slope_charge_and_air() {
    let designed = |given: &[&str]| {
        probability(
            &rank("crept-while-parked", given, &[]),
            "ran-down-as-designed",
        )
    };
    let open = designed(&[]);
    let soon = designed(&["moved-after=1 h"]);
    let late = designed(&["moved-after=14 h"]);
    assert!(soon < 0.1 * open, "{soon} of {open}");
    assert!(late > 3.0 * open, "{late} of {open}");
    // Half the charge: `hold` says when, and then it is explained.
    let run = stillwheel(&["hold", "--charge", "100 bar", "--json"]);
    let hold: Value = serde_json::from_str(&run.out).unwrap();
    let hours = hold["band"]["mid_life"].as_f64().unwrap();
    assert!(hours < 10.0, "{hours} h");
    let at = format!("moved-after={hours:.2} h");
    let full = designed(&[&at]);
    let half = designed(&[&at, "charge=100 bar"]);
    assert!(half > 2.0 * full, "{half} beside {full} at {hours} h");
    // Warm fluid leaks faster than cold, and a night that turns cold lies between the two.
    let cold = designed(&["moved-after=9 h", "air=-15 C"]);
    let turns = designed(&["moved-after=9 h", "air=35 C to -15 C"]);
    let warm = designed(&["moved-after=9 h", "air=35 C"]);
    assert!(cold < turns && turns < warm, "{cold} {turns} {warm}");
}

#[test]
fn a_time_that_excludes_nothing_leaves_every_cause_possible() {
    for hours in ["0 h to 1 min", "47 h", "200 h"] {
        let ranked = rank(
            "crept-while-parked",
            &[&format!("moved-after={hours}")],
            &[],
        );
        for row in ranked["causes"].as_array().unwrap() {
            assert!(row["probability"].as_f64().unwrap() > 0.0, "{hours}: {row}");
        }
    }
}

#[test]
fn facts_are_asked_back_where_they_cannot_be() {
    let tree = "crept-while-parked";
    let given = |typed: &str, words: &str| refused(&["rank", tree, "--given", typed], 2, words);
    given("charge=180 psi", "may be in the wrong unit");
    given("charge=3000 bar", "is out of range");
    given("charge=3000", "has no unit");
    given("slope=45 %", "is out of range");
    given("moved-after=-2 h", "is out of range");
    given("air=400 C", "is out of range");
    given("moved-after=soon", "does not start with a number");
}
