//! Documents that must pass: the shipped ones, and an example with every form of entry.

use crate::run::{files, stillwheel};

#[test]
fn every_shipped_document_passes_without_a_warning() {
    let mut paths = files("fault-trees", "yaml");
    paths.extend(files("demo-data", "yaml"));
    assert!(paths.len() >= 2);
    for path in paths {
        let run = stillwheel(&["tree", "check", path.to_str().unwrap()]);
        assert_eq!(run.code, 0, "{}{}", run.out, run.err);
        assert!(run.out.starts_with("no problems in "), "{}", run.out);
    }
}

#[test]
fn the_format_example_passes_and_its_case_holds() {
    let run = stillwheel(&["tree", "check", "tests/documents/format-example.yaml"]);
    assert_eq!((run.code, run.err.as_str()), (0, ""), "{}", run.out);
    assert!(run.out.starts_with("no problems"), "{}", run.out);
    let rank = stillwheel(&[
        "rank",
        "tests/documents/format-example.yaml",
        "--given",
        "supply-used=main",
        "--answer",
        "park-light=no",
        "--json",
    ]);
    assert_eq!(rank.code, 0, "{}", rank.err);
    let json: serde_json::Value = serde_json::from_str(&rank.out).unwrap();
    let first = json["causes"][0]["id"].as_str().unwrap();
    assert!(
        ["valve-jammed-open", "latch-switch-open"].contains(&first),
        "{first}"
    );
}

#[test]
fn cases_of_the_shipped_trees_hold() {
    use std::sync::Arc;
    use stillwheel::authoring::{desk::Desk, document};
    use stillwheel::diagnosis::cause::Part;
    use stillwheel::diagnosis::evidence::Evidence;
    use stillwheel::diagnosis::inference::Inference;
    use stillwheel::diagnosis::ranking::ranking;
    let mut cases = 0;
    for path in files("fault-trees", "yaml") {
        let mut desk = Desk::default();
        let model = document::tree(&mut desk, path.to_str().unwrap(), None).unwrap();
        let inference = Inference::new(Arc::new(model));
        let model = inference.model();
        for case in &model.cases {
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
            let first = ranking(model, &belief, Part::Cause)[0].event;
            let id = &model.causes[first].id;
            assert!(case.first.contains(&first), "{}: {id} is first", case.name);
            cases += 1;
        }
    }
    assert!(cases >= 4);
}

#[test]
fn before_any_check_no_cause_leads_too_far_and_the_product_stays_small() {
    use stillwheel::authoring::{desk::Desk, document};
    use stillwheel::diagnosis::evidence::Evidence;
    use stillwheel::diagnosis::inference::Inference;
    for path in files("fault-trees", "yaml") {
        let mut desk = Desk::default();
        let model = document::tree(&mut desk, path.to_str().unwrap(), None).unwrap();
        let inference = Inference::new(std::sync::Arc::new(model));
        let belief = inference
            .believe(&Evidence::report_only(inference.model()))
            .unwrap();
        assert!(belief.events.iter().all(|p| *p <= 0.40));
        assert!(inference.states().unwrap() < stillwheel::tree::engine::SHIPPED_BUDGET);
    }
}
