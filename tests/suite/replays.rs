//! Public occurrences replayed through `rank`. The answers were fixed before the tree had
//! figures; every file names its source, and its observation beside each answer.

use serde::Deserialize;
use std::collections::BTreeMap;

use crate::run::{expect_file, files, root, stillwheel};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Replay {
    source: String,
    grade: String,
    #[allow(dead_code)]
    facts: String,
    given: BTreeMap<String, String>,
    answers: BTreeMap<String, Answer>,
    established: Vec<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Answer {
    answer: String,
    because: String,
}

/// Ranks one occurrence: the leading cause, its share, and its margin over the next.
fn leader(replay: &Replay) -> (String, f64, f64) {
    let mut arguments = vec![
        "rank".to_owned(),
        "crept-while-parked".to_owned(),
        "--json".to_owned(),
    ];
    for (name, word) in &replay.given {
        arguments.extend(["--given".to_owned(), format!("{name}={word}")]);
    }
    for (check, answer) in &replay.answers {
        assert!(!answer.because.is_empty());
        arguments.extend(["--answer".to_owned(), format!("{check}={}", answer.answer)]);
    }
    let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let run = stillwheel(&arguments);
    assert_eq!(run.code, 0, "{}", run.err);
    let json: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    let chance = |at: usize| json["causes"][at]["probability"].as_f64().unwrap();
    let id = json["causes"][0]["id"].as_str().unwrap().to_owned();
    (id, chance(0), chance(0) - chance(1))
}

/// The whole table, misses included, is compared with the file that stands beside the answers.
#[test]
fn the_table_of_replays_is_as_written_down() {
    let mut table = String::from("occurrence, grade, first, of 100, margin, established\n");
    let (mut hits, mut all) = (0, 0);
    for path in files("tests/replays", "yaml") {
        let text = std::fs::read_to_string(&path).unwrap();
        let replay: Replay = serde_yaml::from_str(&text).unwrap();
        assert!(replay.source.len() > 10);
        let (first, share, margin) = leader(&replay);
        let hit = replay.established.contains(&first);
        all += 1;
        hits += usize::from(hit);
        let name = path.file_stem().unwrap().to_string_lossy().into_owned();
        table.push_str(&format!(
            "{name}, {}, {first}, {:.0}, {:.0}, {}\n",
            replay.grade,
            share * 100.0,
            margin * 100.0,
            if hit { "yes" } else { "NO" }
        ));
    }
    table.push_str(&format!(
        "{hits} of {all} with the established cause first\n"
    ));
    expect_file(&root().join("tests/replays/table.txt"), &table);
}

/// The three kinds the tree must get right whatever else changes: a leak at the valve, a brake
/// that was never set, a brake set with nothing feeding it.
#[test]
fn valve_leak_never_set_and_not_fed_come_first() {
    for name in [
        "leak-at-park-valve",
        "handle-found-retracted",
        "chocks-pulled-on-low-store",
    ] {
        let path = root().join(format!("tests/replays/{name}.yaml"));
        let replay: Replay = serde_yaml::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
        let (first, _, margin) = leader(&replay);
        assert!(replay.established.contains(&first), "{name}: {first}");
        assert!(margin > 0.0);
    }
}
