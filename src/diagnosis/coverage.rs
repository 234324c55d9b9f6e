//! Which check tells which causes apart, which pairs are weak, and what a further check should see.
//!
//! Each cause is looked at alone, with conditions and bystanders at their chances under the report,
//! as for groups in the stop rule. Two causes are told apart by a check where its answer gives
//! 0.01 bit or more about which of the two it is.

pub mod unread;

use super::cause::Part;
use super::evidence::Evidence;
use super::inference::{Inference, NoBelief};
use super::model::Model;
use super::stop::{TOLD_APART, coin_information};
use crate::tree::node::Node;

/// Chance of every answer of every check with one cause alone.
#[derive(Debug, Clone, PartialEq)]
pub struct Alone {
    /// The cause.
    pub cause: usize,
    /// By check, the chance of each answer.
    pub answers: Vec<Vec<f64>>,
}

/// Two causes.
#[derive(Debug, Clone, PartialEq)]
pub struct Pair {
    /// The one that stands first in the file.
    pub one: usize,
    /// The other.
    pub other: usize,
    /// Bits of the check that tells most, from 0 to 1, and its place; `None` where there is none.
    pub best: Option<(f64, usize)>,
    /// How many checks tell them apart.
    pub checks: usize,
    /// Share of jobs that are one of the two, before any check.
    pub share: f64,
    /// At most this share of jobs ends at the wrong one of the two although every check was made:
    /// the root of the product of their shares, times the Bhattacharyya coefficient of all checks
    /// (bound of T. Kailath, IEEE Transactions on Communication Technology 15, 1967; from memory).
    pub mistaken: f64,
}

impl Pair {
    /// Bits of the best check.
    pub fn bits(&self) -> f64 {
        self.best.map_or(0.0, |(bits, _)| bits)
    }
}

/// Bits below this are rounding.
const NO_BITS: f64 = 1e-12;

/// What one check does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Telling {
    /// The check.
    pub check: usize,
    /// Pairs it tells apart.
    pub pairs: usize,
    /// Pairs that no other check tells apart.
    pub only: usize,
}

/// Something that a further check could see.
#[derive(Debug, Clone, PartialEq)]
pub struct Missing {
    /// What it would have to tell: an event, or a gate with all below.
    pub node: Node,
    /// The causes on the side of the node that are mistaken for one on the other side.
    pub one: Vec<usize>,
    /// The causes on the other side.
    pub other: Vec<usize>,
    /// Bound on the share of jobs that it would keep from ending at the wrong cause.
    pub worth: f64,
}

/// How well a tree tells its causes apart.
#[derive(Debug, Clone, PartialEq)]
pub struct Coverage {
    /// The causes that can be there alone, with the chances of answers.
    pub causes: Vec<Alone>,
    /// Causes that cannot be there alone; they need a second one.
    pub never_alone: Vec<usize>,
    /// All pairs, weakest first, then those of more jobs.
    pub pairs: Vec<Pair>,
    /// All checks, those without which most pairs are lost first.
    pub checks: Vec<Telling>,
    /// Causes that no check tells from one another.
    pub groups: Vec<Vec<usize>>,
    /// What further checks should see, best first.
    pub missing: Vec<Missing>,
}

/// Answers of every check with each cause alone, and the causes that cannot be there alone.
pub fn alone(inference: &Inference) -> Result<(Vec<Alone>, Vec<usize>), NoBelief> {
    let model = inference.model();
    let causes: Vec<usize> = (0..model.causes.len())
        .filter(|event| model.causes[*event].part == Part::Cause)
        .collect();
    let evidence = Evidence::report_only(model);
    let mut found = Vec::new();
    let mut never = Vec::new();
    for &cause in &causes {
        let fixed: Vec<(usize, bool)> = causes.iter().map(|at| (*at, *at == cause)).collect();
        match inference.believe_fixed(&evidence, &fixed) {
            Ok(belief) => {
                let lines = model.checks.iter().zip(&belief.lines);
                let answers = lines.map(|(check, lines)| check.answer_chances(lines));
                let answers = answers.collect();
                found.push(Alone { cause, answers });
            }
            Err(NoBelief::Contradiction) => never.push(cause),
            Err(error) => return Err(error),
        }
    }
    Ok((found, never))
}

/// Causes that no check tells from one another, each in one group, in file order.
pub fn groups(causes: &[Alone]) -> Vec<Vec<usize>> {
    let mut groups = Vec::new();
    let mut grouped: Vec<usize> = Vec::new();
    for (at, one) in causes.iter().enumerate() {
        if grouped.contains(&one.cause) {
            continue;
        }
        let mut group = vec![one.cause];
        for other in &causes[at + 1..] {
            if !apart(one, other) && !grouped.contains(&other.cause) {
                group.push(other.cause);
            }
        }
        if group.len() > 1 {
            grouped.extend_from_slice(&group);
            groups.push(group);
        }
    }
    groups
}

