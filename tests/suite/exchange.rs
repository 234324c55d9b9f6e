//! The open exchange format, out and in.

use crate::run::{expect_file, files, root, stillwheel, stillwheel_in};
use serde_json::Value;

fn exact(folder: &std::path::Path, tree: &str) -> f64 {
    let run = stillwheel_in(folder, &["tree", "cut-sets", "--json", tree], "");
    assert_eq!(run.code, 0, "{tree}: {}", run.err);
    let json: Value = serde_json::from_str(&run.out).unwrap();
    json["probability"]["exact"].as_f64().unwrap()
}

/// Every textbook tree, the example of the format and both shipped trees: out, in, and the chance
/// of the top is the same to twelve digits.
#[test]
fn chances_come_back_to_twelve_digits() {
    let folder = tempfile::tempdir().unwrap();
    let mut trees: Vec<String> = files("tests/published", "yaml")
        .iter()
        .map(|path| path.to_str().unwrap().to_owned())
        .collect();
    let example = root().join("tests/documents/format-example.yaml");
    trees.push(example.to_str().unwrap().to_owned());
    trees.extend([
        "crept-while-parked".to_owned(),
        "pressure-found-gone".to_owned(),
    ]);
    assert!(trees.len() >= 20);
    for tree in &trees {
        let out = stillwheel(&["tree", "export", tree]);
        assert_eq!(out.code, 0, "{tree}: {}", out.err);
        let listed = |line: &str| line.starts_with("not carried: ");
        assert!(out.err.lines().all(listed), "{}", out.err);
        std::fs::write(folder.path().join("model.xml"), &out.out).unwrap();
        let back = stillwheel_in(folder.path(), &["tree", "import", "model.xml"], "");
        assert_eq!(back.code, 0, "{tree}: {}", back.err);
        std::fs::write(folder.path().join("back.yaml"), &back.out).unwrap();
        let check = ["tree", "check", "--lines", "back.yaml"];
        let check = stillwheel_in(folder.path(), &check, "");
        assert!(!check.out.contains("error["), "{tree}: {}", check.out);
        let before = exact(folder.path(), tree);
        let after = exact(folder.path(), "back.yaml");
        let off = (after / before - 1.0).abs();
        assert!(off < 1e-12, "{tree}: {before} and {after}");
    }
}

/// A model as others write it: nested formulas, a vote, a parameter, an exponential, house events.
#[test]
fn a_model_of_others_is_taken_in() {
    let folder = root().join("tests/exchange");
    let run = stillwheel_in(&folder, &["tree", "import", "nested.xml"], "");
    assert_eq!(run.code, 0, "{}", run.err);
    expect_file(&folder.join("nested.txt"), &run.out);
    let apart = tempfile::tempdir().unwrap();
    std::fs::write(apart.path().join("nested.yaml"), &run.out).unwrap();
    // By hand: pumps 2 of 3 at 0.1 are 0.028; the grid is out by 1 - exp(-1e-4 x 100) while the
    // generator is not there, at 0.5; one of the two and not both; the house event lets it through.
    let pumps = 3.0 * 0.1f64.powi(2) * 0.9 + 0.1f64.powi(3);
    let power = -(-1e-4f64 * 100.0).exp_m1() * 0.5;
    let wanted = pumps * (1.0 - power) + power * (1.0 - pumps);
    let found = exact(apart.path(), "nested.yaml");
    assert!(
        (found / wanted - 1.0).abs() < 1e-12,
        "{found} is not {wanted}"
    );
}

#[test]
fn every_bad_model_is_answered_at_its_place() {
    let folder = root().join("tests/exchange");
    let all = files("tests/exchange", "xml");
    let bad: Vec<_> = all
        .iter()
        .filter(|path| !path.ends_with("nested.xml"))
        .collect();
    assert!(bad.len() >= 8, "{}", bad.len());
    for path in bad {
        let name = path.file_name().unwrap().to_str().unwrap();
        let run = stillwheel_in(&folder, &["tree", "import", name], "");
        assert_eq!((run.code, run.out.as_str()), (1, ""), "{name}");
        expect_file(&path.with_extension("txt"), &run.err);
    }
}

/// Made here, because they are too large or too odd to stand in a repository.
#[test]
fn hostile_models_cost_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let write = |name: &str, text: &str| std::fs::write(folder.path().join(name), text).unwrap();
    let head = "<opsa-mef><define-fault-tree name=\"t\"><define-gate name=\"a\">";
    let bomb = "<!ENTITY a \"aaaa\"><!ENTITY b \"&a;&a;&a;&a;\">";
    write("deep.xml", &format!("{head}{}", "<or>".repeat(300_000)));
    let wide = "<gate name=\"a\"/>".repeat(100_000);
    write("wide.xml", &format!("{head}<or>{wide}"));
    write(
        "bomb.xml",
        &format!("<!DOCTYPE b [{bomb}]><opsa-mef>&b;</opsa-mef>"),
    );
    let file = "<!DOCTYPE b [<!ENTITY a SYSTEM \"file.xml\">]><opsa-mef>&a;</opsa-mef>";
    write("file.xml", file);
    std::fs::write(folder.path().join("bytes.xml"), [0xff, 0xfe, 0x00]).unwrap();
    for (name, code) in [
        ("deep.xml", "X003"),
        ("wide.xml", "X001"),
        ("bomb.xml", "X002"),
        ("file.xml", "X002"),
        ("bytes.xml", "Y004"),
    ] {
        let started = std::time::Instant::now();
        let run = stillwheel_in(folder.path(), &["tree", "import", name], "");
        assert_eq!(run.code, 1, "{name}: {}", run.err);
        let said = format!("error[{code}]");
        assert!(run.err.contains(&said), "{name}: {}", run.err);
        assert!(started.elapsed().as_secs() < 20, "{name}");
    }
    let run = stillwheel_in(folder.path(), &["tree", "import", "not-there.xml"], "");
    assert_eq!(run.code, 3);
}
