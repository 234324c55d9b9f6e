//! The rules of choosing the next check and of stopping, on a small tree made for them.

use std::sync::Arc;
use stillwheel::authoring::{desk::Desk, document};
use stillwheel::diagnosis::evidence::Evidence;
use stillwheel::diagnosis::inference::Inference;
use stillwheel::diagnosis::next_check::{Proposal, proposals};
use stillwheel::diagnosis::situation::Situation;
use stillwheel::diagnosis::stop::{Proof, Standing, standing};

use crate::run::{root, stillwheel};

struct Desktop {
    inference: Inference,
    evidence: Evidence,
    situation: Situation,
}

impl Desktop {
    fn new() -> Self {
        let mut desk = Desk::default();
        let path = root().join("tests/documents/small-rules.yaml");
        let model = document::tree(&mut desk, path.to_str().unwrap(), None).unwrap();
        let inference = Inference::new(Arc::new(model));
        Self {
            evidence: Evidence::report_only(inference.model()),
            situation: Situation::as_found(inference.model()),
            inference,
        }
    }

    fn check(&self, id: &str) -> usize {
        self.inference.model().check(id).unwrap()
    }

    fn answer(&mut self, id: &str, word: &str) {
        let (check, model) = (self.check(id), Arc::clone(self.inference.model()));
        match model.checks[check].answer(word) {
            Some(answer) => {
                self.situation.make(&model, &model.checks[check]);
                self.evidence.answer(&model, check, answer);
            }
            None => self.evidence.cannot(check),
        }
    }

    fn next(&self) -> Vec<Proposal> {
        let belief = self.inference.believe(&self.evidence).unwrap();
        proposals(
            self.inference.model(),
            &belief,
            &self.evidence,
            &self.situation,
        )
    }

    fn proposal(&self, id: &str) -> Option<Proposal> {
        self.next().into_iter().find(|p| p.check == self.check(id))
    }

    fn standing(&self) -> Standing {
        let belief = self.inference.believe(&self.evidence).unwrap();
        standing(&self.inference, &self.evidence, &self.situation, &belief).unwrap()
    }

    fn share_of(&self, id: &str) -> f64 {
        let event = self.inference.model().cause(id).unwrap();
        self.inference.believe(&self.evidence).unwrap().events[event]
    }
}

#[test]
fn what_takes_nothing_away_goes_before_what_is_hardly_better() {
    let desktop = Desktop::new();
    let [spoils, gentle] = ["spoils", "gentle"].map(|id| desktop.proposal(id).unwrap());
    assert!(spoils.per_minute > gentle.per_minute);
    assert_eq!(desktop.next()[0].check, desktop.check("gentle"));
}

#[test]
fn a_check_that_tells_of_a_lamp_alone_is_never_proposed() {
    assert!(Desktop::new().proposal("lamp-only").is_none());
}

#[test]
fn an_access_is_paid_once() {
    let mut desktop = Desktop::new();
    let before = desktop.proposal("in-the-well-too").unwrap().cost.minutes;
    desktop.answer("in-the-well", "yes");
    let after = desktop.proposal("in-the-well-too").unwrap().cost.minutes;
    assert!((before - after - 12.0).abs() < 1e-12, "{before} {after}");
}

#[test]
fn the_way_to_a_state_is_counted_and_what_it_takes_away() {
    let desktop = Desktop::new();
    let cost = desktop.proposal("with-pumps").unwrap().cost;
    // External power 8, pumps 12, the check itself 3.
    assert!((cost.minutes - 23.0).abs() < 1e-12);
    let gone: Vec<&str> = cost.takes_away.iter().map(|word| word.name).collect();
    assert_eq!(gone, ["recorder", "pressure", "fluid"]);
}

#[test]
fn a_check_that_comes_too_late_is_not_proposed() {
    let mut desktop = Desktop::new();
    assert!(desktop.proposal("in-the-well-too").is_some());
    desktop.answer("spoils", "yes");
    assert!(desktop.proposal("in-the-well-too").is_none());
}

