//! Reduced decision diagrams over two- and many-valued variables, with numbered leaves.
//!
//! One store holds the functions of all gates and of all line partitions. Equal functions have
//! equal ids, whatever way they were built; the layered product rests on that.

use rustc_hash::FxHashMap as HashMap;

use super::fault_tree::FaultTree;
use super::node::{Node, Operator};
use super::partition::Partition;

/// Children on their way into the store.
type Children = smallvec::SmallVec<[Function; 4]>;

/// A function in the store.
pub type Function = u32;

/// The leaves stand first in the store: leaf `n` is function `n`.
const LEAVES: u32 = 1 << 16;

/// The leaf for false; the leaf for true is [`TRUE`].
pub const FALSE: Function = 0;
/// The leaf for true.
pub const TRUE: Function = 1;

/// Functions after which the store gives up. A limit in functions, like the one in states, gives
/// the same answer on every machine.
pub const MOST_FUNCTIONS: usize = 500_000;

/// An inner function: the variable it asks first, and where its children stand.
#[derive(Debug, Clone, Copy)]
struct Inner {
    variable: u32,
    first: u32,
}

/// The store of all functions of one tree.
#[derive(Debug, Default)]
pub struct Diagrams {
    /// Every inner function; function `LEAVES + i` is entry `i`.
    nodes: Vec<Inner>,
    /// The children of all inner functions, one function after the other.
    children: Vec<Function>,
    /// Functions of variables with two values, by variable and children.
    pairs: HashMap<(u32, Function, Function), Function>,
    /// The same for other variables.
    wider: HashMap<(u32, Box<[Function]>), Function>,
    choices: HashMap<(Function, Function, Function), Function>,
    fixed: HashMap<(Function, u32, u32), Function>,
    /// Whether the store gave up; its functions mean nothing then.
    full: bool,
    /// Number of values of each variable; events first, then conditions.
    arity: Vec<usize>,
    /// Rank of each variable in the store's own order.
    rank: Vec<u32>,
}

impl Diagrams {
    /// An empty store for the variables of a tree, kept in the order a walk from the top meets
    /// them, which keeps inputs of one gate together.
    pub fn new(tree: &FaultTree) -> Self {
        let events = tree.events.len();
        let mut arity = vec![2; events];
        arity.extend(tree.conditions.iter().map(|c| c.values.len()));
        let mut rank = vec![u32::MAX; arity.len()];
        let mut next = 0;
        let mut open = vec![tree.top];
        let mut seen = std::collections::BTreeSet::new();
        while let Some(node) = open.pop() {
            if !seen.insert(node) {
                continue;
            }
            let variable = match node {
                Node::Event(event) => Some(event),
                Node::Value { condition, .. } => Some(events + condition),
                Node::Gate(_) => None,
            };
            if let Some(rank) = variable.and_then(|v| rank.get_mut(v))
                && *rank == u32::MAX
            {
                *rank = next;
                next += 1;
            }
            open.extend(tree.inputs(node).into_iter().rev());
        }
        for rank in rank.iter_mut().filter(|rank| **rank == u32::MAX) {
            *rank = next;
            next += 1;
        }
        Self {
            arity,
            rank,
            ..Self::default()
        }
    }

    /// The number of values of a variable.
    pub fn arity(&self, variable: usize) -> usize {
        self.arity.get(variable).copied().unwrap_or(0)
    }

    /// Whether a function is a leaf, and which.
    pub fn leaf(function: Function) -> Option<u32> {
        (function < LEAVES).then_some(function)
    }

    /// How many inner functions the store holds.
    pub fn len(&self) -> usize {
        self.nodes.len()
    }

    /// Whether the store gave up. Its functions mean nothing then.
    pub fn is_full(&self) -> bool {
        self.full
    }

    /// Whether the store holds leaves only.
    pub fn is_empty(&self) -> bool {
        self.nodes.is_empty()
    }

    /// The variables a function depends on, in ascending order.
    pub fn support(&self, function: Function) -> Vec<usize> {
        let mut seen = rustc_hash::FxHashSet::default();
        let mut variables = std::collections::BTreeSet::new();
        let mut open = vec![function];
        while let Some(function) = open.pop() {
            if let (true, Some(inner)) = (seen.insert(function), self.inner(function)) {
                variables.insert(inner.variable as usize);
                open.extend_from_slice(self.children(inner));
            }
        }
        variables.into_iter().collect()
    }

