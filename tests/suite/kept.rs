//! Lines worked out at load, and the file beside a tree that keeps them.

use std::path::Path;
use std::sync::Arc;

use crate::run::{expect_file, root, stillwheel, stillwheel_in};
use stillwheel::authoring::{desk::Desk, document, kept};
use stillwheel::diagnosis::evidence::Evidence;
use stillwheel::diagnosis::inference::Inference;
use stillwheel::diagnosis::model::Model;

/// A tree whose one check carries no lines.
fn masks() -> String {
    let text = std::fs::read_to_string(root().join("tests/documents/masks.yaml")).unwrap();
    let own = "    lines:\n      - {otherwise: [0.3, 0.4, 0.3]}\n";
    assert!(text.contains(own));
    text.replace(own, "")
}

fn written(text: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("tree.yaml"), text).unwrap();
    folder
}

fn run(folder: &Path, arguments: &[&str]) -> (String, i32) {
    let run = stillwheel_in(folder, arguments, "");
    (run.out + &run.err, run.code)
}

fn check(folder: &Path) -> String {
    run(folder, &["tree", "check", "tree.yaml"]).0
}

fn keep(folder: &Path) {
    let (out, code) = run(folder, &["tree", "derive", "tree.yaml", "--keep"]);
    assert_eq!(code, 0, "{out}");
}

fn rank(folder: &Path) -> String {
    let answer = ["--answer", "indicator=usual"];
    let (out, code) = run(
        folder,
        &[&["rank", "tree.yaml", "--json"], &answer[..]].concat(),
    );
    assert_eq!(code, 0, "{out}");
    out
}

fn load(tree: &str, without_kept: bool) -> Model {
    let mut desk = Desk {
        without_kept,
        ..Desk::default()
    };
    let model = document::tree(&mut desk, tree, None);
    assert!(desk.notes.is_empty(), "{:?}", desk.notes);
    model.unwrap_or_else(|| panic!("{:?}", desk.problems))
}

#[test]
fn a_check_without_lines_has_those_of_the_plant() {
    let folder = written(&masks());
    let derived = run(folder.path(), &["tree", "derive", "tree.yaml"]).0;
    let lines = derived.split_once("  indicator:\n").unwrap().1;
    let by_hand = masks().replace(
        "    answers: [low, usual, high]\n",
        &format!("    answers: [low, usual, high]\n{lines}"),
    );
    let ranked = rank(folder.path());
    assert_eq!(ranked, rank(written(&by_hand).path()));
    // The pair that hides itself stands where one fault alone would not.
    assert!(ranked.contains("transmitter-high"), "{ranked}");
}

#[test]
fn kept_and_fresh_give_the_same_bytes_and_a_note_says_which() {
    let folder = written(&masks());
    let folder = folder.path();
    let missing = check(folder);
    assert!(missing.contains("are not kept"), "{missing}");
    assert!(
        missing.contains("tree derive tree.yaml --keep"),
        "{missing}"
    );
    let fresh = rank(folder);
    keep(folder);
    assert!(!check(folder).contains("note:"), "{}", check(folder));
    assert_eq!(rank(folder), fresh);
    // Another text with the same meaning: stale, and worked out anew.
    let tree = format!("{}# a remark\n", masks());
    std::fs::write(folder.join("tree.yaml"), tree).unwrap();
    let stale = check(folder);
    assert!(stale.contains("tree.kept.json is stale"), "{stale}");
    assert_eq!(rank(folder), fresh);
}

#[test]
fn what_is_kept_is_what_is_used() {
    let folder = written(&masks());
    keep(folder.path());
    let name = folder.path().join("tree.yaml");
    let name = name.to_str().unwrap();
    let warm = load(name, false);
    assert_eq!(warm.worked_out.derived.len(), 1);
    assert!(!warm.worked_out.order.is_empty());
    let cold = load(name, true);
    assert!(cold.worked_out.order.is_empty());
    assert_eq!(warm.checks, cold.checks);
    let states = |model: &Model| Inference::new(Arc::new(model.clone())).states();
    assert_eq!(states(&warm), states(&cold));
    // An order that names half the variables still ends in the same product; numbers that are
    // none of them are passed over.
    let mut odd = warm.clone();
    odd.worked_out.order = vec![99, warm.worked_out.order[1]];
    assert!(states(&odd).is_some());
}

