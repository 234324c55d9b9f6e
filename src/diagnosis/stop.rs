//! When the search may stop: share reached and confirmed, or nothing left to ask.

use super::cause::Part;
use super::evidence::{Evidence, Reply};
use super::inference::{Belief, Inference, NoBelief};
use super::model::Model;
use super::ranking::ranking;
use super::situation::Situation;

/// Two causes that no remaining check tells apart by this many bits are one group.
pub(super) const TOLD_APART: f64 = 0.01;

/// A cause below this part of the leader's share was told from it by the answers already. Without
/// this, the end of the questions would put every cause into one group, and one denied
/// confirming check among them would forbid a stop that the answers have earned.
const STILL_BESIDE: f64 = 0.1;

/// Where a search stands against the tree's rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Standing {
    /// The leading cause and those that no remaining check tells from it, leader first.
    pub group: Vec<usize>,
    /// Probability that at least one of the group is present.
    pub share: f64,
    /// Share the rule asks for; `None` where the tree has no rule.
    pub wanted: Option<f64>,
    /// Whether the confirming check of the leader stands.
    pub proof: Proof,
    /// Whether the rule is met.
    pub met: bool,
}

/// Where the confirming check of the leading cause stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Proof {
    /// The tree names no confirming check for it.
    NoneNamed,
    /// Not made yet: place of the check.
    Missing(usize),
    /// Could not be made, so the cause stays not confirmed.
    Impossible(usize),
    /// The confirming answer stands.
    Stands(usize),
    /// A member of the group has another answer standing than its confirming one.
    Contradicted {
        /// The member.
        cause: usize,
        /// Its confirming check.
        check: usize,
    },
}

/// Works out where a search stands.
pub fn standing(
    inference: &Inference,
    evidence: &Evidence,
    situation: &Situation,
    belief: &Belief,
) -> Result<Standing, NoBelief> {
    let model = inference.model();
    let ranked = ranking(model, belief, Part::Cause);
    let Some(leader) = ranked.first().map(|row| row.event) else {
        return Ok(Standing {
            group: Vec::new(),
            share: 0.0,
            wanted: model.rule.map(|rule| rule.share),
            proof: Proof::NoneNamed,
            met: false,
        });
    };
    let order: Vec<usize> = ranked.iter().map(|row| row.event).collect();
    let least = STILL_BESIDE * belief.events[leader];
    let beside = ranked.iter().filter(|row| row.probability >= least).count();
    let group = group(inference, evidence, situation, &order, beside)?;
    let share = at_least_one(inference, evidence, belief, &group)?;
    let proof = proof(model, evidence, leader, &group);
    let met = model.rule.is_some_and(|rule| {
        let proved = !rule.confirm || matches!(proof, Proof::Stands(_) | Proof::NoneNamed);
        share >= rule.share && proved && !matches!(proof, Proof::Contradicted { .. })
    });
    Ok(Standing {
        group,
        share,
        wanted: model.rule.map(|rule| rule.share),
        proof,
        met,
    })
}

/// The leader and every cause that no remaining check tells from it, among the first `beside`.
fn group(
    inference: &Inference,
    evidence: &Evidence,
    situation: &Situation,
    order: &[usize],
    beside: usize,
) -> Result<Vec<usize>, NoBelief> {
    let model = inference.model();
    let remaining: Vec<usize> = (0..model.checks.len())
        .filter(|check| matches!(evidence.replies[*check], Reply::Open))
        .filter(|check| !situation.too_late_for(&model.checks[*check]))
        .collect();
    let only = |event: usize| -> Result<Option<Belief>, NoBelief> {
        let fixed: Vec<(usize, bool)> = order.iter().map(|e| (*e, *e == event)).collect();
        match inference.believe_fixed(evidence, &fixed) {
            Ok(belief) => Ok(Some(belief)),
            // This cause alone cannot explain what is known.
            Err(NoBelief::Contradiction) => Ok(None),
            Err(error) => Err(error),
        }
    };
    let Some((&leader, rest)) = order.split_first() else {
        return Ok(Vec::new());
    };
    let mut group = vec![leader];
    let Some(leading) = only(leader)? else {
        return Ok(group);
    };
    for &other in rest.iter().take(beside.saturating_sub(1)) {
        let Some(belief) = only(other)? else {
            continue;
        };
        let apart = remaining.iter().any(|check| {
            let answers = |b: &Belief| model.checks[*check].answer_chances(&b.lines[*check]);
            coin_information(&answers(&leading), &answers(&belief)) >= TOLD_APART
        });
        if !apart {
            group.push(other);
        }
    }
    Ok(group)
}

/// Mutual information between an answer and a fair coin that chooses between two spreads of it.
pub(super) fn coin_information(heads: &[f64], tails: &[f64]) -> f64 {
    let term = |p: f64, mean: f64| {
        if p > 0.0 {
            0.5 * p * (p / mean).log2()
        } else {
            0.0
        }
    };
    heads
        .iter()
        .zip(tails)
        .map(|(h, t)| {
            let mean = 0.5 * (h + t);
            term(*h, mean) + term(*t, mean)
        })
        .sum()
}

/// Probability that at least one of some causes is present, as a sum of separate parts.
fn at_least_one(
    inference: &Inference,
    evidence: &Evidence,
    belief: &Belief,
    group: &[usize],
) -> Result<f64, NoBelief> {
    let mut sum = 0.0;
    let mut fixed: Vec<(usize, bool)> = Vec::new();
    for &event in group {
        if fixed.is_empty() {
            sum += belief.events[event];
        } else {
            // None of the earlier ones, and this one.
            let mut with = fixed.clone();
            with.push((event, true));
            match inference.believe_fixed(evidence, &with) {
                Ok(part) => sum += part.evidence / belief.evidence,
                Err(NoBelief::Contradiction) => {}
                Err(error) => return Err(error),
            }
        }
        fixed.push((event, false));
    }
    Ok(sum.min(1.0))
}

fn proof(model: &Model, evidence: &Evidence, leader: usize, group: &[usize]) -> Proof {
    let standing = |event: usize| {
        let confirm = model.causes[event].confirm?;
        Some((confirm, &evidence.replies[confirm.check]))
    };
    for &member in group {
        if let Some((confirm, Reply::Answered(answers))) = standing(member)
            && answers.last() != Some(&confirm.answer)
        {
            return Proof::Contradicted {
                cause: member,
                check: confirm.check,
            };
        }
    }
    match standing(leader) {
        None => Proof::NoneNamed,
        Some((confirm, Reply::Answered(_))) => Proof::Stands(confirm.check),
        Some((confirm, Reply::Cannot)) => Proof::Impossible(confirm.check),
        Some((confirm, Reply::Open)) => Proof::Missing(confirm.check),
    }
}

#[cfg(test)]
mod tests {
    use super::coin_information;

    #[test]
    fn a_sure_answer_tells_one_bit_and_an_equal_one_nothing() {
        assert!((coin_information(&[1.0, 0.0], &[0.0, 1.0]) - 1.0).abs() < 1e-12);
        assert!(coin_information(&[0.3, 0.7], &[0.3, 0.7]).abs() < 1e-12);
    }
}
