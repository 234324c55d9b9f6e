//! A ranking as JSON, for other programs. The keys are a contract.

use serde_json::{Map, Value, json};

use super::ranking::{Outcome, Ranking};
use crate::diagnosis::certificate::Certificate;
use crate::diagnosis::contradiction::item_name;
use crate::diagnosis::inference::Inference;
use crate::diagnosis::model::Model;
use crate::diagnosis::ranking::Ranked;

/// The JSON of a ranking.
pub fn rank_json(inference: &Inference, outcome: &Outcome) -> Value {
    let model = inference.model();
    let head = |certificate: &Certificate| {
        let mut map = Map::new();
        map.insert("tree".into(), json!(model.id));
        let aircraft = model.aircraft.as_ref().map(|aircraft| &aircraft.id);
        map.insert("aircraft".into(), json!(aircraft));
        map.insert(
            "certificate".into(),
            json!({"kind": certificate.kind(), "reason": certificate.reason()}),
        );
        map
    };
    match outcome {
        Outcome::Ranked(ranking) => {
            let mut map = head(&Certificate::Exact);
            fill(&mut map, model, ranking);
            Value::Object(map)
        }
        Outcome::Contradiction(items) => {
            let names: Vec<String> = items
                .iter()
                .map(|item| item_name(inference, *item))
                .collect();
            json!({"contradiction": names})
        }
        Outcome::Refused(certificate) => Value::Object(head(certificate)),
    }
}

fn fill(map: &mut Map<String, Value>, model: &Model, ranking: &Ranking) {
    let dropped = model
        .causes
        .iter()
        .filter(|cause| cause.part == crate::diagnosis::cause::Part::Dropped);
    let dropped: Vec<&str> = dropped.map(|cause| cause.id.as_str()).collect();
    let nodes: Map<String, Value> = ranking
        .nodes
        .iter()
        .map(|(name, probability)| (name.clone(), json!(probability)))
        .collect();
    let next: Vec<Value> = ranking
        .next
        .iter()
        .map(|proposal| {
            let check = &model.checks[proposal.check];
            let needs = model
                .aircraft
                .as_ref()
                .map(|aircraft| aircraft.needs_in_words(&check.needs))
                .unwrap_or_default();
            let gone: Vec<&str> = proposal
                .cost
                .takes_away
                .iter()
                .map(|word| word.name)
                .collect();
            json!({
                "check": check.id,
                "gain_bits": proposal.gain,
                "minutes": proposal.cost.minutes,
                "gain_per_minute": proposal.per_minute,
                "takes_away": gone,
                "needs": needs,
            })
        })
        .collect();
    let pairs = [
        ("evidence_probability", json!(ranking.belief.evidence)),
        ("unlisted", json!(ranking.belief.unlisted)),
        ("dropped", json!(dropped)),
        ("causes", rows(model, &ranking.causes)),
        ("bystanders", rows(model, &ranking.bystanders)),
        ("nodes", Value::Object(nodes)),
        ("conflict_bits", json!(ranking.conflict_bits)),
        (
            "sorted_by",
            json!("probability rounded to 12 decimals, then file order"),
        ),
        ("next", json!(next)),
    ];
    for (key, value) in pairs {
        map.insert(key.to_owned(), value);
    }
}

fn rows(model: &Model, ranked: &[Ranked]) -> Value {
    let row = |row: &Ranked| {
        let cause = &model.causes[row.event];
        json!({"id": cause.id, "title": cause.title, "probability": row.probability})
    };
    Value::Array(ranked.iter().map(row).collect())
}
