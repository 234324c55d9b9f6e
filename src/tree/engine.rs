//! A tree compiled for a set of partitions, ready to be asked.

use super::diagram::{Diagrams, Function};
use super::fault_tree::FaultTree;
use super::layers::{Builder, Layered, OverBudget};
use super::mass::Mass;
use super::partition::Partition;
use super::sweep::{Sweep, Weights, sweep};

/// States a shipped tree must stay under.
pub const SHIPPED_BUDGET: usize = 20_000;
/// States after which a tree is refused, or compiled for the answered checks alone.
pub const BUDGET: usize = 300_000;

/// Searches for a small product, one after the other: how many variables are tried on the true
/// width of the next layer, and the seed that draws among those that do nearly alike. Which of them
/// comes first is of no meaning but speed.
const SEARCHES: [(usize, u64); 4] = [(64, 2), (200, 2), (64, 0), (32, 0)];

/// The functions of a tree, from which products for any set of partitions are built.
#[derive(Debug)]
pub struct Workshop<'a> {
    tree: &'a FaultTree,
    diagrams: Diagrams,
    gates: Vec<Function>,
}

/// A product of partitions.
#[derive(Debug)]
pub struct Engine {
    layered: Layered,
    /// Outcomes of each partition.
    outcomes: Vec<usize>,
}

impl<'a> Workshop<'a> {
    /// Builds the functions of all gates.
    pub fn new(tree: &'a FaultTree) -> Self {
        let mut diagrams = Diagrams::new(tree);
        let gates = diagrams.gates(tree);
        Self {
            tree,
            diagrams,
            gates,
        }
    }

    /// Compiles the product of some partitions.
    ///
    /// Errors: the product grows past `budget` states.
    pub fn engine(
        &mut self,
        partitions: &[Partition],
        budget: usize,
    ) -> Result<Engine, OverBudget> {
        self.engine_after(partitions, &[], budget)
    }

    /// The same in an order that is known to keep it small, so that none is looked for.
    ///
    /// Errors: in this order the product grows past `budget`; a workshop may be full after that.
    pub fn engine_in(
        &mut self,
        partitions: &[Partition],
        order: &[usize],
        budget: usize,
    ) -> Result<Engine, OverBudget> {
        let functions = self.functions(partitions, budget)?;
        let variables = self.tree.events.len() + self.tree.conditions.len();
        let layered = Builder::new(&mut self.diagrams, &functions, variables)
            .trying(SEARCHES[2].0)
            .build_after(order, budget)?;
        if self.diagrams.is_full() {
            return Err(OverBudget { budget });
        }
        Ok(Engine::of(layered, partitions))
    }

    /// The same, with some variables asked first, in the order of [`Engine::order`].
    pub fn engine_after(
        &mut self,
        partitions: &[Partition],
        first: &[usize],
        budget: usize,
    ) -> Result<Engine, OverBudget> {
        let functions = self.functions(partitions, budget)?;
        let own = self.own_order(&functions, first);
        let layered = match own {
            Some(layered) => layered,
            None => self.layered(&functions, first, budget)?,
        };
        if self.diagrams.is_full() {
            return Err(OverBudget { budget });
        }
        Ok(Engine::of(layered, partitions))
    }

    /// The functions of some partitions.
    fn functions(
        &mut self,
        partitions: &[Partition],
        budget: usize,
    ) -> Result<Vec<Function>, OverBudget> {
        let functions = partitions
            .iter()
            .map(|partition| self.diagrams.partition(self.tree, partition, &self.gates))
            .collect();
        if self.diagrams.is_full() {
            return Err(OverBudget { budget });
        }
        Ok(functions)
    }

    /// One function alone in the order of its diagram, where that is small: looking for a better
    /// order costs the square of the variables, which a tree of thousands feels.
    fn own_order(&mut self, functions: &[Function], first: &[usize]) -> Option<Layered> {
        let ([_], []) = (functions, first) else {
            return None;
        };
        let variables = self.tree.events.len() + self.tree.conditions.len();
        let mut order: Vec<usize> = (0..variables).collect();
        order.sort_unstable_by_key(|variable| self.diagrams.rank(*variable));
        let builder = Builder::new(&mut self.diagrams, functions, variables);
        builder.build_after(&order, SHIPPED_BUDGET).ok()
    }

    /// The product in the first order that keeps it small, else in the order of the first search.
    ///
    /// No one rule finds a small product for every tree, and a search that fails costs little
    /// because it ends at the budget of a shipped tree.
    fn layered(
        &mut self,
        functions: &[Function],
        first: &[usize],
        budget: usize,
    ) -> Result<Layered, OverBudget> {
        let variables = self.tree.events.len() + self.tree.conditions.len();
        let mut search = |(candidates, seed), budget| {
            Builder::new(&mut self.diagrams, functions, variables)
                .trying(candidates)
                .drawing(seed)
                .build_after(first, budget)
        };
        for how in SEARCHES {
            if let Ok(layered) = search(how, budget.min(SHIPPED_BUDGET)) {
                return Ok(layered);
            }
        }
        search(SEARCHES[2], budget)
    }
}

impl Engine {
    fn of(layered: Layered, partitions: &[Partition]) -> Self {
        Self {
            layered,
            outcomes: partitions.iter().map(Partition::outcomes).collect(),
        }
    }

    /// States of the product: the measure of how hard the tree is.
    pub fn states(&self) -> usize {
        self.layered.states
    }

    /// The variables in the order in which the product asks them.
    pub fn order(&self) -> Vec<usize> {
        self.layered.layers.iter().map(|l| l.variable).collect()
    }

    /// Weights under which every outcome of every partition counts alike.
    pub fn open_weights<M: Mass>(&self, variables: Vec<Vec<M>>) -> Weights<M> {
        let counts = self.outcomes.iter();
        Weights {
            variables,
            outcomes: counts.map(|count| vec![M::ONE; *count]).collect(),
        }
    }

    /// Asks: evidence probability and every marginal.
    pub fn ask<M: Mass>(&self, weights: &Weights<M>) -> Sweep {
        sweep(&self.layered, weights)
    }
}
