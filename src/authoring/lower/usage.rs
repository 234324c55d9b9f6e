//! What only the whole tree shows: unused events, paths without a cause, shares that come out
//! wrong, and what a release will ask for.

use super::located::Located;
use crate::diagnosis::cause::{Part, Remedy};
use crate::diagnosis::fact::Fact;
use crate::diagnosis::inference::shares_of_report;
use crate::diagnosis::model::Model;
use crate::plant::practice::hazard::Hazard;
use crate::source::codes::{checks, tree as code};
use crate::source::place::Place;
use crate::source::problem::Problem;
use crate::tree::fault_tree::{Chance, FaultTree};
use crate::tree::node::Node;
use crate::tree::scale::COUNTED_LIMIT;

/// No cause of a shipped tree stands above this before any check.
const LEADS_TOO_FAR: f64 = 0.40;
/// A counted share may come out this far off, as a part of itself.
const SHARE_SLACK: f64 = 0.2;

/// Every node that answer lines name, and all below.
fn coloured(tree: &FaultTree, lines: &[Node]) -> std::collections::BTreeSet<Node> {
    lines.iter().flat_map(|node| tree.below(*node)).collect()
}

/// Says of every event whether it is a cause or a bystander.
pub fn parts(tree: &FaultTree) -> Vec<Part> {
    let below_top = tree.below(tree.top);
    let part = |(at, event): (usize, &crate::tree::fault_tree::Event)| {
        let is_cause = below_top.binary_search(&Node::Event(at)).is_ok();
        match (&event.chance, is_cause) {
            (Chance::Dropped, _) => Part::Dropped,
            (_, true) => Part::Cause,
            (_, false) => Part::Bystander,
        }
    };
    tree.events.iter().enumerate().map(part).collect()
}

