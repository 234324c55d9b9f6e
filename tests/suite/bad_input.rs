//! Bad input: one defect a file, the exact text that is printed, and the exit code.

use crate::run::{expect_file, files, root, stillwheel_in};
use stillwheel::authoring::{desk::Desk, document, limits};

fn check(folder: &std::path::Path, name: &str) -> (String, i32) {
    let run = stillwheel_in(folder, &["tree", "check", name], "");
    assert_eq!(run.err, "", "{name}");
    (run.out, run.code)
}

#[test]
fn every_bad_document_is_answered_with_its_text() {
    let folder = root().join("tests/bad-input");
    let all = files("tests/bad-input", "yaml");
    assert!(all.len() >= 25, "{} fixtures", all.len());
    for path in all {
        let name = path.file_name().unwrap().to_str().unwrap();
        let (out, code) = check(&folder, name);
        let only_warnings = name.starts_with("warning-");
        assert_eq!(code, i32::from(!only_warnings), "{name}: {out}");
        expect_file(&path.with_extension("txt"), &out);
    }
}

/// Documents that cannot stand in a repository as they are: made here, texts beside the others.
#[test]
fn every_bad_file_is_answered_with_its_text() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    std::fs::write(
        at("not-utf-8.yaml"),
        b"stillwheel: tree 1\ntitle: Caf\xe9\n",
    )
    .unwrap();
    std::fs::write(at("empty.yaml"), "").unwrap();
    std::fs::write(at("comments-only.yaml"), "# nothing here\n").unwrap();
    std::fs::create_dir(at("a-folder.yaml")).unwrap();
    std::fs::write(at("depth-bomb.yaml"), depth_bomb()).unwrap();
    std::fs::write(at("brackets.yaml"), "[".repeat(100_000)).unwrap();
    let file = std::fs::File::create(at("fifty-megabytes.yaml")).unwrap();
    file.set_len(50 * 1024 * 1024).unwrap();
    std::fs::write(at("too-many.yaml"), too_many()).unwrap();
    std::fs::write(at("nul.yaml"), "stillwheel: tree 1\nid: a\0b\n").unwrap();
    let cases = [
        ("not-utf-8", 1),
        ("empty", 1),
        ("comments-only", 1),
        ("a-folder", 3),
        ("depth-bomb", 1),
        ("brackets", 1),
        ("fifty-megabytes", 1),
        ("too-many", 1),
        ("nul", 1),
        ("not-there", 3),
    ];
    for (name, wanted) in cases {
        let (out, code) = check(folder.path(), &format!("{name}.yaml"));
        assert_eq!(code, wanted, "{name}: {out}");
        expect_file(
            &root().join(format!("tests/bad-input/file-{name}.txt")),
            &out,
        );
    }
}

fn depth_bomb() -> String {
    let mut text = String::from("stillwheel: tree 1\n");
    for depth in 0..200 {
        text.push_str(&" ".repeat(depth));
        text.push_str("a:\n");
    }
    text
}

fn too_many() -> String {
    format!(
        "stillwheel: tree 1\nx: [{}]\n",
        "1,".repeat(limits::MAX_NODES + 1)
    )
}

/// Loads a text from a file and gives bytes read, values seen, and the codes of the problems.
fn effort(text: &[u8]) -> (u64, usize, Vec<&'static str>) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("effort.yaml");
    std::fs::write(&path, text).unwrap();
    let mut desk = Desk::default();
    document::any(&mut desk, path.to_str().unwrap(), None);
    let codes = desk
        .problems
        .iter()
        .map(|problem| problem.code.id)
        .collect();
    (desk.bytes_read, desk.nodes_seen, codes)
}

#[test]
fn a_limit_refuses_before_the_work_is_done() {
    let (read, seen, codes) = effort(&vec![b'a'; 50 * 1024 * 1024]);
    assert_eq!((read, seen, codes), (0, 0, vec!["Y003"]));
    let (_, seen, codes) = effort("[".repeat(100_000).as_bytes());
    assert!(seen < 50, "{seen} values seen");
    assert_eq!(codes, ["Y007"]);
    let (_, seen, codes) = effort(depth_bomb().as_bytes());
    assert!(seen < 50, "{seen} values seen");
    assert_eq!(codes, ["Y007"]);
    let (_, seen, codes) = effort(too_many().as_bytes());
    assert!(seen <= limits::MAX_NODES + 1, "{seen} values seen");
    assert_eq!(codes, ["Y008"]);
}

/// Two mistakes in each of the four sections: all eight come at once, each at its own line.
#[test]
fn all_problems_of_a_file_come_at_once() {
    let run = stillwheel_in(
        &root().join("tests/documents"),
        &["tree", "check", "--lines", "eight-mistakes.yaml"],
        "",
    );
    let lines: Vec<&str> = run
        .out
        .lines()
        .map(|line| line.trim_start_matches("eight-mistakes.yaml:"))
        .map(|line| line.split(':').next().unwrap())
        .collect();
    assert_eq!(
        lines,
        ["8", "9", "11", "12", "17", "18", "24", "25"],
        "{}",
        run.out
    );
    assert_eq!(run.code, 1);
}

#[test]
fn json_carries_the_same_problems() {
    let folder = root().join("tests/bad-input");
    let run = stillwheel_in(
        &folder,
        &["tree", "check", "--json", "unknown-node.yaml"],
        "",
    );
    let json: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(json["errors"], 1);
    let problem = &json["problems"][0];
    assert_eq!(problem["code"], "T001");
    assert_eq!(problem["file"], "unknown-node.yaml");
    assert!(problem["line"].as_u64().unwrap() > 1);
    assert!(problem["hint"].as_str().unwrap().contains("did you mean"));
}

#[test]
fn explain_prints_the_long_text_of_a_code() {
    let run = stillwheel_in(&root(), &["tree", "explain", "t001"], "");
    assert_eq!(run.code, 0);
    assert!(
        run.out
            .starts_with("T001 (error): a node is named that is not there\n")
    );
    let run = stillwheel_in(&root(), &["tree", "explain", "T0o1"], "");
    assert_eq!((run.code, run.out.as_str()), (2, ""));
    assert!(run.err.contains("did you mean T001"), "{}", run.err);
}
