//! Probabilities of gates, which are not part of the product that is kept.

use super::{Inference, NoBelief};
use crate::diagnosis::chances::{Chances, Terms};
use crate::diagnosis::evidence::{Evidence, Reply};
use crate::tree::engine::{BUDGET, Workshop};
use crate::tree::mass::Mass;
use crate::tree::node::Node;
use crate::tree::partition::Partition;

impl Inference {
    /// Probability of every gate and of every value of every condition, by name.
    ///
    /// Gates are not part of the product that is kept, so they cost a product of their own.
    pub fn nodes(&self, evidence: &Evidence) -> Result<Vec<(String, f64)>, NoBelief> {
        let model = &self.model;
        let belief = self.believe(evidence)?;
        let gates: Vec<Node> = (0..model.tree.gates.len()).map(Node::Gate).collect();
        let masses = self.node_masses(evidence, &gates)?;
        let mut nodes: Vec<(String, f64)> = gates
            .iter()
            .zip(masses)
            .map(|(gate, mass)| (model.tree.name(*gate), mass))
            .collect();
        for (condition, values) in belief.values.iter().enumerate() {
            if model.questions[condition].fact.is_some() {
                continue;
            }
            for (value, chance) in values.iter().enumerate() {
                let node = Node::Value { condition, value };
                nodes.push((model.tree.name(node), *chance));
            }
        }
        Ok(nodes)
    }

    /// Probability of some nodes, one product for each.
    ///
    /// A few checks can make a larger product than all of them where the order is chosen anew, so
    /// the order of the product that is known to be small is taken.
    fn node_masses(&self, evidence: &Evidence, nodes: &[Node]) -> Result<Vec<f64>, NoBelief> {
        let variables = self.variables(evidence);
        let model = &self.model;
        match self.terms(evidence) {
            Terms::None => self.nodes_of(evidence, &Chances::plain(model, variables), nodes),
            Terms::One(lapses) => {
                self.nodes_of(evidence, &Chances::one(model, &variables, &lapses), nodes)
            }
            Terms::Both(one, other) => {
                let chances = Chances::both(model, &variables, (&one, &other));
                self.nodes_of(evidence, &chances, nodes)
            }
        }
    }

    fn nodes_of<M: Mass>(
        &self,
        evidence: &Evidence,
        chances: &Chances<M>,
        nodes: &[Node],
    ) -> Result<Vec<f64>, NoBelief> {
        let answered: Vec<usize> = (0..self.model.checks.len())
            .filter(|check| matches!(evidence.replies[*check], Reply::Answered(_)))
            .collect();
        let mut partitions = self.partitions(&answered);
        let mut workshop = Workshop::new(&self.model.tree);
        let order = self.order();
        let mut found = Vec::with_capacity(nodes.len());
        for node in nodes {
            partitions.push(Partition::of_node(*node));
            let engine = workshop.engine_after(&partitions, &order, BUDGET)?;
            let weights = self.weights(&engine, evidence, chances, &answered);
            let sweep = engine.ask(&weights);
            let last = sweep.outcomes.last().and_then(|o| o.first());
            found.push(last.copied().unwrap_or(0.0) / sweep.total);
            partitions.pop();
        }
        Ok(found)
    }
}
