//! The engine against plain enumeration of every assignment, written independently of it: on
//! random models with conditions, one-of, bystanders, unlisted cause and lists in lines.

use proptest::prelude::*;
use std::sync::Arc;
use stillwheel::diagnosis::cause::{Cause, Part};
use stillwheel::diagnosis::check::{AnswerLine, Check};
use stillwheel::diagnosis::evidence::{Evidence, Reply};
use stillwheel::diagnosis::inference::{Inference, NoBelief};
use stillwheel::diagnosis::model::{Model, Question, WorkedOut};
use stillwheel::diagnosis::next_check::gain;
use stillwheel::plant::practice::hazard::Hazard;
use stillwheel::plant::state::Needs;
use stillwheel::tree::fault_tree::{Chance, Condition, Event, FaultTree, Gate};
use stillwheel::tree::node::{Node, Operator};
use stillwheel::tree::scale::Priors;

/// A model from its bare parts.
fn model(
    events: &[f64],
    conditions: &[Vec<f64>],
    gates: Vec<Gate>,
    top: Node,
    lines: Vec<Vec<AnswerLine>>,
    unlisted: f64,
) -> Model {
    let tree = FaultTree::build(
        (0..events.len())
            .map(|at| Event {
                id: format!("e{at}"),
                chance: Chance::PerParking(events[at]),
            })
            .collect(),
        conditions
            .iter()
            .enumerate()
            .map(|(at, values)| Condition {
                id: format!("c{at}"),
                values: values
                    .iter()
                    .enumerate()
                    .map(|(v, p)| (format!("v{v}"), *p))
                    .collect(),
            })
            .collect(),
        gates,
        top,
    )
    .unwrap();
    let causes = (0..events.len())
        .map(|at| Cause::named(&format!("e{at}")))
        .collect();
    let questions = conditions.iter().map(|_| Question {
        ask: String::new(),
        quantity: None,
        fact: None,
    });
    Model {
        id: "random".into(),
        title: "Random".into(),
        version: None,
        checksum: String::new(),
        report: String::new(),
        note: None,
        aircraft: None,
        priors: Priors {
            events: events.to_vec(),
            per_parking: None,
            top: 0.5,
            unlisted,
        },
        tree,
        causes,
        questions: questions.collect(),
        checks: lines
            .into_iter()
            .enumerate()
            .map(|(at, l)| bare_check(at, l))
            .collect(),
        rule: None,
        moves: false,
        cases: Vec::new(),
        worked_out: WorkedOut::default(),
    }
}

fn bare_check(at: usize, lines: Vec<AnswerLine>) -> Check {
    let answers = lines[0].shares.len();
    Check {
        id: format!("k{at}"),
        title: String::new(),
        ask: String::new(),
        how: None,
        asks: None,
        answers: (0..answers).map(|a| format!("a{a}")).collect(),
        lines,
        reads: None,
        shows: Vec::new(),
        minutes: 1.0,
        people: 1,
        access: None,
        tools: Vec::new(),
        needs: Needs::default(),
        locks: Vec::new(),
        needs_evidence: Vec::new(),
        takes_away: Vec::new(),
        hazard: Hazard::Look,
        repeatable: true,
        cautions: Vec::new(),
        reference: None,
        limit: None,
        source: None,
    }
}

/// Everything the engine gives, by enumeration.
struct Enumerated {
    evidence: f64,
    events: Vec<f64>,
    values: Vec<Vec<f64>>,
    gates: Vec<f64>,
    lines: Vec<Vec<f64>>,
    unlisted: f64,
}

/// The truth of a node under one assignment, by recursion.
fn holds(model: &Model, node: Node, events: &[bool], values: &[usize]) -> bool {
    match node {
        Node::Event(event) => events[event],
        Node::Value { condition, value } => values[condition] == value,
        Node::Gate(gate) => {
            let gate = &model.tree.gates[gate];
            let count = gate
                .inputs
                .iter()
                .filter(|n| holds(model, **n, events, values))
                .count();
            match gate.operator {
                Operator::Any => count > 0,
                Operator::All => count == gate.inputs.len(),
                Operator::AtLeast(k) => count >= k,
                Operator::Not => count == 0,
                Operator::Either => count == 1,
            }
        }
    }
}