    fn inner(&self, function: Function) -> Option<Inner> {
        let index = function.checked_sub(LEAVES)?;
        self.nodes.get(index as usize).copied()
    }

    /// One child for each value of the variable of a function.
    fn children(&self, inner: Inner) -> &[Function] {
        let first = inner.first as usize;
        &self.children[first..first + self.arity(inner.variable as usize)]
    }

    /// The variable a function asks first, and one child for each of its values; `None` for a leaf.
    pub fn asks(&self, function: Function) -> Option<(usize, &[Function])> {
        let inner = self.inner(function)?;
        Some((inner.variable as usize, self.children(inner)))
    }

    /// Whether a function asks only for variables that come after this one, or for none.
    pub fn stands_below(&self, function: Function, variable: usize) -> bool {
        self.rank_of(function) > self.rank(variable)
    }

    /// The place of a variable in the store's own order.
    pub fn rank(&self, variable: usize) -> u32 {
        self.rank.get(variable).copied().unwrap_or(u32::MAX)
    }

    fn rank_of(&self, function: Function) -> u32 {
        self.inner(function)
            .and_then(|inner| self.rank.get(inner.variable as usize))
            .copied()
            .unwrap_or(u32::MAX)
    }

    /// The function that asks a variable and goes on with a child for each of its values.
    fn make(&mut self, variable: u32, children: &[Function]) -> Function {
        if let [first, rest @ ..] = children
            && rest.iter().all(|child| child == first)
        {
            return *first;
        }
        let pair = match children {
            [a, b] => Some((variable, *a, *b)),
            _ => None,
        };
        let known = match pair {
            Some(pair) => self.pairs.get(&pair),
            None => self.wider.get(&(variable, children.into())),
        };
        if let Some(&known) = known {
            return known;
        }
        if self.nodes.len() >= MOST_FUNCTIONS {
            self.full = true;
            return FALSE;
        }
        let function = LEAVES + u32::try_from(self.nodes.len()).unwrap_or(u32::MAX - LEAVES);
        let first = u32::try_from(self.children.len()).unwrap_or(u32::MAX);
        self.nodes.push(Inner { variable, first });
        self.children.extend_from_slice(children);
        match pair {
            Some(pair) => self.pairs.insert(pair, function),
            None => self.wider.insert((variable, children.into()), function),
        };
        function
    }

    /// True exactly where the variable has the value.
    pub fn is_value(&mut self, variable: usize, value: usize) -> Function {
        let children: Children = (0..self.arity(variable))
            .map(|v| if v == value { TRUE } else { FALSE })
            .collect();
        self.make(u32::try_from(variable).unwrap_or(u32::MAX), &children)
    }

    /// Where `test` is true the function `then`, elsewhere the function `otherwise`.
    ///
    /// `test` must have the leaves true and false only.
    /// Complexity: at most the product of the three sizes.
    pub fn choose(&mut self, test: Function, then: Function, otherwise: Function) -> Function {
        match Self::leaf(test) {
            Some(FALSE) => return otherwise,
            Some(_) => return then,
            None => {}
        }
        if then == otherwise {
            return then;
        }
        if (then, otherwise) == (TRUE, FALSE) {
            return test;
        }
        let key = (test, then, otherwise);
        if let Some(&known) = self.choices.get(&key) {
            return known;
        }
        if self.full {
            return FALSE;
        }
        let top = [test, then, otherwise]
            .into_iter()
            .min_by_key(|f| self.rank_of(*f))
            .unwrap_or(test);
        let variable = self.inner(top).map_or(0, |inner| inner.variable);
        let children: Children = (0..self.arity(variable as usize))
            .map(|value| {
                let value = u32::try_from(value).unwrap_or(u32::MAX);
                let [a, b, c] = [test, then, otherwise].map(|f| self.top_child(f, variable, value));
                self.choose(a, b, c)
            })
            .collect();
        let made = self.make(variable, &children);
        self.choices.insert(key, made);
        made
    }

