//! Digests: numbers by which functions, and what is left of them, are told apart.
//!
//! Looking for a good order of the variables asks thousands of times how many different functions
//! would be left. Forming them only to count them would cost more than all the rest, so they are
//! counted by digest. The digest is the function's multilinear polynomial at a point drawn once
//! for all, with the arithmetic of 64-bit words; it is worked out for what would be left as well as
//! for what is there. (Equality of functions by evaluation at a random
//! point: Blum, Chandra and Wegman, Information Processing Letters 10 (1980), from memory.)
//! Two functions of one digest would count as one: a worse order, never a wrong probability.

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::diagram::{Diagrams, Function};

/// The digest of a decided partition, which leaves the state.
pub const DECIDED: u64 = 0;

/// One digest for each value of a variable.
pub type Values = smallvec::SmallVec<[u64; 2]>;

/// Digests of functions of one store.
#[derive(Default)]
pub struct Digests {
    whole: HashMap<Function, u64>,
    /// What is left of a function once a variable is known: one digest for each value.
    left: HashMap<(Function, u32), Values>,
    /// Digests of the leaves met.
    leaves: HashSet<u64>,
}

/// The finaliser of the generator "`SplitMix64`" (Steele, Lea and Flood, OOPSLA 2014; constants
/// from memory): neighbouring numbers come out without any likeness.
pub fn mix(number: u64) -> u64 {
    let mut mixed = number.wrapping_add(0x9E37_79B9_7F4A_7C15);
    mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    mixed ^ (mixed >> 31)
}

/// The weight of a value of a variable. The weights of one variable sum to 1, so that a variable
/// a function does not ask leaves its digest alone.
fn weight(variable: usize, value: usize, arity: usize) -> u64 {
    let drawn = |value: usize| mix(((variable as u64) << 16 | value as u64) ^ 0x5757);
    if value + 1 < arity {
        return drawn(value);
    }
    (0..value).fold(1, |rest: u64, value| rest.wrapping_sub(drawn(value)))
}

fn of_leaf(outcome: u32) -> u64 {
    mix(u64::from(outcome) ^ 0xABCD_0000)
}

impl Digests {
    /// The digest of a function; [`DECIDED`] for a leaf.
    pub fn whole(&mut self, diagrams: &Diagrams, function: Function) -> u64 {
        match Diagrams::leaf(function) {
            Some(_) => DECIDED,
            None => self.polynomial(diagrams, function),
        }
    }

    fn polynomial(&mut self, diagrams: &Diagrams, function: Function) -> u64 {
        if let Some(outcome) = Diagrams::leaf(function) {
            let digest = of_leaf(outcome);
            self.leaves.insert(digest);
            return digest;
        }
        if let Some(&known) = self.whole.get(&function) {
            return known;
        }
        let Some((variable, children)) = diagrams.asks(function) else {
            return DECIDED;
        };
        let mut sum = 0u64;
        for (value, child) in children.iter().enumerate() {
            let part = self.polynomial(diagrams, *child);
            sum = sum.wrapping_add(weight(variable, value, children.len()).wrapping_mul(part));
        }
        self.whole.insert(function, sum);
        sum
    }

    /// The digests of what is left of a function once a variable is known, one for each value.
    ///
    /// Complexity: linear in the part of the function that stands above the variable, once.
    pub fn left(&mut self, diagrams: &Diagrams, function: Function, variable: usize) -> Values {
        if Diagrams::leaf(function).is_some() {
            return smallvec::smallvec![DECIDED; diagrams.arity(variable)];
        }
        let mut left = self.left_below(diagrams, function, variable);
        for digest in &mut left {
            if self.leaves.contains(digest) {
                *digest = DECIDED;
            }
        }
        left
    }

    fn left_below(&mut self, diagrams: &Diagrams, function: Function, variable: usize) -> Values {
        let arity = diagrams.arity(variable);
        let children = match diagrams.asks(function) {
            Some((asked, children)) if asked == variable => {
                let values = children.iter();
                return values
                    .map(|child| self.polynomial(diagrams, *child))
                    .collect();
            }
            Some((_, children)) if !diagrams.stands_below(function, variable) => children,
            _ => return smallvec::smallvec![self.polynomial(diagrams, function); arity],
        };
        let key = (function, u32::try_from(variable).unwrap_or(u32::MAX));
        if let Some(known) = self.left.get(&key) {
            return known.clone();
        }
        let asked = diagrams.asks(function).map_or(0, |(asked, _)| asked);
        let mut sums: Values = smallvec::smallvec![0; arity];
        for (way, child) in children.iter().enumerate() {
            let weight = weight(asked, way, children.len());
            for (sum, part) in sums
                .iter_mut()
                .zip(self.left_below(diagrams, *child, variable))
            {
                *sum = sum.wrapping_add(weight.wrapping_mul(part));
            }
        }
        self.left.insert(key, sums.clone());
        sums
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tree::fault_tree::{Chance, Condition, Event, FaultTree, Gate};
    use crate::tree::node::{Node, Operator};
    use crate::tree::partition::Partition;

    /// Two of four events, beside a condition of three values.
    fn tree() -> FaultTree {
        let event = |id: &str| Event {
            id: id.into(),
            chance: Chance::PerParking(0.1),
        };
        let gate = |id: &str, operator, inputs: &[Node]| Gate {
            id: id.into(),
            operator,
            inputs: inputs.to_vec(),
        };
        let condition = Condition {
            id: "supply".into(),
            values: ["main", "second", "none"]
                .map(|value| (value.into(), 1.0 / 3.0))
                .to_vec(),
        };
        let none = Node::Value {
            condition: 0,
            value: 2,
        };
        let events: Vec<Node> = (0..4).map(Node::Event).collect();
        let gates = vec![
            gate("two", Operator::AtLeast(2), &events),
            gate("unfed", Operator::All, &[none, events[0]]),
            gate("top", Operator::Any, &[Node::Gate(0), Node::Gate(1)]),
        ];
        let events = ["a", "b", "c", "d"].map(event).to_vec();
        FaultTree::build(events, vec![condition], gates, Node::Gate(2)).unwrap()
    }

    /// What is left is told by the same number whether it is formed or only counted.
    #[test]
    fn what_is_left_has_the_digest_of_the_function_formed() {
        let tree = tree();
        let mut diagrams = Diagrams::new(&tree);
        let gates = diagrams.gates(&tree);
        let lines = [0, 1].map(|gate| vec![Node::Gate(gate)]).to_vec();
        let lines = diagrams.partition(&tree, &Partition::of_lines(lines), &gates);
        let mut digests = Digests::default();
        let mut told = std::collections::BTreeSet::new();
        for function in gates.into_iter().chain([lines]) {
            for variable in diagrams.support(function) {
                for value in 0..diagrams.arity(variable) {
                    let formed = diagrams.fix(function, variable, value);
                    let whole = digests.whole(&diagrams, formed);
                    let left = digests.left(&diagrams, function, variable);
                    assert_eq!(left[value], whole);
                    told.insert((formed, whole));
                }
            }
        }
        let functions: std::collections::BTreeSet<_> = told.iter().map(|(f, _)| *f).collect();
        let inner = functions.iter().filter(|f| Diagrams::leaf(**f).is_none());
        let digests: std::collections::BTreeSet<_> = told.iter().map(|(_, d)| *d).collect();
        assert_eq!(
            digests.len(),
            inner.count() + 1,
            "all leaves share one digest"
        );
        assert_eq!(told.len(), functions.len(), "one digest a function");
    }
}
