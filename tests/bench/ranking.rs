//! Ranking: compile, one answer, all checks scored.

use std::sync::Arc;

use crate::measure::time;
use stillwheel::authoring::{desk::Desk, document};
use stillwheel::diagnosis::evidence::Evidence;
use stillwheel::diagnosis::inference::Inference;
use stillwheel::diagnosis::model::Model;
use stillwheel::diagnosis::next_check::proposals;
use stillwheel::diagnosis::situation::Situation;

fn figures(name: &str, model: Model) {
    let model = Arc::new(model);
    let inference = Inference::new(Arc::clone(&model));
    println!("{name}: {:?} states", inference.states());
    let mut unordered = Model::clone(&model);
    unordered.worked_out.order = Vec::new();
    let unordered = Arc::new(unordered);
    time("  compile all checks, looking for an order", || {
        Inference::new(Arc::clone(&unordered)).states()
    });
    if !model.worked_out.order.is_empty() {
        time("  compile all checks in the kept order", || {
            Inference::new(Arc::clone(&model)).states()
        });
    }
    let mut evidence = Evidence::report_only(&model);
    evidence.answer(&model, 0, 0);
    time("  one answer, every posterior", || {
        inference.believe(&evidence).is_ok()
    });
    let situation = Situation::as_found(&model);
    time("  one answer, all checks scored", || {
        let belief = inference
            .believe(&evidence)
            .expect("the answer is possible");
        proposals(&model, &belief, &evidence, &situation).len()
    });
}

/// Prints the figures.
pub fn run() {
    println!("Ranking (goals: compile 5 ms, one answer 0.1 ms, all scored 2 ms)");
    let mut desk = Desk::default();
    let names = ["crept-while-parked", "tests/documents/many-causes.yaml"];
    for name in names {
        match document::tree(&mut desk, name, None) {
            Some(model) => figures(name, model),
            None => println!("{name} is not there"),
        }
    }
}
