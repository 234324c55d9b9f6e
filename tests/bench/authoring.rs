//! Checking trees of 300 and of 5,000 nodes, and working what an author asks for.

#[path = "../suite/generated_tree.rs"]
mod generated_tree;

use crate::measure::time;
use generated_tree::clean_tree;
use stillwheel::authoring::{desk::Desk, document};
use stillwheel::tree::cut_sets::CutSets;
use stillwheel::tree::importance::importance;

/// Prints the figures.
pub fn run() {
    println!("Authoring (goals: 300 nodes checked in 50 ms, 5,000 in 500 ms)");
    let folder = tempfile::tempdir().expect("a folder for the bench");
    for nodes in [300, 5_000] {
        let path = folder.path().join("tree.yaml");
        std::fs::write(&path, clean_tree(nodes)).expect("the bench can write");
        let name = path.to_str().expect("a plain path");
        let load = || {
            let mut desk = Desk::default();
            let model = document::tree(&mut desk, name, None);
            assert!(desk.problems.is_empty(), "{:?}", desk.problems);
            model.expect("the generated tree is clean")
        };
        time(
            &format!("tree of {nodes} nodes, checked with every rule"),
            load,
        );
        let model = load();
        let sets = || CutSets::of(&model.tree, &model.priors).expect("it is small");
        time(&format!("cut sets of {nodes} nodes, counted"), || {
            sets().orders()
        });
        if nodes <= 300 {
            time(&format!("importance of {nodes} nodes"), || {
                importance(&model.tree, &mut sets()).len()
            });
        }
    }
}