fn enumerate(model: &Model, evidence: &Evidence) -> Enumerated {
    let n = model.tree.events.len();
    let mut sums = Enumerated {
        evidence: 0.0,
        events: vec![0.0; n],
        values: model
            .tree
            .conditions
            .iter()
            .map(|c| vec![0.0; c.values.len()])
            .collect(),
        gates: vec![0.0; model.tree.gates.len()],
        lines: model
            .checks
            .iter()
            .map(|c| vec![0.0; c.lines.len()])
            .collect(),
        unlisted: 0.0,
    };
    let combinations: usize = model
        .tree
        .conditions
        .iter()
        .map(|c| c.values.len())
        .product();
    for bits in 0..1usize << n {
        let events: Vec<bool> = (0..n).map(|e| bits >> e & 1 == 1).collect();
        for mut code in 0..combinations {
            let mut values = Vec::new();
            let mut weight = 1.0;
            for (condition, known) in model.tree.conditions.iter().zip(&evidence.known) {
                let value = code % condition.values.len();
                code /= condition.values.len();
                weight *= known
                    .as_ref()
                    .map_or(condition.values[value].1, |k| k[value]);
                values.push(value);
            }
            for (event, here) in events.iter().enumerate() {
                let p = model.priors.events[event];
                weight *= if *here { p } else { 1.0 - p };
            }
            let mut decided = Vec::new();
            for (check, reply) in model.checks.iter().zip(&evidence.replies) {
                let line = check
                    .lines
                    .iter()
                    .position(|l| l.when.iter().all(|n| holds(model, *n, &events, &values)))
                    .unwrap();
                decided.push(line);
                if let Reply::Answered(answers) = reply {
                    for answer in answers {
                        weight *= check.lines[line].shares[*answer];
                    }
                }
            }
            for unlisted in [false, true] {
                let u = model.priors.unlisted;
                let weight = weight * if unlisted { u } else { 1.0 - u };
                let reported = unlisted || holds(model, model.tree.top, &events, &values);
                if evidence.report && !reported {
                    continue;
                }
                add(
                    &mut sums, model, weight, &events, &values, &decided, unlisted,
                );
            }
        }
    }
    sums
}

fn add(
    sums: &mut Enumerated,
    model: &Model,
    weight: f64,
    events: &[bool],
    values: &[usize],
    decided: &[usize],
    unlisted: bool,
) {
    sums.evidence += weight;
    for (sum, here) in sums.events.iter_mut().zip(events) {
        *sum += if *here { weight } else { 0.0 };
    }
    for (sum, value) in sums.values.iter_mut().zip(values) {
        sum[*value] += weight;
    }
    for (gate, sum) in sums.gates.iter_mut().enumerate() {
        *sum += if holds(model, Node::Gate(gate), events, values) {
            weight
        } else {
            0.0
        };
    }
    for (sum, line) in sums.lines.iter_mut().zip(decided) {
        sum[*line] += weight;
    }
    sums.unlisted += if unlisted { weight } else { 0.0 };
}

fn close(what: &str, engine: f64, brute: f64) -> Result<(), TestCaseError> {
    let slack = 1e-12 * brute.abs() + 1e-300;
    prop_assert!(
        (engine - brute).abs() <= slack,
        "{what}: engine {engine:e}, brute {brute:e}"
    );
    Ok(())
}

fn compare(model: Model, evidence: &Evidence, budget: usize) -> Result<(), TestCaseError> {
    let brute = enumerate(&model, evidence);
    let inference = Inference::with_budget(Arc::new(model), budget);
    let belief = match inference.believe(evidence) {
        Ok(belief) => belief,
        Err(NoBelief::Contradiction) => return close("contradiction", 0.0, brute.evidence),
        Err(error) => return Err(TestCaseError::fail(error.to_string())),
    };
    close("evidence", belief.evidence, brute.evidence)?;
    let z = brute.evidence;
    for (engine, brute) in belief.events.iter().zip(&brute.events) {
        close("event", *engine, brute / z)?;
    }
    for (engine, brute) in belief
        .values
        .iter()
        .flatten()
        .zip(brute.values.iter().flatten())
    {
        close("value", *engine, brute / z)?;
    }
    for (at, check) in inference.model().checks.iter().enumerate() {
        for line in &check.lines {
            // Alike lines stand together at one of them.
            let alike = |masses: &[f64]| -> f64 {
                let own = check.lines.iter().zip(masses);
                let own = own.filter(|(other, _)| other.shares == line.shares);
                own.map(|(_, mass)| mass).sum()
            };
            close(
                "lines",
                alike(&belief.lines[at]),
                alike(&brute.lines[at]) / z,
            )?;
        }
        let true_lines: Vec<f64> = brute.lines[at].iter().map(|mass| mass / z).collect();
        let [engine, brute] =
            [&belief.lines[at], &true_lines].map(|l| gain(inference.model(), check, l));
        prop_assert!((engine - brute).abs() < 1e-9, "gain: {engine}, {brute}");
    }
    close("unlisted", belief.unlisted, brute.unlisted / z)?;
    let nodes = inference.nodes(evidence).unwrap();
    for (gate, brute) in brute.gates.iter().enumerate() {
        close("gate", nodes[gate].1, brute / z)?;
    }
    Ok(())
}

