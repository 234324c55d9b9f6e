//! Public occurrences replayed through `rank`. The answers were fixed before the tree had
//! figures, those of later files before they were first ranked; every file names its source, and
//! its observation beside each answer.

use serde::Deserialize;
use std::collections::BTreeMap;
use std::path::Path;

use crate::run::{expect_file, files, root, stillwheel};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Replay {
    source: String,
    grade: String,
    #[serde(default)]
    classes: Vec<Class>,
    #[allow(dead_code)]
    facts: String,
    given: BTreeMap<String, String>,
    answers: BTreeMap<String, Answer>,
    established: Vec<String>,
}

/// The classes of which every occurrence at hand is replayed, or left out with its reason.
#[derive(Deserialize, Clone, Copy, PartialEq)]
#[serde(rename_all = "kebab-case")]
enum Class {
    LatchedPedals,
    NoPartFailed,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Answer {
    answer: String,
    because: String,
}

/// What `rank` says of one occurrence.
struct Ranked {
    first: String,
    share: f64,
    margin: f64,
    /// Place of the foremost established cause, counted from one.
    place: usize,
}

impl Ranked {
    fn hit(&self) -> bool {
        self.place == 1
    }
}

fn rank(replay: &Replay) -> Ranked {
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
    let causes = json["causes"].as_array().unwrap();
    let id = |at: usize| causes[at]["id"].as_str().unwrap().to_owned();
    let chance = |at: usize| causes[at]["probability"].as_f64().unwrap();
    // A cause that the ranking does not list has no place, which no file may ask for.
    let place = (0..causes.len()).find(|&at| replay.established.contains(&id(at)));
    Ranked {
        first: id(0),
        share: chance(0),
        margin: chance(0) - chance(1),
        place: place.expect("an established cause is listed") + 1,
    }
}

fn read(path: &Path) -> Replay {
    serde_yaml::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

/// One line a class: how many occurrences are at hand, replayed, first, within three.
fn class_line(title: &str, class: Class, all: &[(Replay, Ranked)]) -> String {
    let of: Vec<&Ranked> = all
        .iter()
        .filter(|(replay, _)| replay.classes.contains(&class))
        .map(|(_, ranked)| ranked)
        .collect();
    let left_out = left_out(class);
    format!(
        "{title}: {} at hand, {} replayed, {} not to be said on this tree, {} first, {} within three\n",
        of.len() + left_out,
        of.len(),
        left_out,
        of.iter().filter(|ranked| ranked.hit()).count(),
        of.iter().filter(|ranked| ranked.place <= 3).count(),
    )
}

/// Occurrences of a class that stand in the list of what the tree cannot say.
fn left_out(class: Class) -> usize {
    let text = std::fs::read_to_string(root().join("tests/replays/not-expressed.txt")).unwrap();
    text.lines()
        .skip(1)
        .filter(|line| {
            let fields: Vec<&str> = line.splitn(4, "; ").collect();
            assert!(fields.len() == 4 && fields[3].len() > 20, "{line}");
            let classes: Vec<Class> = serde_yaml::from_str(&format!("[{}]", fields[2])).unwrap();
            assert!(!classes.is_empty(), "{line}");
            classes.contains(&class)
        })
        .count()
}

/// The whole table, misses included, is compared with the file that stands beside the answers,
/// and every miss must have its reason written down.
#[test]
fn the_table_of_replays_is_as_written_down() {
    let mut table =
        String::from("occurrence, grade, first, of 100, margin, established, its place\n");
    let reasons = std::fs::read_to_string(root().join("tests/replays/README.md")).unwrap();
    let mut all = Vec::new();
    for path in files("tests/replays", "yaml") {
        let replay = read(&path);
        assert!(replay.source.len() > 10);
        let ranked = rank(&replay);
        let name = path.file_stem().unwrap().to_string_lossy().into_owned();
        table.push_str(&format!(
            "{name}, {}, {}, {:.0}, {:.0}, {}, {}\n",
            replay.grade,
            ranked.first,
            ranked.share * 100.0,
            ranked.margin * 100.0,
            if ranked.hit() { "yes" } else { "NO" },
            ranked.place,
        ));
        assert!(
            ranked.hit()
                || std::env::var_os("ACCEPT").is_some()
                || reasons.contains(&format!("\n- {name}: ")),
            "{name} is missed and no reason is written down"
        );
        all.push((replay, ranked));
    }
    table.push_str(&format!(
        "{} of {} with the established cause first, {} within the first three\n",
        all.iter().filter(|(_, ranked)| ranked.hit()).count(),
        all.len(),
        all.iter().filter(|(_, ranked)| ranked.place <= 3).count(),
    ));
    table.push_str(&class_line(
        "latched pedals over an accumulator, grade A or B",
        Class::LatchedPedals,
        &all,
    ));
    table.push_str(&class_line(
        "no brake part failed, grade A",
        Class::NoPartFailed,
        &all,
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
        let replay = read(&root().join(format!("tests/replays/{name}.yaml")));
        let ranked = rank(&replay);
        assert!(ranked.hit(), "{name}: {}", ranked.first);
        assert!(ranked.margin > 0.0);
    }
}