/// Events that are neither cause nor bystander.
pub fn unused(model: &Model, events: &[Located<'_>], problems: &mut Vec<Problem>) {
    let tree = &model.tree;
    let below_top = tree.below(tree.top);
    let lines = model.checks.iter().flat_map(|check| &check.lines);
    let nodes: Vec<Node> = lines.flat_map(|line| line.when.clone()).collect();
    let coloured = coloured(tree, &nodes);
    for (at, event) in tree.events.iter().enumerate() {
        let node = Node::Event(at);
        // A second event of one name can never be used; the survey has said what is wrong.
        let is_twin = || tree.events[..at].iter().any(|other| other.id == event.id);
        if below_top.binary_search(&node).is_err() && !coloured.contains(&node) && !is_twin() {
            let message = format!("event `{}` is neither cause nor bystander", event.id);
            let problem = Problem::new(code::NO_USE, events[at].place(), message);
            problems.push(problem.hint("put it into a gate below the top, or name it in a line"));
        }
    }
}

/// Causes that say nothing of when they move the aircraft, in a tree that asks for it.
pub fn no_time(model: &Model, events: &[Located<'_>], problems: &mut Vec<Problem>) {
    if model.fact(Fact::TimeToMovement).is_none() || model.aircraft.is_none() {
        return;
    }
    for (event, cause) in model.causes.iter().enumerate() {
        let known = cause.moves.is_some() || model.played(Some(event)).is_some();
        if cause.part == Part::Cause && !known {
            let message = format!("`{}` does not say when it moves the aircraft", cause.id);
            let problem = Problem::new(code::NO_TIME, events[event].place(), message);
            problems.push(problem.hint("add `moves: at-once` or `moves: [0.1 h, 8 h]`"));
        }
    }
}

/// Big chances of causes in a tree with counted shares.
pub fn big_chances(
    tree: &FaultTree,
    parts: &[Part],
    events: &[Located<'_>],
    problems: &mut Vec<Problem>,
) {
    let counts =
        |event: &crate::tree::fault_tree::Event| matches!(event.chance, Chance::Seen { .. });
    if !tree.events.iter().any(counts) {
        return;
    }
    for (at, event) in tree.events.iter().enumerate() {
        if let (Chance::PerParking(chance), Part::Cause) = (&event.chance, parts[at])
            && *chance >= COUNTED_LIMIT
        {
            let message = format!("`{}` has a chance of {chance} per parking", event.id);
            let problem = Problem::new(code::BIG_CHANCE, events[at].place_of("chance"), message);
            problems
                .push(problem.hint("make a condition of it, and a small event that follows it"));
        }
    }
}

/// Whether conditions alone can make the top true.
pub fn needs_a_cause(tree: &FaultTree, top: Place) -> Option<Problem> {
    use crate::tree::engine::{BUDGET, Workshop};
    use crate::tree::partition::Partition;
    use crate::tree::scale::variable_weights;
    let engine = Workshop::new(tree)
        .engine(&[Partition::of_node(tree.top)], BUDGET)
        .ok()?;
    let no_events = vec![0.0; tree.events.len()];
    let sweep = engine.ask(&engine.open_weights(variable_weights(tree, &no_events)));
    let chance = *sweep.outcomes.first()?.first()?;
    (chance > 0.0).then(|| {
        let message = format!("conditions alone make the top true, in {chance:.3} of all parkings");
        Problem::new(code::NO_CAUSE, top, message)
            .hint("give that path a cause of its own behind the condition")
    })
}

/// Warnings about shares, worked out by the engine with the report alone.
pub fn shares(model: &Model, events: &[Located<'_>], problems: &mut Vec<Problem>) {
    let Some(shares) = shares_of_report(model) else {
        return;
    };
    for (at, event) in model.tree.events.iter().enumerate() {
        if model.causes[at].part != Part::Cause {
            continue;
        }
        let exact = shares[at];
        if exact > LEADS_TOO_FAR {
            let message = format!("`{}` stands at {exact:.3} before any check", event.id);
            let problem = Problem::new(code::LEADS_TOO_FAR, events[at].place(), message);
            problems.push(problem.hint("look at its chance, or move part of it to a condition"));
        }
        if let Chance::Seen { share, .. } = &event.chance {
            let stated = share * (1.0 - model.tree.unlisted);
            if (exact - stated).abs() > SHARE_SLACK * stated {
                let message = format!(
                    "`{}` is counted at {stated:.4} of reports and comes out at {exact:.4}",
                    event.id
                );
                let problem = Problem::new(code::SHARE_OFF, events[at].place_of("seen"), message);
                problems.push(problem.hint("look at the node it acts behind"));
            }
        }
    }
}

/// What a release will ask for: sources, proofs, remedies, references.
pub fn for_release(
    model: &Model,
    events: &[Located<'_>],
    check_entries: &[Located<'_>],
    problems: &mut Vec<Problem>,
) {
    for (at, cause) in model.causes.iter().enumerate() {
        let entry = &events[at];
        let mut warn = |code, what: &str, hint: &str| {
            let message = format!("`{}` has no {what}", cause.id);
            problems.push(Problem::new(code, entry.place(), message).hint(hint));
        };
        if cause.source.is_none() {
            warn(
                checks::NO_SOURCE,
                "source",
                "say where the figure comes from, or `judgement`",
            );
        }
        if cause.part != Part::Cause {
            continue;
        }
        if cause.confirm.is_none() {
            warn(
                checks::NO_CONFIRM,
                "confirming check",
                "add `confirm: {check: .., answer: ..}`",
            );
        }
        if cause.remedy.is_none() {
            warn(
                checks::NO_REMEDY,
                "remedy",
                "add `remedy: none` or what is done about it",
            );
        }
        if matches!(cause.remedy, Some(Remedy::Work { .. })) && cause.reference.is_none() {
            warn(
                checks::NO_REFERENCE,
                "reference",
                "add `reference: approved-data`",
            );
        }
    }
    checks_for_release(model, check_entries, problems);
}

fn checks_for_release(model: &Model, check_entries: &[Located<'_>], problems: &mut Vec<Problem>) {
    for (check, entry) in model.checks.iter().zip(check_entries) {
        let mut warn = |code, what: &str, hint: &str| {
            let message = format!("check `{}` has no {what}", check.id);
            problems.push(Problem::new(code, entry.place(), message).hint(hint));
        };
        if check.source.is_none() {
            warn(
                checks::NO_SOURCE,
                "source",
                "say where the chances come from, or `judgement`",
            );
        }
        if check.hazard >= Hazard::Pressure && check.reference.is_none() {
            warn(
                checks::NO_REFERENCE,
                "reference",
                "add `reference: approved-data`",
            );
        }
    }
}