/// Whether a check tells two causes apart.
fn apart(one: &Alone, other: &Alone) -> bool {
    let mut checks = one.answers.iter().zip(&other.answers);
    checks.any(|(one, other)| coin_information(one, other) >= TOLD_APART)
}

/// How well a tree tells its causes apart.
pub fn coverage(inference: &Inference) -> Result<Coverage, NoBelief> {
    let model = inference.model();
    let (causes, never_alone) = alone(inference)?;
    let shares = inference.believe(&Evidence::report_only(model))?.events;
    let mut telling: Vec<Telling> = (0..model.checks.len())
        .map(|check| Telling {
            check,
            pairs: 0,
            only: 0,
        })
        .collect();
    let mut pairs = Vec::new();
    for (at, one) in causes.iter().enumerate() {
        for other in &causes[at + 1..] {
            pairs.push(pair(one, other, &shares, &mut telling));
        }
    }
    let rounded = |bits: f64| (bits * 1e12).round();
    pairs.sort_by(|a, b| {
        let bits = rounded(a.bits()).total_cmp(&rounded(b.bits()));
        bits.then(rounded(b.share).total_cmp(&rounded(a.share)))
    });
    telling.sort_by_key(|row| std::cmp::Reverse((row.only, row.pairs)));
    Ok(Coverage {
        missing: missing(model, &pairs),
        groups: groups(&causes),
        causes,
        never_alone,
        pairs,
        checks: telling,
    })
}

fn pair(one: &Alone, other: &Alone, shares: &[f64], telling: &mut [Telling]) -> Pair {
    let mut best: Option<(f64, usize)> = None;
    let mut apart = Vec::new();
    let mut alike = 1.0;
    for (check, (heads, tails)) in one.answers.iter().zip(&other.answers).enumerate() {
        let bits = coin_information(heads, tails);
        if bits >= TOLD_APART {
            apart.push(check);
        }
        if bits > best.map_or(0.0, |(most, _)| most) {
            best = Some((bits, check));
        }
        let roots = heads.iter().zip(tails).map(|(h, t)| (h * t).sqrt());
        alike *= roots.sum::<f64>().min(1.0);
    }
    for check in &apart {
        telling[*check].pairs += 1;
    }
    if let [only] = apart[..] {
        telling[only].only += 1;
    }
    let best = best.filter(|(bits, _)| *bits >= NO_BITS);
    let [a, b] = [one.cause, other.cause].map(|cause| shares[cause]);
    Pair {
        one: one.cause,
        other: other.cause,
        best,
        checks: apart.len(),
        share: a + b,
        mistaken: (a * b).sqrt() * alike,
    }
}

/// Further checks listed.
const MISSING: usize = 5;
/// A pair of which fewer jobs than this end at the wrong one asks for no check.
const WORTH_A_CHECK: f64 = 1e-3;

/// What further checks should see: for every event and gate the pairs that it would split.
///
/// After the best one is taken its pairs are settled, so that the next says something else.
fn missing(model: &Model, pairs: &[Pair]) -> Vec<Missing> {
    let tree = &model.tree;
    let mut open: Vec<&Pair> = pairs
        .iter()
        .filter(|pair| pair.mistaken >= WORTH_A_CHECK)
        .collect();
    let nodes: Vec<(Node, Vec<Node>)> = tree
        .below(tree.top)
        .into_iter()
        .filter(|node| !matches!(node, Node::Value { .. }))
        .map(|node| (node, tree.below(node)))
        .collect();
    let mut found = Vec::new();
    while found.len() < MISSING {
        let splits = |below: &[Node], pair: &Pair| {
            let inside = |cause| below.binary_search(&Node::Event(cause)).is_ok();
            (inside(pair.one) != inside(pair.other)).then(|| inside(pair.one))
        };
        let worth = |below: &[Node]| -> f64 {
            let split = open.iter().filter(|pair| splits(below, pair).is_some());
            split.map(|pair| pair.mistaken).sum()
        };
        let mut best: Option<(f64, &(Node, Vec<Node>))> = None;
        for row in &nodes {
            let worth = worth(&row.1);
            if worth > best.map_or(0.0, |(most, _)| most * (1.0 + 1e-9)) {
                best = Some((worth, row));
            }
        }
        let Some((worth, (node, below))) = best else {
            break;
        };
        let (mut one, mut other) = (Vec::new(), Vec::new());
        for pair in &open {
            if let Some(first) = splits(below, pair) {
                let (inside, outside) = if first {
                    (pair.one, pair.other)
                } else {
                    (pair.other, pair.one)
                };
                one.push(inside);
                other.push(outside);
            }
        }
        for side in [&mut one, &mut other] {
            side.sort_unstable();
            side.dedup();
        }
        open.retain(|pair| splits(below, pair).is_none());
        let node = *node;
        found.push(Missing {
            node,
            one,
            other,
            worth,
        });
    }
    found
}
