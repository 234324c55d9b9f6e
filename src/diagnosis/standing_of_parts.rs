//! How each part of the aircraft stands: suspect and how much, next, found good or bad.

use super::agreement::fault_of;
use super::cause::Part;
use super::evidence::{Evidence, Reply};
use super::inference::Belief;
use super::model::Model;
use crate::plant::observe::readings_of;

/// From this share on a part is a suspect.
pub const SUSPECT: f64 = 0.1;

/// How a part stands, the strongest statement first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// The answer that confirms one of its faults stands.
    Bad,
    /// The check on the screen looks at it.
    Next,
    /// One of its faults is likely.
    Suspect,
    /// A check that could have confirmed one of its faults did not.
    Good,
    /// Such a check could not be made.
    Cannot,
    /// Nothing is known of it.
    NotChecked,
}

/// One part.
#[derive(Debug, Clone, PartialEq)]
pub struct PartStanding {
    /// How it stands.
    pub standing: Standing,
    /// The most probable of its faults, with its probability; causes only.
    pub likeliest: Option<(usize, f64)>,
}

/// How every part of the aircraft stands, in the order of the document.
///
/// `next` is the check on the screen. A part without a fault in the tree is never a suspect.
pub fn standing_of_parts(
    model: &Model,
    evidence: &Evidence,
    belief: Option<&Belief>,
    next: Option<usize>,
) -> Vec<PartStanding> {
    let Some(aircraft) = model.aircraft.as_deref() else {
        return Vec::new();
    };
    let mut causes: Vec<Vec<usize>> = vec![Vec::new(); aircraft.parts.len()];
    for event in 0..model.causes.len() {
        let part = fault_of(model, event).and_then(|(part, _)| {
            let mut parts = aircraft.parts.iter();
            parts.position(|other| other.id == part)
        });
        if let (Some(part), Part::Cause) = (part, model.causes[event].part) {
            causes[part].push(event);
        }
    }
    let looked_at = next.and_then(|check| {
        let reads = model.checks[check].reads.as_deref()?;
        let mut known = readings_of(aircraft);
        known.find(|(name, ..)| name == reads).map(|(_, _, at)| at)
    });
    let one = |(part, causes): (usize, &Vec<usize>)| {
        let share = |event: usize| belief.map_or(0.0, |belief| belief.events[event]);
        let likeliest = causes.iter().map(|event| (*event, share(*event)));
        let likeliest = likeliest.reduce(|a, b| if b.1 > a.1 { b } else { a });
        let next_here = looked_at == Some(part)
            || causes.iter().any(|event| {
                let confirm = model.causes[*event].confirm;
                next.is_some() && confirm.map(|confirm| confirm.check) == next
            });
        PartStanding {
            standing: standing(model, evidence, causes, likeliest, next_here),
            likeliest,
        }
    };
    causes.iter().enumerate().map(one).collect()
}

fn standing(
    model: &Model,
    evidence: &Evidence,
    causes: &[usize],
    likeliest: Option<(usize, f64)>,
    next: bool,
) -> Standing {
    let proofs = causes.iter().filter_map(|event| {
        let confirm = model.causes[*event].confirm?;
        Some((confirm.answer, &evidence.replies[confirm.check]))
    });
    let (mut good, mut cannot) = (false, false);
    let mut bad = false;
    for (wanted, reply) in proofs {
        match reply {
            Reply::Answered(answers) => match answers.last() {
                Some(last) if *last == wanted => bad = true,
                _ => good = true,
            },
            Reply::Cannot => cannot = true,
            Reply::Open => {}
        }
    }
    let suspect = likeliest.is_some_and(|(_, share)| share >= SUSPECT);
    match () {
        // One answer can confirm faults of several parts; only where one is likely it speaks here.
        () if bad && suspect => Standing::Bad,
        () if next => Standing::Next,
        () if suspect => Standing::Suspect,
        () if good => Standing::Good,
        () if cannot => Standing::Cannot,
        () => Standing::NotChecked,
    }
}
