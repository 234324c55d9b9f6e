//! The layered product: all partitions followed at once, one variable a layer.
//!
//! A state is what is left of every undecided partition once the variables so far are known.
//! When a partition is decided it leaves the state and writes its outcome on the edge. Soft
//! evidence is then a weight on that label, so the product is built once and an answer changes
//! weights only.

use rustc_hash::FxHashMap as HashMap;

use super::diagram::{Diagrams, Function};

/// What is left of each undecided partition: its place and its function.
type Tuple = Box<[(u32, Function)]>;

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
    /// The partitions each variable matters to.
    users: Vec<Vec<u32>>,
    labels: Vec<Label>,
    label_ids: HashMap<Label, u32>,
    states: Vec<Tuple>,
    state_ids: HashMap<Tuple, u32>,
    /// Undecided partitions that have lost a variable already.
    opened: Vec<bool>,
    left: Vec<usize>,
}

/// How many variables are tried on the true width of the next layer, best by proxy first.
const CANDIDATES: usize = 32;

impl<'a> Builder<'a> {
    /// Starts from the functions of all partitions.
    pub fn new(diagrams: &'a mut Diagrams, functions: &[Function], variables: usize) -> Self {
        let mut users = vec![Vec::new(); variables];
        let mut left = vec![0; functions.len()];
        for (place, function) in (0u32..).zip(functions) {
            for variable in diagrams.support(*function) {
                users[variable].push(place);
                left[place as usize] += 1;
            }
        }
        let mut builder = Self {
            diagrams,
            users,
            labels: vec![Label::default()],
            label_ids: std::iter::once((Label::default(), 0)).collect(),
            states: Vec::new(),
            state_ids: HashMap::default(),
            opened: vec![false; functions.len()],
            left,
        };
        let all: Vec<(u32, Function)> = (0u32..).zip(functions.iter().copied()).collect();
        builder.states = vec![all.into_boxed_slice()];
        builder
    }

    /// Builds until every variable that matters was asked, choosing each by the next width.
    pub fn build(self, budget: usize) -> Result<Layered, OverBudget> {
        self.build_after(&[], budget)
    }

    /// The same, with the variables of `first` asked first and in their order. Of a part of the
    /// partitions, the order of the whole product makes no more states than the whole had.
    pub fn build_after(mut self, first: &[usize], budget: usize) -> Result<Layered, OverBudget> {
        let start = self.states.first().cloned().unwrap_or_default();
        let (root, root_label) = self.settle(&start);
        self.states = vec![root];
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
            states += self.states.len();
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

    /// Takes decided partitions out of a tuple and gives the label they make.
    fn settle(&mut self, tuple: &[(u32, Function)]) -> (Tuple, u32) {
        let mut decided = Vec::new();
        let mut open = Vec::with_capacity(tuple.len());
        for &(place, function) in tuple {
            match Diagrams::leaf(function) {
                Some(outcome) => decided.push((place, outcome)),
                None => open.push((place, function)),
            }
        }
        let label = if decided.is_empty() {
            0
        } else {
            self.label(decided.into_boxed_slice())
        };
        (open.into_boxed_slice(), label)
    }

    fn label(&mut self, label: Label) -> u32 {
        if let Some(&id) = self.label_ids.get(&label) {
            return id;
        }
        let id = u32::try_from(self.labels.len()).unwrap_or(u32::MAX);
        self.labels.push(label.clone());
        self.label_ids.insert(label, id);
        id
    }

    /// The tuple that is left once a variable is known; only its users change.
    fn fix(&mut self, state: &Tuple, variable: usize, value: usize) -> Vec<(u32, Function)> {
        let users = &self.users[variable];
        let mut next = state.to_vec();
        for (place, function) in &mut next {
            if users.binary_search(place).is_ok() {
                *function = self.diagrams.fix(*function, variable, value);
            }
        }
        next
    }

    /// Asks one variable in every state of the present layer.
    fn layer(&mut self, variable: usize) -> Layer {
        let arity = self.diagrams.arity(variable);
        let present = std::mem::take(&mut self.states);
        self.state_ids.clear();
        let mut edges = Vec::with_capacity(present.len() * arity);
        for state in &present {
            for value in 0..arity {
                let next = self.fix(state, variable, value);
                let (tuple, label) = self.settle(&next);
                let target = self.state(tuple);
                edges.push(Edge { target, label });
            }
        }
        for &user in &self.users[variable] {
            self.opened[user as usize] = true;
            self.left[user as usize] -= 1;
        }
        Layer {
            variable,
            arity,
            edges,
        }
    }

    fn state(&mut self, tuple: Tuple) -> u32 {
        if let Some(&id) = self.state_ids.get(&tuple) {
            return id;
        }
        let id = u32::try_from(self.states.len()).unwrap_or(u32::MAX);
        self.states.push(tuple.clone());
        self.state_ids.insert(tuple, id);
        id
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
        ranked.truncate(CANDIDATES);
        if let [(_, only)] = ranked[..] {
            return only;
        }
        let mut best = (usize::MAX, 0);
        for (_, at) in ranked {
            let width = self.width_after(waiting[at], best.0);
            if width < best.0 {
                best = (width, at);
            }
            // A layer that does not grow is good enough; looking on costs more than it saves.
            if width <= self.states.len() {
                break;
            }
        }
        best.1
    }

    /// Partitions the variable opens, less those it closes: small is good.
    fn proxy(&self, variable: usize) -> i64 {
        let score = |user: &u32| match (self.opened[*user as usize], self.left[*user as usize]) {
            (_, 1) => -2,
            (true, _) => -1,
            (false, left) => 4 + i64::try_from(left).unwrap_or(i64::MAX / 2).min(64),
        };
        self.users[variable].iter().map(score).sum()
    }

    /// States of the next layer if this variable is asked; stops counting at `enough`.
    fn width_after(&mut self, variable: usize, enough: usize) -> usize {
        let present = std::mem::take(&mut self.states);
        let mut next: rustc_hash::FxHashSet<Vec<(u32, Function)>> =
            rustc_hash::FxHashSet::default();
        'states: for state in &present {
            for value in 0..self.diagrams.arity(variable) {
                let mut tuple = self.fix(state, variable, value);
                tuple.retain(|(_, function)| Diagrams::leaf(*function).is_none());
                next.insert(tuple);
                if next.len() >= enough {
                    break 'states;
                }
            }
        }
        self.states = present;
        next.len()
    }
}
