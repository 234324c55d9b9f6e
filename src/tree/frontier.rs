//! The frontier: the states of one layer of the product, while it is built.
//!
//! Every state has a row with the function that is left of each partition. A column of a
//! partition holds few different functions, so what a variable makes of them is worked out once a
//! column and not once a state, and the states of a next layer are counted by hash alone.

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

use super::diagram::{Diagrams, Function};
use super::digest::{DECIDED as DIGEST_OF_DECIDED, mix};

/// Stands in a row for a partition that is decided: a leaf, so no undecided function.
const DECIDED: Function = 0;

/// What one column becomes when a variable is known: one entry for each value, for each different
/// function of the column in turn.
pub struct Turn {
    /// Place of the partition.
    pub place: usize,
    /// What it adds to the hash of a state.
    pub changes: Vec<u64>,
    /// The new functions; empty where the states of the next layer are only counted.
    pub becomes: Vec<Function>,
}

/// The different functions of one column, and which of them each state has.
#[derive(Default)]
struct Column {
    functions: Vec<Function>,
    of_state: Vec<u32>,
}

/// The states of one layer.
pub struct Frontier {
    /// Rows of all states, one after the other.
    rows: Vec<Function>,
    /// Sum of [`hash`] over the row of each state.
    hashes: Vec<u64>,
    /// Columns that differ between states, or will; empty until the layer is complete.
    columns: Vec<Column>,
    /// First state of each hash; states of one hash are chained.
    known: HashMap<u64, u32>,
    /// The next state of the same hash, one further than it stands; 0 ends the chain.
    chain: Vec<u32>,
    width: usize,
}

/// What a partition adds to the hash of a state; equal rows have equal sums.
pub fn hash(place: usize, digest: u64) -> u64 {
    if digest == DIGEST_OF_DECIDED {
        return 0;
    }
    mix(digest ^ mix(place as u64))
}

/// A decided partition leaves the row.
fn left(function: Function) -> Function {
    match Diagrams::leaf(function) {
        Some(_) => DECIDED,
        None => function,
    }
}

impl Frontier {
    /// One state, with the functions of all partitions.
    pub fn of(functions: &[Function]) -> Self {
        Self {
            rows: functions.to_vec(),
            hashes: vec![0],
            columns: Vec::new(),
            known: HashMap::default(),
            chain: vec![0],
            width: functions.len(),
        }
    }

    /// A frontier of the same width without states.
    pub fn empty(&self) -> Self {
        Self {
            rows: Vec::with_capacity(self.rows.len() * 2),
            hashes: Vec::new(),
            columns: Vec::new(),
            known: HashMap::default(),
            chain: Vec::new(),
            width: self.width,
        }
    }

    /// How many states there are.
    pub fn len(&self) -> usize {
        self.hashes.len()
    }

    /// The different functions in the column of a partition.
    pub fn functions(&self, place: usize) -> &[Function] {
        &self.columns[place].functions
    }

    /// Takes out what is decided in the first state and gives it: place, outcome.
    pub fn settle_first(&mut self) -> Vec<(u32, u32)> {
        let mut decided = Vec::new();
        for (place, function) in (0u32..).zip(&mut self.rows) {
            if let Some(outcome) = Diagrams::leaf(*function) {
                decided.push((place, outcome));
            }
            *function = left(*function);
        }
        self.finish();
        decided
    }

    /// Goes from one state over a value of a variable to its state in `next`.
    ///
    /// `value` comes with the number of values. What is decided on the way goes to `decided`.
    pub fn step(
        &self,
        state: usize,
        turns: &[Turn],
        (value, arity): (usize, usize),
        next: &mut Self,
        decided: &mut Vec<(u32, u32)>,
    ) -> u32 {
        let from = state * self.width;
        let at = next.rows.len();
        next.rows
            .extend_from_slice(&self.rows[from..from + self.width]);
        let mut sum = self.hashes[state];
        for turn in turns {
            let old = next.rows[at + turn.place];
            if old == DECIDED {
                continue;
            }
            let kind = self.columns[turn.place].of_state[state] as usize;
            let new = turn.becomes[kind * arity + value];
            if let Some(outcome) = Diagrams::leaf(new) {
                decided.push((u32::try_from(turn.place).unwrap_or(u32::MAX), outcome));
            }
            next.rows[at + turn.place] = left(new);
            sum = sum.wrapping_add(turn.changes[kind * arity + value]);
        }
        next.merge_last(sum)
    }

    /// Joins the row at the end with an equal state, or makes it a state.
    fn merge_last(&mut self, sum: u64) -> u32 {
        let at = self.hashes.len() * self.width;
        let mut link = self.known.get(&sum).copied().unwrap_or(0);
        while let Some(state) = link.checked_sub(1) {
            let begin = state as usize * self.width;
            if self.rows[begin..begin + self.width] == self.rows[at..] {
                self.rows.truncate(at);
                return state;
            }
            link = self.chain[state as usize];
        }
        let state = u32::try_from(self.hashes.len()).unwrap_or(u32::MAX - 1);
        let before = self.known.insert(sum, state + 1);
        self.chain.push(before.unwrap_or(0));
        self.hashes.push(sum);
        state
    }

    /// Works out the columns once all states are there.
    pub fn finish(&mut self) {
        self.columns = (0..self.width).map(|place| self.column(place)).collect();
    }

    fn column(&self, place: usize) -> Column {
        let mut column = Column::default();
        let mut kinds: HashMap<Function, u32> = HashMap::default();
        let mut last = (None, 0);
        for state in 0..self.len() {
            let function = self.rows[state * self.width + place];
            if last.0 != Some(function) {
                let kind = *kinds.entry(function).or_insert_with(|| {
                    column.functions.push(function);
                    u32::try_from(column.functions.len() - 1).unwrap_or(u32::MAX)
                });
                last = (Some(function), kind);
            }
            column.of_state.push(last.1);
        }
        column
    }

    /// States of the next layer if a variable turns the columns so; stops counting at `enough`.
    ///
    /// Two different rows of one hash would count as one, which can cost a better order and
    /// nothing else.
    pub fn width_after(&self, turns: &[Turn], arity: usize, enough: usize) -> usize {
        let mut next: HashSet<u64> = HashSet::default();
        for (state, sum) in self.hashes.iter().enumerate() {
            for value in 0..arity {
                let mut sum = *sum;
                for turn in turns {
                    let kind = self.columns[turn.place].of_state[state] as usize;
                    sum = sum.wrapping_add(turn.changes[kind * arity + value]);
                }
                if next.insert(sum) && next.len() >= enough {
                    return next.len();
                }
            }
        }
        next.len()
    }
}
