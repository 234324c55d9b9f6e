//! Whether the answers fit together, and which one to look at again.

use super::evidence::{Evidence, Item, Reply};
use super::inference::{Inference, NoBelief};

/// How surprising the answers are together, beyond how surprising each is alone, in bits.
///
/// log2(product of P(a | report, conditions) / P(all a | report, conditions)); above 0 the answers
/// speak against each other. 0 with fewer than two answers.
/// Source: the conflict measure of evidence, in textbooks of Bayesian networks (from memory).
pub fn conflict_bits(inference: &Inference, evidence: &Evidence) -> Result<f64, NoBelief> {
    if evidence.answered() < 2 {
        return Ok(0.0);
    }
    let items: Vec<Item> = evidence
        .items()
        .into_iter()
        .filter(|item| !matches!(item, Item::Check(_)))
        .collect();
    let before = inference.believe(&evidence.only(&items))?;
    let together = inference.probability(evidence)? / before.evidence;
    if together <= 0.0 {
        return Err(NoBelief::Contradiction);
    }
    let mut alone = 0.0;
    for (check, reply) in evidence.replies.iter().enumerate() {
        let Reply::Answered(answers) = reply else {
            continue;
        };
        let lines = &inference.model().checks[check].lines;
        let chance: f64 = lines
            .iter()
            .zip(&before.lines[check])
            .map(|(line, chance)| chance * answers.iter().map(|a| line.shares[*a]).product::<f64>())
            .sum();
        alone += chance.log2();
    }
    Ok(alone - together.log2())
}

/// Answered checks, the one whose removal eases the conflict most first, with the bits left.
pub fn look_again(
    inference: &Inference,
    evidence: &Evidence,
) -> Result<Vec<(usize, f64)>, NoBelief> {
    let mut suspects = Vec::new();
    for item in evidence.items() {
        if let Item::Check(check) = item {
            let left = conflict_bits(inference, &evidence.without(item))?;
            suspects.push((check, left));
        }
    }
    suspects.sort_by(|a, b| a.1.total_cmp(&b.1));
    Ok(suspects)
}
