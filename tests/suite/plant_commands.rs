//! `hold` and `readings` as people and programs meet them.

use serde_json::Value;
use std::collections::BTreeSet;
use std::process::Command;

use crate::run::{Run, expect_file, root, stillwheel};

fn hold(arguments: &[&str]) -> Run {
    stillwheel(&[&["hold"], arguments].concat())
}

fn readings(arguments: &[&str]) -> Run {
    stillwheel(&[&["readings"], arguments].concat())
}

fn json(run: &Run) -> Value {
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    serde_json::from_str(&run.out).unwrap()
}

fn keys(value: &Value) -> Vec<&str> {
    value
        .as_object()
        .unwrap()
        .keys()
        .map(String::as_str)
        .collect()
}

/// A text as one line, so that wrapping does not matter.
fn unwrapped(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn texts_are_what_they_were_and_fit_eighty_columns() {
    let cases: [(&str, &[&str]); 7] = [
        ("hold", &["hold"]),
        (
            "hold-14-h-18-c",
            &["hold", "--hours", "14 h", "--temperature", "18 C"],
        ),
        (
            "hold-two-faults",
            &[
                "hold",
                "--fault",
                "brake-l3/seal-leak=2",
                "--fault",
                "accumulator/gas-low",
                "--hours",
                "2h",
            ],
        ),
        ("hold-level", &["hold", "--slope", "0 %", "--hours", "1 h"]),
        ("readings", &["readings"]),
        (
            "readings-fault",
            &["readings", "--state", "C2", "--fault", "brake-l3/seal-leak"],
        ),
        (
            "readings-pumps-on",
            &["readings", "--state", "C1", "--charge", "2988 psi"],
        ),
    ];
    for (name, arguments) in cases {
        let run = stillwheel(arguments);
        assert_eq!((run.code, run.err.as_str()), (0, ""), "{name}");
        expect_file(&root().join(format!("tests/plant/{name}.txt")), &run.out);
        for line in run.out.lines() {
            assert!(line.chars().count() <= 80, "{name}: {line}");
            assert_eq!(line, line.trim_end(), "{name}");
        }
        assert!(!run.out.contains('\u{1b}'), "{name}");
        assert!(!run.out.contains("-0 "), "{name}: a negative zero");
        assert!(
            unwrapped(&run.out).ends_with("nothing here releases an aircraft."),
            "{name}"
        );
    }
}

#[test]
fn colour_settings_change_nothing_because_there_is_no_colour() {
    for term in ["xterm-256color", "dumb"] {
        for no_color in [None, Some("1")] {
            let mut command = Command::new(env!("CARGO_BIN_EXE_stillwheel"));
            command.args(["hold", "--hours", "1 h"]).env("TERM", term);
            match no_color {
                Some(value) => command.env("NO_COLOR", value),
                None => command.env_remove("NO_COLOR"),
            };
            let out = command.output().unwrap();
            assert!(out.status.success());
            let text = String::from_utf8(out.stdout).unwrap();
            assert_eq!(text, hold(&["--hours", "1 h"]).out);
        }
    }
}

#[test]
fn hold_as_json_has_the_keys_of_the_contract() {
    let value = json(&hold(&["--json", "--hours", "2 h"]));
    let wanted = [
        "aircraft",
        "hours_to_creep",
        "hours_to_bottom",
        "band",
        "samples",
    ];
    assert_eq!(keys(&value), wanted);
    assert_eq!(value["aircraft"], "demo-twin");
    assert_eq!(keys(&value["band"]), ["tight", "mid_life", "worst"]);
    assert_eq!(value["band"]["mid_life"], value["hours_to_creep"]);
    let band = |name: &str| value["band"][name].as_f64().unwrap();
    assert!(band("tight") > band("mid_life") && band("mid_life") > band("worst"));
    let samples = value["samples"].as_array().unwrap();
    let hours: Vec<f64> = samples
        .iter()
        .map(|s| s["hours"].as_f64().unwrap())
        .collect();
    assert_eq!(hours, [0.0, 0.5, 1.0, 1.5, 2.0]);
    for sample in samples {
        let wanted = ["hours", "gas_bar", "fluid_bar", "brake_bar", "return_bar"];
        assert_eq!(keys(sample), wanted);
        let brakes = ["L1", "L2", "L3", "L4", "R1", "R2", "R3", "R4"];
        assert_eq!(keys(&sample["brake_bar"]), brakes);
        for number in ["gas_bar", "fluid_bar", "return_bar"] {
            assert!(sample[number].is_f64(), "{number}");
        }
    }
}

#[test]
fn never_is_null() {
    let value = json(&hold(&["--json", "--hours", "1 h", "--slope", "0 %"]));
    assert_eq!(value["hours_to_creep"], Value::Null);
    for name in ["tight", "mid_life", "worst"] {
        assert_eq!(value["band"][name], Value::Null, "{name}");
    }
    let text = hold(&["--hours", "1 h", "--slope", "0 %"]).out;
    assert!(
        unwrapped(&text).contains("nothing pushes hard enough"),
        "{text}"
    );
}

#[test]
fn readings_as_json_hold_a_number_a_word_or_null_for_the_same_names_in_every_state() {
    let mut names: Option<BTreeSet<String>> = None;
    for state in ["C1", "C2", "C3", "C4", "C5"] {
        let arguments = [
            "--json",
            "--state",
            state,
            "--fault",
            "park-shut-off-valve/seat-leak",
        ];
        let value = json(&readings(&arguments));
        assert_eq!(keys(&value), ["state", "faults", "observables"]);
        assert_eq!(
            value["faults"],
            serde_json::json!(["park-shut-off-valve/seat-leak"])
        );
        let observed = value["observables"].as_object().unwrap();
        let found: BTreeSet<String> = observed.keys().cloned().collect();
        assert!(found.contains("park-light") && found.contains("gas-gauge-bar"));
        assert!(found.len() >= 35, "{}", found.len());
        assert_eq!(
            names.get_or_insert_with(|| found.clone()),
            &found,
            "{state}"
        );
        for (name, reading) in observed {
            let whole = reading.is_number() || reading.is_string() || reading.is_null();
            assert!(whole, "{name}: {reading}");
            assert!(
                !name.ends_with("-bar") || !reading.is_string(),
                "{name}: {reading}"
            );
        }
        let pumps = state == "C1";
        assert_eq!(observed["gas-at-8-h-bar"].is_null(), pumps, "{state}");
        assert_eq!(observed["left-bleed-port-bar"].is_null(), !pumps, "{state}");
        let powered = matches!(state, "C1" | "C2" | "C3");
        assert_eq!(
            observed["pressure-indicator-bar"].is_number(),
            powered,
            "{state}"
        );
        let clamped = if state == "C5" { "0 of 8" } else { "8 of 8" };
        assert_eq!(observed["brakes-clamped"], clamped, "{state}");
    }
}

#[test]
fn same_input_gives_the_same_bytes() {
    let arguments = ["--json", "--fault", "gas-valve/leak", "--hours", "12 h"];
    assert_eq!(hold(&arguments).out, hold(&arguments).out);
    assert_eq!(readings(&arguments).out, readings(&arguments).out);
}

/// What so many hours mean is said in words, and nothing in it is a limit.
#[test]
fn hours_are_explained_or_not_and_never_approved() {
    let said = |arguments: &[&str]| {
        let run = hold(arguments);
        assert_eq!(run.code, 0, "{}", run.err);
        let text = unwrapped(&run.out);
        for word in [
            "approved limit",
            "within limits",
            "acceptable",
            "serviceable",
            "released",
        ] {
            assert!(!text.contains(word), "{word}");
        }
        assert!(text.contains("not approved data"));
        text
    };
    let warm = ["--temperature", "18 C", "--hours"];
    let at = |hours: &str| said(&[&warm[..], &[hours]].concat());
    assert!(at("14 h").contains("14 h at 18 C on 1 % slope: explained without a fault."));
    assert!(at("12 h").contains("explained without a fault only if its leaks are near the worst"));
    assert!(at("5 h").contains("5 h at 18 C on 1 % slope: not explained without a fault."));
    let text = said(&["--hours", "2 h", "--fault", "valve-breaker/open"]);
    assert!(text.contains(": not explained by what was put in") || text.contains(": explained by"));
}

/// Each slip of the command line: the exit code is 2, nothing goes to standard output, and the
/// message has what is needed to mend it.
#[test]
fn slips_of_the_command_line_are_answered_with_what_was_meant() {
    let cases: [(&[&str], &[&str]); 26] = [
        (
            &["--charge", "206 psi"],
            &["--charge", "14 bar (206 psi)", "206 bar (2988 psi)"],
        ),
        (
            &["--charge", "2988 bar"],
            &["--charge", "2988 bar (43337 psi)", "206 bar (2988 psi)"],
        ),
        (
            &["--charge", "3000 bar"],
            &["out of range", "207 bar (3000 psi)"],
        ),
        (
            &["--charge", "100 psi"],
            &["7 bar (100 psi)", "100 bar (1450 psi)"],
        ),
        (
            &["--charge", "206"],
            &["206 bar is 2988 psi", "206 psi is 14 bar", "write which"],
        ),
        (
            &["--precharge", "76"],
            &["--precharge", "76 bar is 1102 psi", "76 psi is 5 bar"],
        ),
        (
            &["--precharge", "76 psi"],
            &["5 bar (76 psi)", "76 bar (1102 psi)"],
        ),
        (
            &["--precharge", "35 psi at 20 C"],
            &["2 bar (35 psi)", "35 bar (508 psi)"],
        ),
        (
            &["--precharge", "1000 bar at 20 C"],
            &["1000 bar (14504 psi)", "69 bar (1000 psi)"],
        ),
        (
            &["--precharge", "76 bar at 20"],
            &["--precharge", "`20` has no unit", "C, F, K"],
        ),
        (
            &["--precharge", "76 bar at -300 C"],
            &["-300.0 C", "-70 C to 100 C"],
        ),
        (&["--charge", "-3 bar"], &["out of range", "`-3 bar`"]),
        (&["--charge", "206 Bar"], &["did you mean `bar`?"]),
        (&["--temperature", "15"], &["--temperature", "has no unit"]),
        (
            &["--temperature", "-100 C"],
            &["-100.0 C", "-70 C to 100 C"],
        ),
        (
            &["--slope", "400 %"],
            &["a slope of 400 %", "-50 % to 50 %"],
        ),
        (&["--wind", "9999 kt"], &["a wind of", "100 m/s (194 kt)"]),
        (&["--hours", "300 h"], &["--hours", "ten days"]),
        (
            &["--hours", "14 bar"],
            &["--hours", "is a pressure, and a time is wanted"],
        ),
        (
            &["--state", "C6"],
            &[
                "there is no state `C6`",
                "C1, C2, C3, C4, C5 or write SWITCH=POSITION",
            ],
        ),
        (
            &["--state", "pwer=none"],
            &["there is no switch `pwer`", "did you mean `power`?"],
        ),
        (
            &["--state", "power=extrnal"],
            &["has no position `extrnal`", "`external`?"],
        ),
        (
            &["--fault", "brake-l3/seal-leek"],
            &["`brake-l3` has no fault", "`seal-leak`?"],
        ),
        (
            &["--fault", "brake-13/seal-leak"],
            &["there is no part `brake-13`", "did you mean"],
        ),
        (
            &["--fault", "brake-l3/seal-leak=lots"],
            &["the severity is not a number"],
        ),
        (&["--tempertaure", "15 C"], &["--temperature"]),
    ];
    for (arguments, wanted) in cases {
        for run in [hold(arguments), readings(arguments)] {
            assert_eq!(
                (run.code, run.out.as_str()),
                (2, ""),
                "{arguments:?}: {}",
                run.err
            );
            for words in wanted {
                assert!(
                    run.err.contains(words),
                    "{arguments:?}: {} has no {words}",
                    run.err
                );
            }
        }
    }
}

#[test]
fn pressures_that_are_meant_are_taken_in_both_units() {
    for arguments in [["--charge", "120 bar"], ["--charge", "1740 psi"]] {
        let run = hold(&[&arguments[..], &["--hours", "1 h"]].concat());
        assert_eq!(run.code, 0, "{}", run.err);
        let text = unwrapped(&run.out);
        assert!(text.contains("store at 120 bar (1740 psi)"), "{text}");
        assert!(text.contains("Holds 11."), "{text}");
    }
    // Filled to 3,000 psi is a bar above what these pumps give, and no slip.
    let run = hold(&["--charge", "2990 psi", "--hours", "1 h"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let run = hold(&["--precharge", "1000 psi at 59 F", "--hours", "1 h"]);
    assert_eq!(run.code, 0, "{}", run.err);
}

#[test]
fn exit_codes_tell_a_document_from_a_command_line() {
    for command in ["hold", "readings"] {
        let code = |aircraft: &str| stillwheel(&[command, aircraft]).code;
        assert_eq!(code("demo-twin"), 0);
        assert_eq!(code("demo-data/demo-twin.yaml"), 0);
        assert_eq!(code("tests/bad-input/aircraft-open-port.yaml"), 1);
        assert_eq!(code("tests/bad-input/not-there.yaml"), 3);
        assert_eq!(stillwheel(&[command, "demo-twin", "--never"]).code, 2);
        let help = stillwheel(&[command, "--help"]);
        assert_eq!(help.code, 0);
        for option in [
            "--fault",
            "--state",
            "--charge",
            "--temperature",
            "--slope",
            "--wind",
            "--hours",
            "--precharge",
            "--json",
        ] {
            assert!(help.out.contains(option), "{command} {option}");
        }
    }
}

#[test]
fn readings_tell_what_differs_and_what_cannot_be_read() {
    let run = readings(&[
        "--state",
        "C4",
        "--fault",
        "brake-l3/seal-leak",
        "--hours",
        "2 h",
    ]);
    let text = unwrapped(&run.out);
    assert!(text.contains("Read 2 h after the pumps stopped"), "{text}");
    assert!(text.contains("(healthy: dry)"), "{text}");
    assert!(text.contains("Not to be read in this state:"), "{text}");
    let healthy = unwrapped(&readings(&["--state", "C4"]).out);
    assert!(!healthy.contains("(healthy:"), "{healthy}");
    assert!(
        healthy.contains("Read half an hour after the pumps stopped"),
        "{healthy}"
    );
}
