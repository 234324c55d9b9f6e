//! Twenty-five mistakes as authors make them, each planted alone in a clean tree of 300 nodes.

use crate::generated_tree::clean_tree;
use crate::run::stillwheel_in;

/// What is replaced, by what, the code, and the words at which the problem must stand.
struct Planted {
    find: &'static str,
    write: &'static str,
    code: &'static str,
    at: &'static str,
}

const fn planted(
    find: &'static str,
    write: &'static str,
    code: &'static str,
    at: &'static str,
) -> Planted {
    Planted {
        find,
        write,
        code,
        at,
    }
}

const MISTAKES: [Planted; 25] = [
    // Typing.
    planted("e10: {title:", "e10: {titel:", "Y017", "titel:"),
    planted(
        "  e12: {",
        "  e11: {",
        "Y009",
        "e11: {title: Fault of part 12",
    ),
    planted("  e13: {", "  E13: {", "Y020", "E13"),
    planted(
        "title: Fault of part 14,",
        "title: [Fault, part],",
        "Y016",
        "title: [Fault",
    ),
    planted("  e15: {", "  e15: &spare {", "Y010", "&spare"),
    planted(
        "cautions: [roll]\n  k7:",
        "cautions: [rolll]\n  k7:",
        "Y021",
        "rolll",
    ),
    planted("    ask: Does part 8 look damaged?\n", "", "Y018", "k8:"),
    // Numbers and units.
    planted("exposure: 100 h", "exposure: 100", "U001", "100"),
    planted(
        "exposure: 100 h",
        "exposure: 100 hours",
        "U002",
        "100 hours",
    ),
    planted("exposure: 100 h", "exposure: 100 bar", "U003", "100 bar"),
    planted(
        "Fault of part 20, chance: 1e-5",
        "Fault of part 20, chance: 1.5",
        "U006",
        "1.5",
    ),
    planted(
        "Fault of part 21, chance: 1e-5",
        "Fault of part 21, chance: -1e-5",
        "U006",
        "-1e-5",
    ),
    planted(
        "Fault of part 22, chance: 1e-5",
        "Fault of part 22, chance: small",
        "U005",
        "small",
    ),
    planted("unlisted: 0.05", "unlisted: 1.0", "T013", "1.0"),
    // Logic.
    planted("g5: {any: [e15, ", "g5: {any: [e1x5, ", "T001", "e1x5"),
    planted("g6: {any: [", "g6: {any: [g6, ", "T002", "g6: {any"),
    planted("top: moved", "top: movd", "T001", "movd"),
    planted("g8: {any: [", "g8: {all: [e0], any: [", "T004", "g8: {all"),
    planted(
        "Fault of part 31, chance: 1e-5",
        "Fault of part 31, chance: 1e-5, rate: 1e-6 /h",
        "T005",
        "e31: {title",
    ),
    planted(
        "Fault of part 32, chance: 1e-5, confirm: {check: k32,",
        "Fault of part 32, chance: 1e-5, confirm: {check: k3222,",
        "C008",
        "k3222",
    ),
    // What is no error and had better be otherwise.
    planted(
        "      - {when: e30, chance: 0.9}\n",
        "      - {when: g10, chance: 0.8}\n      - {when: e30, chance: 0.9}\n",
        "L006",
        "{when: e30, chance: 0.9}",
    ),
    planted("      - {when: c3, chance: 0.3}\n", "", "L004", "c3: {ask"),
    planted(
        "Replace part 40.",
        "\"Drain part 40, then replace it.\"",
        "L012",
        "\"Drain part 40",
    ),
    planted(
        "Does part 41 look damaged?",
        "Does part 41, or any of the pipes, clips, nuts, seals and wires beside it, look as if it had been damaged somehow?",
        "L010",
        "Does part 41",
    ),
    planted(
        "puts-back: [leak-check]}, reference: approved-data}\n  e43:",
        "puts-back: []}, reference: approved-data}\n  e43:",
        "L017",
        "remedy: {do: Replace part 42.",
    ),
];

fn check(text: &str) -> Vec<String> {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("tree.yaml"), text).unwrap();
    let run = stillwheel_in(
        folder.path(),
        &["tree", "check", "--lines", "tree.yaml"],
        "",
    );
    assert_eq!(run.err, "");
    run.out.lines().map(str::to_owned).collect()
}

/// The clean tree has 300 nodes, and nothing is said of it.
#[test]
fn nothing_is_said_of_the_clean_tree() {
    let text = clean_tree(300);
    let nodes = ["  c", "  e", "  g", "  k", "  moved"];
    let count = text
        .lines()
        .filter(|line| nodes.iter().any(|start| line.starts_with(start)))
        .count();
    assert_eq!(count, 300);
    assert_eq!(check(&text), Vec::<String>::new());
}

#[test]
fn planted_mistakes_are_found_at_their_line_and_column() {
    let clean = clean_tree(300);
    let mut missed = Vec::new();
    for mistake in &MISTAKES {
        assert_eq!(clean.matches(mistake.find).count(), 1, "{}", mistake.find);
        let text = clean.replacen(mistake.find, mistake.write, 1);
        let place = text.find(mistake.at).unwrap();
        let line = text[..place].matches('\n').count() + 1;
        let column = place - text[..place].rfind('\n').map_or(0, |at| at + 1) + 1;
        let found = check(&text);
        let wanted = format!("tree.yaml:{line}:{column}: ");
        let hit = found
            .iter()
            .any(|one| one.starts_with(&wanted) && one.contains(mistake.code));
        if !hit {
            missed.push(format!("{} at {line}:{column} in {found:#?}", mistake.code));
        }
        // Beside it only what follows from it: a name that is gone is missed where it is used.
        let follows = |one: &&String| !one.starts_with(&wanted) && !one.contains("[T001]");
        assert_eq!(
            found.iter().filter(follows).count(),
            0,
            "{}: {found:#?}",
            mistake.write
        );
    }
    let found = MISTAKES.len() - missed.len();
    assert!(found >= 24, "{found} of 25 found:\n{}", missed.join("\n"));
}
