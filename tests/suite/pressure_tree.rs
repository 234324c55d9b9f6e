//! What the tree of the lost pressure must tell apart, and what it shares with the tree of the
//! aircraft that moved.

use std::collections::BTreeSet;
use std::sync::Arc;

use crate::crept_tree::{ids, ranked};
use crate::run::{root, stillwheel};
use stillwheel::authoring::{desk::Desk, document, embedded};
use stillwheel::diagnosis::cause::Part;
use stillwheel::diagnosis::evidence::Evidence;
use stillwheel::diagnosis::inference::Inference;
use stillwheel::diagnosis::model::{Case, Model};
use stillwheel::diagnosis::ranking::ranking;
use stillwheel::tree::engine::SHIPPED_BUDGET;

const TREE: &str = "pressure-found-gone";

/// Causes that no check tells apart: a wet bleed port is named by its place alone, and a lever
/// that came before the pumps is asked of the same crew as a brake that nothing fed.
const ALIKE: &[&[&str]] = &[
    &["left-bleed-port-loose", "right-bleed-port-loose"],
    &["set-before-pumps-ran", "set-with-nothing-feeding"],
];

fn model(id: &str) -> Arc<Model> {
    Arc::new(document::tree(&mut Desk::default(), id, None).unwrap())
}

/// The causes in their order once a case is answered.
fn order(inference: &Inference, case: &Case) -> Vec<usize> {
    let model = inference.model();
    let mut evidence = Evidence::report_only(model);
    for told in &case.given {
        evidence.tell(told.clone());
    }
    for (check, answer) in &case.answers {
        match answer {
            Some(answer) => evidence.answer(model, *check, *answer),
            None => evidence.cannot(*check),
        }
    }
    let belief = inference.believe(&evidence).unwrap();
    let causes = ranking(model, &belief, Part::Cause);
    causes.iter().map(|place| place.event).collect()
}

#[test]
fn it_is_small_enough_and_no_cause_leads_before_any_check() {
    let inference = Inference::new(model(TREE));
    assert!(inference.states().unwrap() < SHIPPED_BUDGET);
    let belief = inference
        .believe(&Evidence::report_only(inference.model()))
        .unwrap();
    let causes = ranking(inference.model(), &belief, Part::Cause);
    assert!(belief.events[causes[0].event] <= 0.40);
}

#[test]
fn every_cause_comes_first_in_a_case_or_stands_in_a_group_that_no_check_splits() {
    let inference = Inference::new(model(TREE));
    let model = inference.model();
    let first: BTreeSet<&str> = model
        .cases
        .iter()
        .map(|case| model.causes[order(&inference, case)[0]].id.as_str())
        .collect();
    for cause in model.causes.iter().filter(|c| c.part == Part::Cause) {
        let id = cause.id.as_str();
        let alike = ALIKE
            .iter()
            .find(|group| group.contains(&id))
            .is_some_and(|group| group.iter().any(|other| first.contains(other)));
        assert!(first.contains(id) || alike, "{id} is never first");
    }
}

/// The needle stands well because the transmitter reads high, and the charge below it is low:
/// neither may hide the other.
#[test]
fn a_transmitter_that_reads_high_and_the_low_charge_below_it_stand_first_and_second() {
    let answers = [
        "flight-deck-gauge=above-charge",
        "gas-gauge=below-precharge",
        "gauges-side-by-side=above-direct",
        "transmitter-ohms=offset",
        "third-gauge=direct",
        "gas-bubbles=no",
        "pump-down=below",
        "applications=fewer",
    ];
    let json = ranked(TREE, &answers);
    let mut first = ids(&json, "causes", 2);
    first.sort_unstable();
    assert_eq!(first, ["gas-charge-low", "transmitter-reads-high"]);
    let chance = |at: usize| json["causes"][at]["probability"].as_f64().unwrap();
    assert!(chance(0) > 0.5 && chance(1) > 0.5, "both stand");
    // Without the comparison of the gauges the low charge alone is left.
    let json = ranked(
        TREE,
        &[
            "gas-gauge=below-precharge",
            "pump-down=below",
            "applications=fewer",
        ],
    );
    assert!(!ids(&json, "causes", 2).contains(&"transmitter-reads-high"));
}

#[test]
fn held_as_designed_is_an_answer() {
    let json = ranked(
        TREE,
        &[
            "gas-gauge=at-precharge",
            "leak-down=normal",
            "ask-low-after=night",
        ],
    );
    assert_eq!(ids(&json, "causes", 1), ["ran-down-as-designed"]);
}

#[test]
fn a_brake_that_let_go_with_its_pressure_kept_is_no_cause_here() {
    let here = model(TREE);
    for id in [
        "pawl-worn",
        "never-set",
        "slid",
        "pushed",
        "chock-slipped",
        "thrust",
        "blown",
    ] {
        assert!(here.cause(id).is_none(), "{id}");
    }
    let there = model("crept-while-parked");
    for id in ["gas-charge-low", "transmitter-reads-low", "indicator-dead"] {
        let cause = here.cause(id).unwrap();
        assert!(here.causes[cause].part == Part::Cause, "{id}");
    }
    for id in ["transmitter-reads-low", "indicator-dead", "gas-low"] {
        let bystander = there.cause(id).unwrap();
        assert!(there.causes[bystander].part == Part::Bystander, "{id}");
    }
}

/// One text for both trees: what a leak looks like is written once.
#[test]
fn both_trees_take_their_leaks_from_one_file() {
    let [here, there] = [TREE, "crept-while-parked"].map(model);
    for id in ["valve-seat-leaks", "brake-seal-leaks", "left-cable-slack"] {
        let text = |model: &Model| {
            let cause = &model.causes[model.cause(id).unwrap()];
            (cause.title.clone(), cause.looks_like.clone())
        };
        assert_eq!(text(&here), text(&there), "{id}");
    }
}

#[test]
fn the_reports_that_are_offered_are_those_of_the_trees() {
    let offered: Vec<_> = embedded::reports().collect();
    assert_eq!(offered.len(), 2);
    let readme = std::fs::read_to_string(root().join("README.md")).unwrap();
    for (id, words) in offered {
        assert_eq!(model(id).report, words);
        assert!(readme.contains(&format!("| {words} | {id} |")), "{id}");
    }
}

/// Written out, the trees stand on their own: the file they share goes with them.
#[test]
fn what_demo_writes_ranks_as_what_is_embedded() {
    let folder = tempfile::tempdir().unwrap();
    let place = folder.path().to_str().unwrap();
    assert_eq!(stillwheel(&["demo", place]).code, 0);
    for id in [TREE, "crept-while-parked"] {
        let written = folder.path().join(format!("fault-trees/{id}.yaml"));
        let written = written.to_str().unwrap();
        let check = stillwheel(&["tree", "check", written]);
        assert_eq!(check.code, 0, "{}{}", check.out, check.err);
        let causes = |tree: &str| ranked(tree, &["leak-down=slow"])["causes"].clone();
        assert_eq!(causes(written), causes(id), "{id}");
    }
}
