//! Minimal cut sets of the top, and the probabilities that go by them.
//!
//! They are read off the decision diagram of the top: an implicant without a variable is one of
//! what is left whatever the variable is, and any other needs the variable. Where nothing speaks
//! against the top this gives the minimal cut sets, else the prime implicants (A. Rauzy,
//! Reliability Engineering and System Safety 40, 1993, and O. Coudert and J. C. Madre, 1992: the
//! method from memory; the counts are tested against published ones).

use rustc_hash::FxHashMap as HashMap;

use super::diagram::{Diagrams, FALSE, Function, MOST_FUNCTIONS, TRUE};
use super::family::{Families, Family, NONE, UNIT};
use super::fault_tree::{Chance, FaultTree};
use super::layers::OverBudget;
use super::node::{Node, Operator};
use super::scale::{Priors, variable_weights};

/// One thing that is so in a cut set: an event or a value of a condition, or the contrary.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Literal {
    /// The event or the value.
    pub node: Node,
    /// Whether it holds.
    pub holds: bool,
}

/// One cut set.
#[derive(Debug, Clone, PartialEq)]
pub struct CutSet {
    /// Its literals, events first, each kind in file order.
    pub literals: Vec<Literal>,
    /// Chance per parking that all of them are so.
    pub chance: f64,
}

/// All cut sets of the top of a tree.
#[derive(Debug)]
pub struct CutSets {
    pub(super) diagrams: Diagrams,
    pub(super) families: Families,
    /// The variable of each rank.
    variables: Vec<usize>,
    /// The choices of each variable: what is asserted, and the values that stand for it.
    choices: Vec<Vec<(Literal, Vec<usize>)>>,
    pub(super) weights: Vec<Vec<f64>>,
    /// The function of the top.
    pub(super) top: Function,
    pub(super) root: Family,
    /// Why these are prime implicants, where they are.
    pub implicants: Option<String>,
}

impl CutSets {
    /// Works the cut sets of a tree out. Events whose part is lacking count as false.
    ///
    /// Errors: the functions or the families grow past their limits.
    pub fn of(tree: &FaultTree, priors: &Priors) -> Result<Self, OverBudget> {
        let mut diagrams = Diagrams::new(tree);
        let gates = diagrams.gates(tree);
        let mut top = diagrams.node(tree, tree.top, &gates);
        for (event, about) in tree.events.iter().enumerate() {
            if about.chance == Chance::Dropped {
                top = diagrams.fix(top, event, 0);
            }
        }
        let named = named_values(tree);
        let count = tree.events.len() + tree.conditions.len();
        let mut variables: Vec<usize> = (0..count).collect();
        variables.sort_unstable_by_key(|variable| diagrams.rank(*variable));
        let mut sets = Self {
            diagrams,
            families: Families::default(),
            variables,
            choices: (0..count).map(|v| choices(tree, &named, v)).collect(),
            weights: variable_weights(tree, &priors.events),
            top,
            root: NONE,
            implicants: implicants(tree, &named),
        };
        sets.root = sets.primes(top, &mut HashMap::default());
        if sets.diagrams.is_full() || sets.families.is_full() {
            let budget = MOST_FUNCTIONS;
            return Err(OverBudget { budget });
        }
        Ok(sets)
    }

    /// The prime implicants of a function.
    fn primes(&mut self, function: Function, known: &mut HashMap<Function, Family>) -> Family {
        match function {
            FALSE => return NONE,
            TRUE => return UNIT,
            _ => {}
        }
        if let Some(&known) = known.get(&function) {
            return known;
        }
        let Some((variable, children)) = self.diagrams.asks(function) else {
            return NONE;
        };
        if self.diagrams.is_full() || self.families.is_full() {
            return NONE;
        }
        // All values of one choice lead to the same, so the first stands for them.
        let branches: Vec<Function> = self.choices[variable]
            .iter()
            .map(|(_, values)| children[values[0]])
            .collect();
        let whatever = branches
            .iter()
            .rev()
            .fold(TRUE, |so_far, b| self.diagrams.choose(*b, so_far, FALSE));
        let without = self.primes(whatever, known);
        let mut made = vec![without];
        for branch in branches {
            let with = self.primes(branch, known);
            made.push(self.families.without(with, without));
        }
        let rank = self.diagrams.rank(variable);
        let family = self.families.make(rank, made);
        known.insert(function, family);
        family
    }

    /// How many there are of each order, from order 0 on. The order counts literals.
    pub fn orders(&self) -> Vec<u128> {
        self.families.orders(self.root)
    }

    /// The cut sets up to an order, most probable first, then smaller ones, then file order.
    /// `None` where there are more than `most`.
    pub fn list(&self, order: usize, most: usize) -> Option<Vec<CutSet>> {
        let counts = self.orders();
        let wanted: u128 = counts.iter().take(order.saturating_add(1)).sum();
        if wanted > most as u128 {
            return None;
        }
        let mut found = Vec::new();
        let mut open: Vec<(Family, Vec<Literal>, f64)> = vec![(self.root, Vec::new(), 1.0)];
        while let Some((family, literals, chance)) = open.pop() {
            if family == UNIT {
                let mut literals = literals;
                literals.sort_unstable();
                found.push(CutSet { literals, chance });
                continue;
            }
            let Some((rank, children)) = self.families.asks(family) else {
                continue;
            };
            let variable = self.variables[rank as usize];
            for (at, (literal, values)) in self.choices[variable].iter().enumerate() {
                if children[at + 1] == NONE || literals.len() >= order {
                    continue;
                }
                let mut longer = literals.clone();
                longer.push(*literal);
                let chance = chance * self.chance_of(variable, values);
                open.push((children[at + 1], longer, chance));
            }
            open.push((children[0], literals, chance));
        }
        found.sort_by(|a, b| {
            let size = a.literals.len().cmp(&b.literals.len());
            let by_chance = digits(b.chance).total_cmp(&digits(a.chance));
            by_chance
                .then(size)
                .then_with(|| a.literals.cmp(&b.literals))
        });
        Some(found)
    }

