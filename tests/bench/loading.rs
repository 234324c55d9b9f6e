//! Loading: shipped documents, a large tree, and what the limits refuse.

use crate::measure::{peak_memory, time};
use stillwheel::authoring::{desk::Desk, document};

fn check(path: &std::path::Path) -> usize {
    let mut desk = Desk::default();
    document::any(&mut desk, path.to_str().expect("a plain path"), None);
    desk.problems.len()
}

/// A tree of so many events, in gates of ten.
fn large_tree(events: usize) -> String {
    let mut text = String::from(
        "stillwheel: tree 1\nid: large\ntitle: Large\nreport: It moved.\nexposure: 100 h\nsource: invented\nevents:\n",
    );
    for event in 0..events {
        text.push_str(&format!("  e{event}: {{rate: 1e-9 /h, remedy: none}}\n"));
    }
    text.push_str("gates:\n");
    for gate in 0..events / 10 {
        let inputs: Vec<String> = (0..10).map(|i| format!("e{}", gate * 10 + i)).collect();
        text.push_str(&format!("  g{gate}: {{any: [{}]}}\n", inputs.join(", ")));
    }
    let gates: Vec<String> = (0..events / 10).map(|gate| format!("g{gate}")).collect();
    text.push_str(&format!(
        "  top: {{any: [{}]}}\ntop: top\n",
        gates.join(", ")
    ));
    text
}

/// Prints the figures.
pub fn run() {
    let folder = tempfile::tempdir().expect("a folder for the bench");
    let named = |name: &str, bytes: &[u8]| {
        let path = folder.path().join(name);
        std::fs::write(&path, bytes).expect("the bench can write");
        path
    };
    println!("Loading (goals: refusals under 1 s and 100 MB, warm load under 100 ms)");
    for (name, without_kept) in [("kept (warm)", false), ("worked out (cold)", true)] {
        time(&format!("shipped tree, derived lines {name}"), || {
            let mut desk = Desk {
                without_kept,
                ..Desk::default()
            };
            document::tree(&mut desk, "crept-while-parked", None).is_some()
        });
    }
    let path = named("large.yaml", large_tree(5_000).as_bytes());
    time("tree of 5,000 events, structure alone", || check(&path));
    let path = named("brackets.yaml", "[".repeat(100_000).as_bytes());
    time("100,000 brackets, refused", || check(&path));
    let path = named("fifty.yaml", &vec![b'a'; 50 * 1024 * 1024]);
    time("50 MB, refused by length", || check(&path));
    let many = format!("stillwheel: tree 1\nx: [{}]\n", "1,".repeat(250_000));
    let path = named("many.yaml", many.as_bytes());
    time("250,000 values, refused", || check(&path));
    let keys: String = (0..150_000).map(|i| format!("k{i}: 1\n")).collect();
    let path = named(
        "keys.yaml",
        format!("stillwheel: tree 1\n{keys}").as_bytes(),
    );
    time("150,000 unknown keys, each named", || check(&path));
    if let Some(peak) = peak_memory() {
        println!("peak memory of all of this: {peak:.0} MB");
    }
}
