//! Everything a printed ranking holds, worked out once for text and JSON.

use crate::diagnosis::cause::Part;
use crate::diagnosis::certificate::Certificate;
use crate::diagnosis::conflict::{conflict_bits, look_again};
use crate::diagnosis::contradiction::irreducible;
use crate::diagnosis::evidence::{Evidence, Item};
use crate::diagnosis::explain::{Moved, beliefs_without, moved};
use crate::diagnosis::inference::{Belief, Inference, NoBelief};
use crate::diagnosis::next_check::{Effect, Proposal, effects, proposals};
use crate::diagnosis::ranking::{Ranked, ranking};
use crate::diagnosis::situation::Situation;
use crate::diagnosis::stop::{Standing, standing};

/// Proposals whose answers are worked out, best first.
const WITH_EFFECTS: usize = 3;

/// A ranking with its reasons.
#[derive(Debug)]
pub struct Ranking {
    /// What is believed.
    pub belief: Belief,
    /// Causes, most probable first.
    pub causes: Vec<Ranked>,
    /// Bystanders, most probable first.
    pub bystanders: Vec<Ranked>,
    /// For each event what each item of evidence moved it by.
    pub moved: Vec<Vec<Moved>>,
    /// How far the answers speak against each other.
    pub conflict_bits: f64,
    /// The answer to look at again first, where the answers speak against each other.
    pub look_again: Option<usize>,
    /// Where the search stands against the rule.
    pub standing: Standing,
    /// Checks that could be made now, best first.
    pub next: Vec<Proposal>,
    /// What each answer to the first of them would do.
    pub effects: Vec<Vec<Effect>>,
    /// Every gate and condition value with its probability.
    pub nodes: Vec<(String, f64)>,
}

/// The ranking, or why there is none.
#[derive(Debug)]
pub enum Outcome {
    /// It could be worked out.
    Ranked(Box<Ranking>),
    /// The evidence contradicts itself: an irreducible set.
    Contradiction(Vec<Item>),
    /// It was refused, and why.
    Refused(Certificate),
}

/// Works a ranking out.
pub fn outcome(inference: &Inference, evidence: &Evidence, situation: &Situation) -> Outcome {
    match ranked(inference, evidence, situation) {
        Ok(ranking) => Outcome::Ranked(Box::new(ranking)),
        Err(NoBelief::OverBudget(error)) => Outcome::Refused(error.into()),
        Err(NoBelief::Contradiction) => match irreducible(inference, evidence) {
            Ok(items) => Outcome::Contradiction(items.unwrap_or_default()),
            Err(error) => Outcome::Refused(error.into()),
        },
    }
}

fn ranked(
    inference: &Inference,
    evidence: &Evidence,
    situation: &Situation,
) -> Result<Ranking, NoBelief> {
    let model = inference.model();
    let belief = inference.believe(evidence)?;
    let without = beliefs_without(inference, evidence)?;
    let events = 0..model.tree.events.len();
    let next = proposals(model, &belief, evidence, situation);
    let conflict_bits = conflict_bits(inference, evidence)?;
    let look_again = if conflict_bits > 0.0 {
        look_again(inference, evidence)?
            .first()
            .map(|(check, _)| *check)
    } else {
        None
    };
    Ok(Ranking {
        causes: ranking(model, &belief, Part::Cause),
        bystanders: ranking(model, &belief, Part::Bystander),
        moved: events
            .map(|event| moved(event, &belief, &without))
            .collect(),
        conflict_bits,
        look_again,
        standing: standing(inference, evidence, situation, &belief)?,
        effects: next
            .iter()
            .take(WITH_EFFECTS)
            .map(|proposal| effects(inference, evidence, proposal))
            .collect(),
        next,
        nodes: inference.nodes(evidence)?,
        belief,
    })
}
