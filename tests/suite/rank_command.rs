//! `rank` from the shell: text, JSON, and every way of typing it wrong.

use crate::run::stillwheel;

#[test]
fn the_json_keys_are_a_contract() {
    let run = stillwheel(&[
        "rank",
        "crept-while-parked",
        "--json",
        "--answer",
        "lever-position=no",
    ]);
    assert_eq!(run.code, 0, "{}", run.err);
    let json: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    let keys: Vec<&String> = json.as_object().unwrap().keys().collect();
    let wanted = [
        "tree",
        "aircraft",
        "certificate",
        "evidence_probability",
        "unlisted",
        "dropped",
        "causes",
        "bystanders",
        "nodes",
        "conflict_bits",
        "sorted_by",
        "next",
    ];
    assert_eq!(keys, wanted);
    assert_eq!(json["certificate"]["kind"], "exact");
    let listed =
        json["causes"].as_array().unwrap().len() + json["bystanders"].as_array().unwrap().len();
    assert_eq!(listed, 90);
    let next: Vec<&String> = json["next"][0].as_object().unwrap().keys().collect();
    assert_eq!(
        next,
        [
            "check",
            "gain_bits",
            "minutes",
            "gain_per_minute",
            "takes_away",
            "needs"
        ]
    );
    assert!(json["nodes"]["supply-used=none"].as_f64().unwrap() > 0.0);
    assert!((json["nodes"]["crept"].as_f64().unwrap() + json["unlisted"].as_f64().unwrap()) > 0.99);
}

#[test]
fn before_any_check_the_unlisted_share_is_as_stated() {
    let run = stillwheel(&["rank", "crept-while-parked", "--json"]);
    let json: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    assert!((json["unlisted"].as_f64().unwrap() - 0.06).abs() < 1e-12);
}

#[test]
fn the_text_is_narrow_and_never_releases_an_aircraft() {
    let run = stillwheel(&[
        "rank",
        "crept-while-parked",
        "--answer",
        "gas-gauge=at-precharge",
    ]);
    assert_eq!(run.code, 0);
    for line in run.out.lines() {
        assert!(line.chars().count() <= 78, "{line}");
    }
    for word in [
        "exact",
        "of 100 jobs like this",
        "approved maintenance data",
    ] {
        assert!(run.out.contains(word), "{word}\n{}", run.out);
    }
}

pub fn refused(arguments: &[&str], code: i32, words: &str) {
    let run = stillwheel(arguments);
    assert_eq!(run.code, code, "{arguments:?}: {}{}", run.out, run.err);
    let all = format!("{}{}", run.out, run.err);
    assert!(all.contains(words), "{arguments:?}: {all}");
}

#[test]
fn what_is_typed_wrong_is_answered_with_words_and_a_code() {
    let tree = "crept-while-parked";
    refused(
        &["rank", tree, "--answer", "lever-positoin=no"],
        2,
        "did you mean `lever-position`?",
    );
    refused(
        &["rank", tree, "--answer", "lever-position=maybe"],
        2,
        "it takes yes, no, cannot",
    );
    refused(
        &["rank", tree, "--answer", "lever-position"],
        2,
        "write NAME=VALUE",
    );
    refused(
        &[
            "rank",
            tree,
            "--answer",
            "lever-position=no",
            "--answer",
            "lever-position=yes",
        ],
        2,
        "answered twice",
    );
    refused(
        &["rank", tree, "--given", "suply-used=none"],
        2,
        "did you mean `supply-used`?",
    );
    refused(
        &["rank", tree, "--given", "supply-used=third"],
        2,
        "it takes main, second, none",
    );
    refused(
        &["rank", tree, "--given", "moved-after=5 bar"],
        2,
        "a time is wanted here",
    );
    refused(
        &["rank", tree, "--given", "moved-after=5"],
        2,
        "has no unit",
    );
    refused(
        &["rank", tree, "--given", "moved-after=9 h to 2 h"],
        2,
        "is not an interval",
    );
    refused(&["rank", tree, "--state", "pumps=maybe"], 2, "pumps=off|on");
    refused(&["rank", "nowhere.yaml"], 3, "it is not there");
    refused(&["rank", "demo-twin"], 1, "`tree` is wanted");
    refused(&["rank"], 2, "required");
}