/// Whatever is done to the kept file, the ranking stays the same, and a warning says why.
#[test]
fn a_damaged_kept_file_is_named_and_never_believed() {
    let folder = written(&masks());
    let folder = folder.path();
    let fresh = rank(folder);
    keep(folder);
    let file = folder.join("tree.kept.json");
    let good = std::fs::read_to_string(&file).unwrap();
    let cut = good.split_at(good.len() / 2).0;
    let mut harms = vec![
        String::new(),
        "[]".to_owned(),
        "\u{feff}{".to_owned(),
        cut.to_owned(),
        format!("{good}x"),
        "[".repeat(100_000),
    ];
    let changes = [
        ("0.97", "0.79"),
        ("0.97", "1e999"),
        ("valve-seat-leaks", "valve-seat"),
        ("\"indicator\"", "\"indicators\""),
        ("\"order\"", "\"orders\""),
        ("\"reading\"", "\"read\""),
    ];
    for (from, to) in changes {
        assert!(good.contains(from), "{from}\n{good}");
        harms.push(good.replacen(from, to, 1));
    }
    for harm in harms {
        std::fs::write(&file, &harm).unwrap();
        let checked = check(folder);
        assert!(checked.contains("warning[Y023]"), "{checked}");
        assert!(checked.contains("--> tree.kept.json:"), "{checked}");
        assert_eq!(rank(folder), fresh);
    }
    std::fs::write(&file, b"\xff\xfe").unwrap();
    assert!(check(folder).contains("it is not UTF-8"));
    std::fs::remove_file(&file).unwrap();
    std::fs::create_dir(&file).unwrap();
    assert!(check(folder).contains("this is a folder"));
    assert_eq!(rank(folder), fresh);
}

#[test]
fn faults_that_no_answer_covers_are_named_fresh_and_kept() {
    let text = masks().replace("high: [above 194 bar]", "high: [above 400 bar]");
    let folder = written(&text);
    let fresh = check(folder.path());
    assert!(fresh.contains("warning[G003]"), "{fresh}");
    assert!(fresh.contains("`transmitter-high` alone reads"), "{fresh}");
    keep(folder.path());
    let kept = check(folder.path());
    let without_note = |text: &str| -> Vec<String> {
        let lines = text.lines().filter(|line| !line.starts_with("note:"));
        lines.map(str::to_owned).collect()
    };
    assert_eq!(without_note(&kept), without_note(&fresh));
}

#[test]
fn beside_a_part_of_the_program_nothing_is_kept() {
    let run = stillwheel(&["tree", "derive", "crept-while-parked", "--keep"]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("stillwheel demo"), "{}", run.err);
}

/// What stands beside the shipped trees is what would be worked out now. Where this fails and no
/// text was changed, the rules have: then `RULES` of the derivation goes up too.
#[test]
fn the_shipped_kept_files_are_current() {
    for tree in crate::run::files("fault-trees", "yaml") {
        let name = tree.to_str().unwrap();
        let cold = Arc::new(load(name, true));
        let fresh = Inference::new(Arc::clone(&cold));
        let text = kept::text(&cold, &fresh.order()).unwrap();
        expect_file(Path::new(&kept::name_beside(name)), &text);
        // With what is kept every number is the same to the last bit.
        let warm = Arc::new(load(name, false));
        assert!(!warm.worked_out.order.is_empty());
        let kept = Inference::new(Arc::clone(&warm));
        for answer in 0..2 {
            let mut evidence = Evidence::report_only(&warm);
            evidence.answer(&warm, 0, answer);
            assert_eq!(kept.believe(&evidence), fresh.believe(&evidence));
        }
    }
}