    /// The child of a function if it asks for this variable first, else the function itself.
    fn top_child(&self, function: Function, variable: u32, value: u32) -> Function {
        match self.inner(function) {
            Some(inner) if inner.variable == variable => {
                let child = self.children(inner).get(value as usize);
                child.copied().unwrap_or(function)
            }
            _ => function,
        }
    }

    /// The function that is left once a variable is known.
    pub fn fix(&mut self, function: Function, variable: usize, value: usize) -> Function {
        let Some(&rank) = self.rank.get(variable) else {
            return function;
        };
        let variable = u32::try_from(variable).unwrap_or(u32::MAX);
        let value = u32::try_from(value).unwrap_or(u32::MAX);
        self.fix_below(function, variable, value, rank)
    }

    fn fix_below(&mut self, function: Function, variable: u32, value: u32, rank: u32) -> Function {
        // Variables further down the store's order than the one fixed cannot hold it.
        let at = self.rank_of(function);
        if at > rank {
            return function;
        }
        if at == rank {
            return self.top_child(function, variable, value);
        }
        let key = (function, variable, value);
        if let Some(&known) = self.fixed.get(&key) {
            return known;
        }
        let Some(inner) = self.inner(function) else {
            return function;
        };
        if self.full {
            return FALSE;
        }
        let mut children = Children::from_slice(self.children(inner));
        for child in &mut children {
            *child = self.fix_below(*child, variable, value, rank);
        }
        let made = self.make(inner.variable, &children);
        self.fixed.insert(key, made);
        made
    }

    /// The functions of all gates of a tree, by place.
    pub fn gates(&mut self, tree: &FaultTree) -> Vec<Function> {
        let mut functions = vec![FALSE; tree.gates.len()];
        for &index in tree.gates_inputs_first() {
            let Some(gate) = tree.gates.get(index) else {
                continue;
            };
            let inputs: Vec<Function> = gate
                .inputs
                .iter()
                .map(|input| self.node(tree, *input, &functions))
                .collect();
            functions[index] = self.join(gate.operator, &inputs);
        }
        functions
    }

    /// The function of one node, with the functions of the gates below it known.
    pub fn node(&mut self, tree: &FaultTree, node: Node, gates: &[Function]) -> Function {
        match node {
            Node::Event(event) => self.is_value(event, 1),
            Node::Value { condition, value } => self.is_value(tree.events.len() + condition, value),
            Node::Gate(gate) => gates.get(gate).copied().unwrap_or(FALSE),
        }
    }

    fn join(&mut self, operator: Operator, inputs: &[Function]) -> Function {
        match operator {
            // From the last input to the first, so that each step meets a shallow function first.
            Operator::Any => inputs
                .iter()
                .rev()
                .fold(FALSE, |so_far, input| self.choose(*input, TRUE, so_far)),
            Operator::All => inputs
                .iter()
                .rev()
                .fold(TRUE, |so_far, input| self.choose(*input, so_far, FALSE)),
            Operator::Not => inputs
                .first()
                .map_or(FALSE, |input| self.choose(*input, FALSE, TRUE)),
            Operator::Either => match inputs {
                [a, b] => {
                    let not_b = self.choose(*b, FALSE, TRUE);
                    self.choose(*a, not_b, *b)
                }
                _ => FALSE,
            },
            Operator::AtLeast(count) => self.at_least(count, inputs),
        }
    }

    /// Entry `k` of the row is "at least k of the inputs from here on".
    fn at_least(&mut self, count: usize, inputs: &[Function]) -> Function {
        let mut row: Vec<Function> = vec![FALSE; count + 1];
        row[0] = TRUE;
        for input in inputs.iter().rev() {
            for k in (1..=count).rev() {
                row[k] = self.choose(*input, row[k - 1], row[k]);
            }
        }
        row[count]
    }

    /// The function that gives the outcome of a partition: leaf `i` for outcome `i`.
    pub fn partition(
        &mut self,
        tree: &FaultTree,
        partition: &Partition,
        gates: &[Function],
    ) -> Function {
        let mut function = partition.otherwise();
        for (line, outcome) in partition.rows().rev() {
            let mut holds = TRUE;
            for node in line.iter().rev() {
                let node = self.node(tree, *node, gates);
                holds = self.choose(node, holds, FALSE);
            }
            function = self.choose(holds, outcome, function);
        }
        function
    }
}