#[test]
fn a_contradiction_names_an_irreducible_set() {
    let tree = "tests/documents/sure-answers.yaml";
    let both = [
        "rank",
        tree,
        "--answer",
        "light=no",
        "--answer",
        "valve=shut",
        "--answer",
        "other=yes",
    ];
    let run = stillwheel(&both);
    assert_eq!(run.code, 1);
    assert!(run.out.contains("cannot all be true"), "{}", run.out);
    let json = stillwheel(&[&both[..], &["--json"]].concat());
    let json: serde_json::Value = serde_json::from_str(&json.out).unwrap();
    assert_eq!(
        json,
        serde_json::json!({"contradiction": ["light", "valve"]})
    );
}

#[test]
fn a_report_that_cannot_be_is_a_member_of_the_contradiction() {
    let tree = "tests/documents/sure-answers.yaml";
    let run = stillwheel(&[
        "rank",
        tree,
        "--given",
        "touched=no",
        "--answer",
        "valve=shut",
        "--json",
    ]);
    let json: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(
        json,
        serde_json::json!({"contradiction": ["report", "touched", "valve"]})
    );
}

#[test]
fn an_interval_takes_the_bands_it_meets_in_proportion() {
    let node = |given: &str, name: &str| {
        let run = stillwheel(&[
            "rank",
            "pressure-found-gone",
            "--json",
            "--no-report",
            "--given",
            given,
        ]);
        let json: serde_json::Value = serde_json::from_str(&run.out).unwrap();
        json["nodes"][name].as_f64().unwrap()
    };
    assert!((node("hours=30 min", "hours=under-an-hour") - 1.0).abs() < 1e-12);
    assert!(
        (node("hours=6 h", "hours=overnight") - 1.0).abs() < 1e-12,
        "low end included"
    );
    let [between, overnight] =
        ["hours=between", "hours=overnight"].map(|n| node("hours=5 h to 7 h", n));
    assert!((between + overnight - 1.0).abs() < 1e-12);
    // Stated chances: P(hours < 1 h) = 0.05, so the two share the remaining 0.95.
    let run = stillwheel(&["rank", "pressure-found-gone", "--json", "--no-report"]);
    let json: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    let stated = json["nodes"]["hours=overnight"].as_f64().unwrap();
    assert!((overnight - stated / 0.95).abs() < 1e-12);
}

#[test]
fn demo_writes_what_is_embedded_and_keeps_what_was_changed() {
    let folder = tempfile::tempdir().unwrap();
    let place = folder.path().to_str().unwrap();
    assert_eq!(stillwheel(&["demo", place]).code, 0);
    let tree = folder.path().join("fault-trees/crept-while-parked.yaml");
    let run = stillwheel(&["tree", "check", tree.to_str().unwrap()]);
    assert_eq!(run.code, 0, "{}", run.out);
    std::fs::write(&tree, "mine").unwrap();
    let run = stillwheel(&["demo", place]);
    assert_eq!(run.code, 3);
    assert_eq!(std::fs::read_to_string(&tree).unwrap(), "mine");
}

#[test]
fn help_lists_the_commands_that_are_there() {
    let run = stillwheel(&["--help"]);
    assert_eq!(run.code, 0);
    for command in [
        "job", "resume", "report", "rank", "hold", "readings", "bench", "tree", "demo",
    ] {
        assert!(run.out.contains(&format!("\n  {command} ")), "{}", run.out);
    }
    // A command that is listed is there.
    let listed = run.out.split("Commands:\n").nth(1).unwrap();
    let names = listed.lines().take_while(|line| !line.is_empty());
    for line in names {
        let name = line.split_whitespace().next().unwrap();
        let help = stillwheel(&["help", name]);
        assert_eq!(help.code, 0, "{name}: {}", help.err);
    }
}
