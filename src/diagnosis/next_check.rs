//! Which check to make next: information about causes for each minute it costs.

use super::alike::bare;
use super::check::Check;
use super::evidence::{Evidence, Reply};
use super::inference::{Belief, Inference};
use super::model::Model;
use super::situation::{Cost, Situation};
use super::what_if::leader;
use crate::tree::node::Node;

/// Gains below this are rounding.
const NO_GAIN: f64 = 1e-12;
/// Checks within this share of the best are equal; then the gentler one goes first.
const NEAR_BEST: f64 = 0.8;
/// A check that costs less than this many minutes counts as costing this much.
const SHORTEST: f64 = 0.1;

/// A check that could be made now.
#[derive(Debug, Clone, PartialEq)]
pub struct Proposal {
    /// Place of the check.
    pub check: usize,
    /// Bits it is expected to give about causes and conditions.
    pub gain: f64,
    /// What it costs from here.
    pub cost: Cost,
    /// Bits a minute.
    pub per_minute: f64,
    /// Chance of each answer.
    pub answers: Vec<f64>,
}

/// Every open check that says something, best first.
///
/// Those within 80 of 100 of the best stand first, and among them: what takes nothing away, then
/// the milder hazard, then file order. The rest follow by bits a minute.
pub fn proposals(
    model: &Model,
    belief: &Belief,
    evidence: &Evidence,
    situation: &Situation,
) -> Vec<Proposal> {
    let mut all: Vec<Proposal> = (0..model.checks.len())
        .filter(|check| matches!(evidence.replies[*check], Reply::Open))
        .filter_map(|check| proposal(model, belief, situation, check))
        .filter(|proposal| proposal.gain >= NO_GAIN)
        .collect();
    let best = all.iter().map(|p| p.per_minute).fold(0.0, f64::max);
    let key = |p: &Proposal| {
        let check = &model.checks[p.check];
        (!p.cost.takes_away.is_empty(), check.hazard, p.check)
    };
    all.sort_by(|a, b| {
        let [near_a, near_b] = [a, b].map(|p| p.per_minute >= NEAR_BEST * best);
        near_b.cmp(&near_a).then_with(|| {
            if near_a {
                key(a).cmp(&key(b))
            } else {
                b.per_minute
                    .total_cmp(&a.per_minute)
                    .then(a.check.cmp(&b.check))
            }
        })
    });
    all
}

/// What a check would tell and cost from here, whether it tells anything or not.
///
/// `None` where it comes too late, or where no way leads to the state it needs.
pub fn proposal(
    model: &Model,
    belief: &Belief,
    situation: &Situation,
    check: usize,
) -> Option<Proposal> {
    let place = check;
    let check = &model.checks[check];
    if situation.too_late_for(check) {
        return None;
    }
    let gain = gain(model, check, &belief.lines[place]);
    let cost = situation.cost(model, check)?;
    Some(Proposal {
        check: place,
        gain,
        per_minute: gain / cost.minutes.max(SHORTEST),
        answers: check.answer_chances(&belief.lines[place]),
        cost,
    })
}

/// Bits that a check is expected to give about causes and open conditions.
///
/// Sum over lines r of P(r) sum over answers a of P(a|r) log2(P(a|r) / P(a)). Bystanders are
/// struck from the lines first, so that a check is not proposed for what it says about a lamp:
/// lines left equal become one, with the weighted mean of their shares, and a line left empty
/// joins `otherwise`.
pub fn gain(model: &Model, check: &Check, lines: &[f64]) -> f64 {
    let merged = merge(model, check, lines);
    let whole: f64 = merged.iter().map(|(_, weight, _)| weight).sum();
    if whole <= 0.0 {
        return 0.0;
    }
    let answers = check.answers.len();
    let overall: Vec<f64> = (0..answers)
        .map(|a| merged.iter().map(|(_, _, shares)| shares[a]).sum::<f64>() / whole)
        .collect();
    let mut bits = 0.0;
    for (_, weight, shares) in merged.iter().filter(|(_, weight, _)| *weight > 0.0) {
        for (share, all) in shares.iter().zip(&overall) {
            if *share > 0.0 && *all > 0.0 {
                bits += share / whole * (share / weight / all).log2();
            }
        }
    }
    // Rounding can leave a hair below zero.
    if bits < NO_GAIN { 0.0 } else { bits }
}

/// Lines without their bystanders: nodes, weight, and weight times each share.
fn merge(model: &Model, check: &Check, lines: &[f64]) -> Vec<(Vec<Node>, f64, Vec<f64>)> {
    let mut merged: Vec<(Vec<Node>, f64, Vec<f64>)> = Vec::new();
    for (line, chance) in check.lines.iter().zip(lines) {
        let nodes = bare(model, line);
        let weighted: Vec<f64> = line.shares.iter().map(|share| share * chance).collect();
        match merged.iter_mut().find(|(known, _, _)| *known == nodes) {
            Some((_, weight, shares)) => {
                *weight += chance;
                for (sum, add) in shares.iter_mut().zip(weighted) {
                    *sum += add;
                }
            }
            None => merged.push((nodes, *chance, weighted)),
        }
    }
    merged
}

/// What one answer to a check would do.
#[derive(Debug, Clone, PartialEq)]
pub struct Effect {
    /// Place of the answer.
    pub answer: usize,
    /// Chance of this answer.
    pub chance: f64,
    /// The cause that would then lead, with its probability; `None` where the answer cannot be.
    pub leader: super::what_if::Leader,
}

/// What each answer to a check would do to the ranking.
pub fn effects(inference: &Inference, evidence: &Evidence, proposal: &Proposal) -> Vec<Effect> {
    let model = inference.model();
    let effect = |(answer, chance): (usize, &f64)| {
        let mut then = evidence.clone();
        then.answer(model, proposal.check, answer);
        Effect {
            answer,
            chance: *chance,
            leader: leader(inference, &then),
        }
    };
    proposal.answers.iter().enumerate().map(effect).collect()
}