#[test]
fn a_repeatable_check_adds_and_another_replaces() {
    let mut desktop = Desktop::new();
    desktop.answer("gentle", "yes");
    let once = desktop.share_of("a");
    desktop.answer("gentle", "yes");
    assert!(desktop.share_of("a") > once);
    let mut other = Desktop::new();
    other.answer("spoils", "no");
    other.answer("spoils", "yes");
    let replaced = other.share_of("a");
    let mut fresh = Desktop::new();
    fresh.answer("spoils", "yes");
    assert_eq!(replaced.to_bits(), fresh.share_of("a").to_bits());
}

#[test]
fn causes_that_no_check_tells_apart_are_one_group() {
    let mut desktop = Desktop::new();
    desktop.answer("gentle", "yes");
    let standing = desktop.standing();
    let model = desktop.inference.model();
    let ids: Vec<&str> = standing
        .group
        .iter()
        .map(|e| model.causes[*e].id.as_str())
        .collect();
    assert_eq!(ids, ["a", "twin-of-a"]);
    let sum = desktop.share_of("a") + desktop.share_of("twin-of-a");
    assert!(standing.share > desktop.share_of("a") && standing.share <= sum);
}

#[test]
fn the_rule_needs_share_and_proof_and_cannot_is_no_proof() {
    let mut desktop = Desktop::new();
    for _ in 0..3 {
        desktop.answer("gentle", "yes");
    }
    let standing = desktop.standing();
    assert!(standing.share > 0.8);
    assert!(matches!(standing.proof, Proof::Missing(_)) && !standing.met);
    desktop.answer("proof", "yes");
    assert!(desktop.standing().met);
    let mut cannot = Desktop::new();
    for _ in 0..3 {
        cannot.answer("gentle", "yes");
    }
    cannot.answer("proof", "cannot");
    assert!(matches!(cannot.standing().proof, Proof::Impossible(_)) && !cannot.standing().met);
    let mut against = Desktop::new();
    for _ in 0..9 {
        against.answer("gentle", "yes");
    }
    against.answer("proof", "no");
    assert!(matches!(
        against.standing().proof,
        Proof::Contradicted { .. }
    ));
    assert!(!against.standing().met);
}

/// The digits of one ranking, written down from a release build: every build and machine must
/// give them to 12 digits, and the same build the same bits.
#[test]
fn the_digits_are_the_ones_written_down() {
    let arguments = [
        "rank",
        "crept-while-parked",
        "--json",
        "--given",
        "moved-after=2 h to 9 h",
        "--answer",
        "lever-position=yes",
        "--answer",
        "gas-gauge=at-precharge",
        "--answer",
        "park-light=no",
    ];
    let run = stillwheel(&arguments);
    assert_eq!(run.out, stillwheel(&arguments).out, "the same twice");
    let path = root().join("tests/documents/digits.json");
    if std::env::var_os("ACCEPT").is_some() {
        std::fs::write(&path, &run.out).unwrap();
    }
    let wanted: serde_json::Value =
        serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    let found: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    same(&wanted, &found, "ranking");
}

fn same(wanted: &serde_json::Value, found: &serde_json::Value, at: &str) {
    use serde_json::Value;
    match (wanted, found) {
        (Value::Number(a), Value::Number(b)) => {
            let (a, b) = (a.as_f64().unwrap(), b.as_f64().unwrap());
            assert!((a - b).abs() <= 1e-12 * a.abs().max(1e-3), "{at}: {a} {b}");
        }
        (Value::Array(a), Value::Array(b)) => {
            assert_eq!(a.len(), b.len(), "{at}");
            for (a, b) in a.iter().zip(b) {
                same(a, b, at);
            }
        }
        (Value::Object(a), Value::Object(b)) => {
            assert_eq!(
                a.keys().collect::<Vec<_>>(),
                b.keys().collect::<Vec<_>>(),
                "{at}"
            );
            for (key, a) in a {
                same(a, &b[key], key);
            }
        }
        (a, b) => assert_eq!(a, b, "{at}"),
    }
}
