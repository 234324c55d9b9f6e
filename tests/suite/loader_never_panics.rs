//! Mutated documents: whatever is done to a text, the loader answers with problems.

use proptest::prelude::*;
use std::sync::OnceLock;
use stillwheel::authoring::{desk::Desk, document};

fn shipped() -> &'static [String] {
    static TEXTS: OnceLock<Vec<String>> = OnceLock::new();
    TEXTS.get_or_init(|| {
        let names = [
            "fault-trees/crept-while-parked.yaml",
            "fault-trees/pressure-found-gone.yaml",
            "fault-trees/shared/parked-pressure.yaml",
            "demo-data/demo-twin.yaml",
            "tests/documents/format-example.yaml",
        ];
        names
            .iter()
            .map(|name| std::fs::read_to_string(crate::run::root().join(name)).unwrap())
            .map(|text| with_lines(&text))
            .collect()
    })
}

/// A tree whose every check has lines: those worked out from the plant take seconds a text.
fn with_lines(text: &str) -> String {
    let starts = |line: &str| line.starts_with("  ") && !line.starts_with("   ");
    let mut entries: Vec<String> = vec![String::new()];
    for line in text.split_inclusive('\n') {
        if starts(line) {
            entries.push(String::new());
        }
        entries.last_mut().unwrap().push_str(line);
    }
    for entry in &mut entries {
        let has = |key: &str| entry.lines().any(|line| line.starts_with(key));
        if !has("    shows:") || has("    yes:") || has("    lines:") {
            continue;
        }
        let answers = entry.lines().find(|line| line.starts_with("    answers:"));
        let lines = match answers.map(|line| line.matches(',').count()) {
            None => "    yes: [{otherwise: 0.5}]".to_owned(),
            Some(others) => format!("    lines: [{{otherwise: [1{}]}}]", ", 0".repeat(others)),
        };
        let (head, rest) = entry.split_once("    shows:").unwrap();
        *entry = format!("{head}{lines}\n    shows:{rest}");
    }
    entries.concat()
}

#[derive(Debug, Clone)]
enum Mutation {
    CutAt(usize),
    DropLine(usize),
    RepeatLine(usize),
    SwapLines(usize, usize),
    ReplaceByte(usize, u8),
    Insert(usize, &'static str),
}

fn mutation() -> impl Strategy<Value = Mutation> {
    let at = 0usize..20_000;
    let pieces = prop::sample::select(vec![
        "[", "]", "{", "}", ": ", "&a ", "*a", "!t ", "- ", "\"", "'", "#", "\n", "\t", "0x10",
        ".nan", "-1", "1e999", "null", "~", "ä", "\u{feff}", "<<: x", "---\n", "yes", ",",
    ]);
    prop_oneof![
        at.clone().prop_map(Mutation::CutAt),
        at.clone().prop_map(Mutation::DropLine),
        at.clone().prop_map(Mutation::RepeatLine),
        (at.clone(), at.clone()).prop_map(|(a, b)| Mutation::SwapLines(a, b)),
        (at.clone(), any::<u8>()).prop_map(|(a, b)| Mutation::ReplaceByte(a, b)),
        (at, pieces).prop_map(|(a, piece)| Mutation::Insert(a, piece)),
    ]
}

fn mutate(bytes: &mut Vec<u8>, mutation: &Mutation) {
    let mut lines: Vec<Vec<u8>> = bytes.split(|b| *b == b'\n').map(<[u8]>::to_vec).collect();
    let count = lines.len();
    match mutation {
        Mutation::CutAt(at) => bytes.truncate(at % (bytes.len() + 1)),
        Mutation::ReplaceByte(at, byte) => {
            let len = bytes.len();
            if len > 0 {
                bytes[at % len] = *byte;
            }
        }
        Mutation::Insert(at, piece) => {
            let at = at % (bytes.len() + 1);
            bytes.splice(at..at, piece.bytes());
        }
        Mutation::DropLine(at) => {
            lines.remove(at % count);
            *bytes = lines.join(&b'\n');
        }
        Mutation::RepeatLine(at) => {
            let line = lines[at % count].clone();
            lines.insert(at % count, line);
            *bytes = lines.join(&b'\n');
        }
        Mutation::SwapLines(a, b) => {
            lines.swap(a % count, b % count);
            *bytes = lines.join(&b'\n');
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, ..ProptestConfig::default() })]

    #[test]
    fn a_mutated_document_is_loaded_or_refused_with_words(
        which in 0usize..3,
        mutations in prop::collection::vec(mutation(), 1..4),
    ) {
        let mut bytes = shipped()[which].clone().into_bytes();
        for mutation in &mutations {
            mutate(&mut bytes, mutation);
        }
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("mutated.yaml");
        std::fs::write(&path, &bytes).unwrap();
        let mut desk = Desk::default();
        let found = document::any(&mut desk, path.to_str().unwrap(), None);
        prop_assert!(found.is_some() != desk.has_errors(), "{:?}", desk.problems);
        for problem in &desk.problems {
            let shown = stillwheel::source::render::snippet(problem, &desk.files);
            prop_assert!(shown.contains(problem.code.id));
        }
    }
}