    /// Chance of a choice: a sum of the chances of its values.
    fn chance_of(&self, variable: usize, values: &[usize]) -> f64 {
        let weights = values.iter().map(|value| self.weights[variable][*value]);
        weights.sum()
    }

    /// Probability of the top, from the diagram and not from the cut sets.
    pub fn exact(&self) -> f64 {
        self.probability(self.top)
    }

    /// Sum of the chances of all cut sets: the rare-event approximation.
    pub fn rare_event(&self) -> f64 {
        self.sum_of(self.root, &mut HashMap::default())
    }

    /// Sum of the chances of the sets of a family.
    pub(super) fn sum_of(&self, family: Family, known: &mut HashMap<Family, f64>) -> f64 {
        let Some((rank, children)) = self.families.asks(family) else {
            return if family == UNIT { 1.0 } else { 0.0 };
        };
        if let Some(&known) = known.get(&family) {
            return known;
        }
        let variable = self.variables[rank as usize];
        let mut sum = self.sum_of(children[0], known);
        for (at, (_, values)) in self.choices[variable].iter().enumerate() {
            sum += self.chance_of(variable, values) * self.sum_of(children[at + 1], known);
        }
        known.insert(family, sum);
        sum
    }

    /// The min-cut upper bound of some cut sets: 1 less the product of what each leaves.
    ///
    /// Formed with logarithms, because 1 - q loses the digits of a q of 1e-10.
    pub fn upper_bound(sets: &[CutSet]) -> f64 {
        let log: f64 = sets.iter().map(|set| (-set.chance).ln_1p()).sum();
        -log.exp_m1()
    }

    /// Probability of a function.
    pub(super) fn probability(&self, function: Function) -> f64 {
        self.diagrams.probability(function, &self.weights)
    }

    /// The function that is true where one of the sets of a family holds.
    pub(super) fn union(
        &mut self,
        family: Family,
        known: &mut HashMap<Family, Function>,
    ) -> Function {
        let Some((rank, children)) = self.families.asks(family) else {
            return if family == UNIT { TRUE } else { FALSE };
        };
        if let Some(&known) = known.get(&family) {
            return known;
        }
        let children = children.to_vec();
        let variable = self.variables[rank as usize];
        let mut function = self.union(children[0], known);
        for (at, choice) in children[1..].iter().enumerate() {
            let rest = self.union(*choice, known);
            for value in self.choices[variable][at].1.clone() {
                let test = self.diagrams.is_value(variable, value);
                let with = self.diagrams.choose(rest, TRUE, function);
                function = self.diagrams.choose(test, with, function);
            }
        }
        known.insert(family, function);
        function
    }
}

/// Twelve digits of a chance, so that ties fall in file order on every machine.
fn digits(chance: f64) -> f64 {
    format!("{chance:.11e}").parse().unwrap_or(chance)
}

/// The values that nodes below the top name, by condition.
fn named_values(tree: &FaultTree) -> Vec<Vec<usize>> {
    let mut named = vec![Vec::new(); tree.conditions.len()];
    for node in tree.below(tree.top) {
        if let Node::Value { condition, value } = node {
            named[condition].push(value);
        }
    }
    named
}

/// What can be asserted of a variable.
fn choices(tree: &FaultTree, named: &[Vec<usize>], variable: usize) -> Vec<(Literal, Vec<usize>)> {
    let events = tree.events.len();
    let Some(condition) = variable.checked_sub(events) else {
        let node = Node::Event(variable);
        return [false, true]
            .map(|holds| (Literal { node, holds }, vec![usize::from(holds)]))
            .to_vec();
    };
    let count = tree.conditions[condition].values.len();
    if let [only] = named[condition][..] {
        // The tree asks for one value alone, so everything else is its contrary.
        let node = Node::Value {
            condition,
            value: only,
        };
        let others: Vec<usize> = (0..count).filter(|value| *value != only).collect();
        let contrary = Literal { node, holds: false };
        let asserted = (Literal { node, holds: true }, vec![only]);
        return match others[..] {
            [] => vec![asserted],
            _ => vec![(contrary, others), asserted],
        };
    }
    let assert = |value| {
        let node = Node::Value { condition, value };
        (Literal { node, holds: true }, vec![value])
    };
    (0..count).map(assert).collect()
}

/// Why the bounds do not hold and the sets are prime implicants, if so.
fn implicants(tree: &FaultTree, named: &[Vec<usize>]) -> Option<String> {
    for node in tree.below(tree.top) {
        let Node::Gate(gate) = node else { continue };
        let gate = &tree.gates[gate];
        let word = match gate.operator {
            Operator::Not => "not",
            Operator::Either => "either",
            _ => continue,
        };
        return Some(format!("gate `{}` is `{word}`", gate.id));
    }
    let several = named.iter().position(|values| values.len() > 1)?;
    let condition = &tree.conditions[several].id;
    Some(format!(
        "several values of condition `{condition}` lie below the top"
    ))
}
