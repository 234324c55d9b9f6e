//! A tree without errors, with its texts and the functions of its gates.

use std::collections::BTreeSet;

use crate::authoring::document::Source;
use crate::authoring::lower::located::Located;
use crate::diagnosis::cause::{Cause, Confirm, Part};
use crate::diagnosis::model::Model;
use crate::tree::diagram::{Diagrams, FALSE, Function, TRUE};
use crate::tree::node::Node;

/// Everything that a rule may look at.
pub struct Whole<'a> {
    /// The tree.
    pub model: &'a Model,
    /// The text it stands in.
    pub main: &'a Source,
    /// The texts of its entries, in the order of the model.
    pub conditions: &'a [Located<'a>],
    /// Those of its events.
    pub events: &'a [Located<'a>],
    /// Those of its gates.
    pub gates: &'a [Located<'a>],
    /// Those of its checks.
    pub checks: &'a [Located<'a>],
    diagrams: Diagrams,
    functions: Vec<Function>,
}

impl<'a> Whole<'a> {
    /// Joins a tree with its entries: conditions, events, gates, checks.
    pub fn of(model: &'a Model, main: &'a Source, entries: [&'a [Located<'a>]; 4]) -> Self {
        let mut diagrams = Diagrams::new(&model.tree);
        let functions = diagrams.gates(&model.tree);
        let [conditions, events, gates, checks] = entries;
        Self {
            model,
            main,
            conditions,
            events,
            gates,
            checks,
            diagrams,
            functions,
        }
    }

    /// Every cause with its place and its confirming check; bystanders need none.
    pub fn confirmed(&self) -> impl Iterator<Item = (usize, &'a Cause, Confirm)> + use<'a> {
        let causes = self.model.causes.iter().enumerate();
        let own = causes.filter(|(_, cause)| cause.part == Part::Cause);
        own.filter_map(|(event, cause)| Some((event, cause, cause.confirm?)))
    }

    /// The function of a gate; `None` where the store is full.
    pub fn gate(&self, gate: usize) -> Option<Function> {
        (!self.diagrams.is_full()).then(|| self.functions[gate])
    }

    /// Where all of some nodes hold.
    pub fn all(&mut self, nodes: &[Node]) -> Function {
        let mut holds = TRUE;
        for node in nodes.iter().rev() {
            let node = self.diagrams.node(&self.model.tree, *node, &self.functions);
            holds = self.diagrams.choose(node, holds, FALSE);
        }
        holds
    }

    /// Where the first holds or the second does.
    pub fn either(&mut self, one: Function, other: Function) -> Function {
        self.diagrams.choose(one, TRUE, other)
    }

    /// Where both hold.
    pub fn both(&mut self, one: Function, other: Function) -> Function {
        self.diagrams.choose(one, other, FALSE)
    }

    /// Where the first holds and the second does not.
    pub fn but_not(&mut self, one: Function, other: Function) -> Function {
        let not = self.diagrams.choose(other, FALSE, TRUE);
        self.diagrams.choose(one, not, FALSE)
    }

    /// Probability of a function with the conditions at their chances and some weights of events.
    pub fn probability(&self, function: Function, weights: &[Vec<f64>]) -> f64 {
        self.diagrams.probability(function, weights)
    }

    /// Whether the store gave up, so that nothing can be said.
    pub fn is_full(&self) -> bool {
        self.diagrams.is_full()
    }

    /// Every node below the top, in a line, or behind which an event acts, with all below them.
    pub fn used(&self) -> BTreeSet<Node> {
        use crate::tree::fault_tree::Chance;
        let tree = &self.model.tree;
        let mut roots = vec![tree.top];
        for check in &self.model.checks {
            roots.extend(
                check
                    .lines
                    .iter()
                    .flat_map(|line| line.when.iter().copied()),
            );
        }
        roots.extend(tree.events.iter().filter_map(|event| match event.chance {
            Chance::Seen { given, .. } => given,
            _ => None,
        }));
        roots.iter().flat_map(|node| tree.below(*node)).collect()
    }

    /// Whether an entry was taken in from another file.
    pub fn is_taken_in(&self, entry: &Located<'_>) -> bool {
        entry.file != self.main.file
    }
}
