//! The layered product: all partitions followed at once, one variable a layer.
//!
//! A state is what is left of every undecided partition once the variables so far are known.
//! When a partition is decided it leaves the state and writes its outcome on the edge. Soft
//! evidence is then a weight on that label, so the product is built once and an answer changes
//! weights only.

use rustc_hash::FxHashMap as HashMap;

use super::diagram::{Diagrams, Function};
use super::digest::{Digests, mix};
use super::frontier::{Frontier, Turn, hash};

/// Outcomes decided on an edge: place of the partition, outcome.
pub type Label = Box<[(u32, u32)]>;

/// One edge: where it leads in the next layer, and what it decides.
#[derive(Debug, Clone, Copy)]
pub struct Edge {
    /// State in the next layer.
    pub target: u32,
    /// Place of the label in [`Layered::labels`].
    pub label: u32,
}

/// One layer: a variable, and for each state one edge a value, states in order.
#[derive(Debug)]
pub struct Layer {
    /// The variable asked here; events first, then conditions.
    pub variable: usize,
    /// How many values it has.
    pub arity: usize,
    /// Edges, `arity` for each state.
    pub edges: Vec<Edge>,
}

/// The product of all partitions.
#[derive(Debug)]
pub struct Layered {
    /// The layers, first variable first.
    pub layers: Vec<Layer>,
    /// The different labels; label 0 decides nothing.
    pub labels: Vec<Label>,
    /// What is decided before any variable is known.
    pub root_label: u32,
    /// All states of all layers.
    pub states: usize,
}

/// The product grew past its budget.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("the tree is too large to be worked out exactly within {budget} states")]
pub struct OverBudget {
    /// The budget, in states. A budget in states gives the same answer on every machine.
    pub budget: usize,
}

/// Builds the product layer by layer, choosing the variable that keeps the next layer small.
pub struct Builder<'a> {
    diagrams: &'a mut Diagrams,
    digests: Digests,
    /// The partitions each variable matters to, in ascending order.
    users: Vec<Vec<usize>>,
    labels: Vec<Label>,
    label_ids: HashMap<Label, u32>,
    frontier: Frontier,
    /// Undecided partitions that have lost a variable already.
    opened: Vec<bool>,
    left: Vec<usize>,
    /// How many variables are tried on the true width of the next layer, best by proxy first.
    candidates: usize,
    /// Draws among variables that do nearly alike; 0 takes the first of the best.
    seed: u64,
}

/// Widths within so many hundredths of the least are alike for a search with a seed.
const NEAR: usize = 3;

/// The widest layer that is alike to one of this width.
fn near(width: usize) -> usize {
    width.saturating_add(width.saturating_mul(NEAR) / 100)
}

impl<'a> Builder<'a> {
    /// Starts from the functions of all partitions.
    pub fn new(diagrams: &'a mut Diagrams, functions: &[Function], variables: usize) -> Self {
        let mut users = vec![Vec::new(); variables];
        let mut left = vec![0; functions.len()];
        for (place, function) in functions.iter().enumerate() {
            for variable in diagrams.support(*function) {
                users[variable].push(place);
                left[place] += 1;
            }
        }
        Self {
            diagrams,
            digests: Digests::default(),
            users,
            labels: vec![Label::default()],
            label_ids: std::iter::once((Label::default(), 0)).collect(),
            frontier: Frontier::of(functions),
            opened: vec![false; functions.len()],
            left,
            candidates: usize::MAX,
            seed: 0,
        }
    }

    /// Tries only so many variables on the true width of each next layer.
    #[must_use]
    pub fn trying(mut self, candidates: usize) -> Self {
        self.candidates = candidates;
        self
    }

    /// Draws among variables that make next layers of nearly one width: an order that is found so
    /// may end far smaller, and the same seed finds the same order.
    #[must_use]
    pub fn drawing(mut self, seed: u64) -> Self {
        self.seed = seed;
        self
    }

    /// Builds until every variable that matters was asked: those of `first` in their order, then
    /// each as the next width tells. Of a part of the partitions, the order of the whole product
    /// makes no more states than the whole had.
    pub fn build_after(mut self, first: &[usize], budget: usize) -> Result<Layered, OverBudget> {
        let root_label = self.settle_root();
        let mut layers = Vec::new();
        let mut states = 1;
        let mut waiting: Vec<usize> = (0..self.users.len())
            .filter(|variable| !self.users[*variable].is_empty())
            .collect();
        let mut first = first.iter();
        while !waiting.is_empty() {
            let at = match first.next() {
                Some(variable) => match waiting.binary_search(variable) {
                    Ok(at) => at,
                    Err(_) => continue,
                },
                None => self.choose_variable(&waiting),
            };
            let variable = waiting.remove(at);
            layers.push(self.layer(variable));
            states += self.frontier.len();
            if states > budget {
                return Err(OverBudget { budget });
            }
        }
        Ok(Layered {
            layers,
            labels: self.labels,
            root_label,
            states,
        })
    }

    /// Takes the partitions out that are decided before any variable is known.
    fn settle_root(&mut self) -> u32 {
        let decided = self.frontier.settle_first();
        self.label(decided)
    }