/// Numbers that shape a random model; every choice is taken modulo what there is.
#[derive(Debug, Clone)]
struct Recipe {
    chances: Vec<f64>,
    conditions: Vec<Vec<f64>>,
    gates: Vec<(u8, Vec<usize>)>,
    top: usize,
    checks: Vec<Vec<(Vec<usize>, Vec<f64>)>>,
    replies: Vec<(u8, usize)>,
    known: Vec<usize>,
    unlisted: f64,
    report: bool,
}

fn chance() -> impl Strategy<Value = f64> {
    prop_oneof![
        0.01f64..0.6,
        (-10.0f64..-3.0).prop_map(|exponent| 10f64.powf(exponent)),
        Just(0.0),
        Just(1.0),
    ]
}

fn shares(count: usize) -> impl Strategy<Value = Vec<f64>> {
    prop::collection::vec(0.0f64..1.0, count).prop_map(|raw| {
        let sum: f64 = raw.iter().sum::<f64>() + 1e-3;
        raw.iter()
            .map(|share| (share + 1e-3 / raw.len() as f64) / sum)
            .collect()
    })
}

fn recipe() -> impl Strategy<Value = Recipe> {
    let line = |answers| (prop::collection::vec(0usize..100, 1..3), shares(answers));
    let check = (2usize..4).prop_flat_map(move |n| prop::collection::vec(line(n), 1..6));
    (
        prop::collection::vec(chance(), 2..9),
        prop::collection::vec((2usize..4).prop_flat_map(shares), 0..3),
        prop::collection::vec((0u8..6, prop::collection::vec(0usize..100, 1..5)), 1..8),
        0usize..100,
        prop::collection::vec(check, 0..5),
        prop::collection::vec((0u8..4, 0usize..12), 5),
        prop::collection::vec(0usize..8, 3),
        prop_oneof![Just(0.0), 0.001f64..0.2],
        any::<bool>(),
    )
        .prop_map(
            |(chances, conditions, gates, top, checks, replies, known, unlisted, report)| Recipe {
                chances,
                conditions,
                gates,
                top,
                checks,
                replies,
                known,
                unlisted,
                report,
            },
        )
}