    fn label(&mut self, decided: Vec<(u32, u32)>) -> u32 {
        if decided.is_empty() {
            return 0;
        }
        let label = decided.into_boxed_slice();
        if let Some(&id) = self.label_ids.get(&label) {
            return id;
        }
        let id = u32::try_from(self.labels.len()).unwrap_or(u32::MAX);
        self.labels.push(label.clone());
        self.label_ids.insert(label, id);
        id
    }

    /// What a variable does to the hashes of the states, without forming what it leaves.
    fn counted(&mut self, variable: usize) -> Vec<Turn> {
        let arity = self.diagrams.arity(variable);
        let mut turns = Vec::with_capacity(self.users[variable].len());
        for &place in &self.users[variable] {
            let functions = self.frontier.functions(place);
            let mut changes = Vec::with_capacity(functions.len() * arity);
            for &function in functions {
                let old = hash(place, self.digests.whole(self.diagrams, function));
                let left = self.digests.left(self.diagrams, function, variable);
                changes.extend(left.iter().map(|new| hash(place, *new).wrapping_sub(old)));
            }
            turns.push(Turn {
                place,
                changes,
                becomes: Vec::new(),
            });
        }
        turns
    }

    /// What every function of the frontier that a variable matters to becomes, for each value.
    fn turns(&mut self, variable: usize) -> Vec<Turn> {
        let arity = self.diagrams.arity(variable);
        let mut turns = Vec::with_capacity(self.users[variable].len());
        for &place in &self.users[variable] {
            let functions = self.frontier.functions(place);
            let mut becomes = Vec::with_capacity(functions.len() * arity);
            let mut changes = Vec::with_capacity(functions.len() * arity);
            for &function in functions {
                let old = hash(place, self.digests.whole(self.diagrams, function));
                for value in 0..arity {
                    let new = match Diagrams::leaf(function) {
                        Some(_) => function,
                        None => self.diagrams.fix(function, variable, value),
                    };
                    let digest = self.digests.whole(self.diagrams, new);
                    becomes.push(new);
                    changes.push(hash(place, digest).wrapping_sub(old));
                }
            }
            turns.push(Turn {
                place,
                changes,
                becomes,
            });
        }
        turns
    }

    /// Asks one variable in every state of the present layer.
    fn layer(&mut self, variable: usize) -> Layer {
        let arity = self.diagrams.arity(variable);
        let turns = self.turns(variable);
        let mut next = self.frontier.empty();
        let mut edges = Vec::with_capacity(self.frontier.len() * arity);
        let mut decided = Vec::new();
        for state in 0..self.frontier.len() {
            for value in 0..arity {
                let target =
                    self.frontier
                        .step(state, &turns, (value, arity), &mut next, &mut decided);
                let label = self.label(std::mem::take(&mut decided));
                edges.push(Edge { target, label });
            }
        }
        for &user in &self.users[variable] {
            self.opened[user] = true;
            self.left[user] -= 1;
        }
        next.finish();
        self.frontier = next;
        Layer {
            variable,
            arity,
            edges,
        }
    }

    /// The place in `waiting` of the variable that makes the smallest next layer.
    ///
    /// Ties go to the variable with the better proxy, then to the earlier one.
    fn choose_variable(&mut self, waiting: &[usize]) -> usize {
        let mut ranked: Vec<(i64, usize)> = waiting
            .iter()
            .enumerate()
            .map(|(at, variable)| (self.proxy(*variable), at))
            .collect();
        ranked.sort_unstable();
        ranked.truncate(self.candidates);
        if let [(_, only)] = ranked[..] {
            return only;
        }
        let widths = self.widths(waiting, &ranked);
        let least = widths.iter().map(|(width, _)| *width).min().unwrap_or(0);
        let alike: Vec<usize> = widths
            .iter()
            .filter(|(width, _)| *width <= near(least))
            .map(|(_, at)| *at)
            .collect();
        if self.seed > 0 && !alike.is_empty() {
            let drawn = mix(self.seed.wrapping_mul(1000) + waiting.len() as u64);
            let nth = drawn % alike.len() as u64;
            return alike[usize::try_from(nth).unwrap_or(0)];
        }
        let first = widths.iter().find(|(width, _)| *width == least);
        first.map_or(0, |(_, at)| *at)
    }

    /// States of the next layer for each of some variables, by their places in `waiting`.
    ///
    /// Without a seed the first layer that does not grow is good enough; looking on costs more
    /// than it saves.
    fn widths(&mut self, waiting: &[usize], ranked: &[(i64, usize)]) -> Vec<(usize, usize)> {
        let mut least = usize::MAX;
        let mut widths = Vec::with_capacity(ranked.len());
        for (_, at) in ranked {
            let variable = waiting[*at];
            let turns = self.counted(variable);
            let enough = match self.seed {
                0 => least,
                _ => near(least).saturating_add(2),
            };
            let arity = self.diagrams.arity(variable);
            let width = self.frontier.width_after(&turns, arity, enough);
            least = least.min(width);
            widths.push((width, *at));
            if self.seed == 0 && width <= self.frontier.len() {
                break;
            }
        }
        widths
    }

    /// Partitions the variable opens, less those it closes: small is good.
    fn proxy(&self, variable: usize) -> i64 {
        let score = |user: &usize| match (self.opened[*user], self.left[*user]) {
            (_, 1) => -2,
            (true, _) => -1,
            (false, left) => 4 + i64::try_from(left).unwrap_or(i64::MAX / 2).min(64),
        };
        self.users[variable].iter().map(score).sum()
    }
}