fn cook(recipe: &Recipe) -> (Model, Evidence) {
    let mut nodes: Vec<Node> = (0..recipe.chances.len()).map(Node::Event).collect();
    for (condition, values) in recipe.conditions.iter().enumerate() {
        nodes.extend((0..values.len()).map(|value| Node::Value { condition, value }));
    }
    let mut gates = Vec::new();
    for (kind, picks) in &recipe.gates {
        let mut inputs: Vec<Node> = picks.iter().map(|pick| nodes[pick % nodes.len()]).collect();
        inputs.dedup();
        let operator = match (kind, inputs.len()) {
            (2, _) => Operator::All,
            (3, n) => Operator::AtLeast(n.div_ceil(2)),
            (4, 1) => Operator::Not,
            (5, 2) => Operator::Either,
            _ => Operator::Any,
        };
        let id = format!("g{}", gates.len());
        nodes.push(Node::Gate(gates.len()));
        gates.push(Gate {
            id,
            operator,
            inputs,
        });
    }
    let top = nodes[nodes.len() - 1 - recipe.top % gates.len()];
    let lines = recipe.checks.iter().map(|check| {
        let last = check.len() - 1;
        let line = |(at, (picks, shares)): (usize, &(Vec<usize>, Vec<f64>))| AnswerLine {
            when: if at == last {
                Vec::new()
            } else {
                picks.iter().map(|pick| nodes[pick % nodes.len()]).collect()
            },
            // Some lines share their row with the first.
            shares: match picks[0] % 3 {
                0 => check[0].1.clone(),
                _ => shares.clone(),
            },
        };
        check.iter().enumerate().map(line).collect()
    });
    let lines = lines.collect();
    let mut model = model(
        &recipe.chances,
        &recipe.conditions,
        gates,
        top,
        lines,
        recipe.unlisted,
    );
    let below_top = model.tree.below(model.tree.top);
    for (event, cause) in model.causes.iter_mut().enumerate() {
        if !below_top.contains(&Node::Event(event)) {
            cause.part = Part::Bystander;
        }
    }
    let mut evidence = Evidence::report_only(&model);
    evidence.report = recipe.report;
    for (check, (kind, answer)) in (0..model.checks.len()).zip(&recipe.replies) {
        let answers = model.checks[check].answers.len();
        match kind {
            0 => {}
            1 => evidence.cannot(check),
            2 => evidence.answer(&model, check, answer % answers),
            _ => {
                evidence.answer(&model, check, answer % answers);
                evidence.answer(&model, check, (answer / 2) % answers);
            }
        }
    }
    for (condition, known) in (0..model.tree.conditions.len()).zip(&recipe.known) {
        let values = model.tree.conditions[condition].values.len();
        if *known < values {
            evidence.give(&model, condition, *known);
        }
    }
    (model, evidence)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, ..ProptestConfig::default() })]

    #[test]
    fn the_engine_equals_enumeration(recipe in recipe()) {
        let (model, evidence) = cook(&recipe);
        compare(model, &evidence, 1_000_000)?;
    }

    #[test]
    fn over_budget_the_answered_checks_alone_give_the_same(recipe in recipe()) {
        let (model, evidence) = cook(&recipe);
        compare(model, &evidence, 0)?;
    }
}

/// Exact rationals by whole numbers: chances in thousandths, shares in hundredths.
///
/// Top = a or (b and c); the check on "b and c" says yes 95 of 100 against 2 of 100.
#[test]
fn whole_numbers_give_the_same_digits() {
    let chances = [7u128, 310, 45];
    let mut weights = [0u128; 8];
    for (bits, weight) in weights.iter_mut().enumerate() {
        let here = |e: usize| bits >> e & 1 == 1;
        *weight = 1;
        for (event, chance) in chances.iter().enumerate() {
            *weight *= if here(event) { *chance } else { 1000 - chance };
        }
        *weight *= if here(1) && here(2) { 95 } else { 2 };
        if !(here(0) || here(1) && here(2)) {
            *weight = 0;
        }
    }
    let total: u128 = weights.iter().sum();
    let event = |e: usize| -> f64 {
        let some: u128 = (0..8)
            .filter(|bits| bits >> e & 1 == 1)
            .map(|bits| weights[bits])
            .sum();
        // Both are far below 2^53, so the quotient is the nearest double.
        some as f64 / total as f64
    };
    let gates = vec![
        Gate {
            id: "both".into(),
            operator: Operator::All,
            inputs: vec![Node::Event(1), Node::Event(2)],
        },
        Gate {
            id: "top".into(),
            operator: Operator::Any,
            inputs: vec![Node::Event(0), Node::Gate(0)],
        },
    ];
    let lines = vec![
        AnswerLine {
            when: vec![Node::Gate(0)],
            shares: vec![0.95, 0.05],
        },
        AnswerLine {
            when: vec![],
            shares: vec![0.02, 0.98],
        },
    ];
    let model = model(
        &[0.007, 0.31, 0.045],
        &[],
        gates,
        Node::Gate(1),
        vec![lines],
        0.0,
    );
    let mut evidence = Evidence::report_only(&model);
    evidence.answer(&model, 0, 0);
    let inference = Inference::new(Arc::new(model));
    let belief = inference.believe(&evidence).unwrap();
    for e in 0..3 {
        assert!((belief.events[e] - event(e)).abs() < 1e-15, "{e}");
    }
    let evidence_exact = total as f64 / 1e11;
    assert!((belief.evidence / evidence_exact - 1.0).abs() < 1e-14);
}
