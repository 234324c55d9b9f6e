//! A fault tree: its nodes, their structure as a petgraph graph, and the orders that follow.

use std::collections::BTreeMap;

use petgraph::algo::toposort;
use petgraph::graph::{DiGraph, NodeIndex};

use super::node::{Node, Operator};

/// A basic event.
#[derive(Debug, Clone, PartialEq)]
pub struct Event {
    /// Its name.
    pub id: String,
    /// Where its chance comes from.
    pub chance: Chance,
}

/// Where the chance of a basic event comes from.
#[derive(Debug, Clone, PartialEq)]
pub enum Chance {
    /// Chance per parking, from 0 to 1.
    PerParking(f64),
    /// Share of the reports counted, and the node behind which alone the event acts.
    Seen {
        /// Share of reports, from 0 to 1.
        share: f64,
        /// The node it acts behind.
        given: Option<Node>,
    },
    /// The aircraft lacks the part: false everywhere.
    Dropped,
}

/// A fact of the parking with exactly one value. A yes/no condition has `yes` and `no`.
#[derive(Debug, Clone, PartialEq)]
pub struct Condition {
    /// Its name.
    pub id: String,
    /// Its values with their chances, adding up to 1.
    pub values: Vec<(String, f64)>,
}

/// A gate.
#[derive(Debug, Clone, PartialEq)]
pub struct Gate {
    /// Its name.
    pub id: String,
    /// How it joins its inputs.
    pub operator: Operator,
    /// Its inputs.
    pub inputs: Vec<Node>,
}

/// A fault tree without cycles.
#[derive(Debug, Clone)]
pub struct FaultTree {
    /// Basic events.
    pub events: Vec<Event>,
    /// Conditions.
    pub conditions: Vec<Condition>,
    /// Gates.
    pub gates: Vec<Gate>,
    /// The node that the report says is true.
    pub top: Node,
    /// Share kept for a cause that is not in the tree, 0 <= U < 1.
    pub unlisted: f64,
    /// Chance of such a report per parking, typed where no part can cause it.
    pub per_parking: Option<f64>,
    structure: DiGraph<Node, ()>,
    gates_inputs_first: Vec<usize>,
}

/// A gate that is its own input, through the gates listed in order; the first is repeated last.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cycle(pub Vec<usize>);

impl FaultTree {
    /// Joins nodes into a tree. Every index in `gates` and `top` must lie inside its list.
    ///
    /// Errors: a cycle, as the path of gates that closes it.
    pub fn build(
        events: Vec<Event>,
        conditions: Vec<Condition>,
        gates: Vec<Gate>,
        top: Node,
    ) -> Result<Self, Cycle> {
        let structure = structure(&gates);
        let order = toposort(&structure, None);
        let Ok(order) = order else {
            return Err(find_cycle(&gates));
        };
        // petgraph sorts users before inputs; evaluation wants it the other way round.
        let gates_inputs_first = order
            .into_iter()
            .rev()
            .filter_map(|index| match structure.node_weight(index) {
                Some(Node::Gate(gate)) => Some(*gate),
                _ => None,
            })
            .collect();
        Ok(Self {
            events,
            conditions,
            gates,
            top,
            unlisted: 0.0,
            per_parking: None,
            structure,
            gates_inputs_first,
        })
    }

    /// Places of all gates, each after its inputs.
    pub fn gates_inputs_first(&self) -> &[usize] {
        &self.gates_inputs_first
    }

    /// Every node below `from`, itself included, in ascending order.
    pub fn below(&self, from: Node) -> Vec<Node> {
        let mut found = std::collections::BTreeSet::from([from]);
        let mut open = vec![from];
        while let Some(node) = open.pop() {
            for input in self.inputs(node) {
                if found.insert(input) {
                    open.push(input);
                }
            }
        }
        found.into_iter().collect()
    }

    /// The inputs of a node, in the order written; none for events and values.
    pub fn inputs(&self, node: Node) -> Vec<Node> {
        match node {
            Node::Gate(gate) => self.gates.get(gate).map_or(vec![], |g| g.inputs.clone()),
            _ => Vec::new(),
        }
    }

    /// How a node is written: `valve-jammed-open`, `supply-used=none`.
    ///
    /// A value of a yes/no condition is written by the bare name; `no` has a form of its own.
    pub fn name(&self, node: Node) -> String {
        match node {
            Node::Event(event) => self.events.get(event).map_or("", |e| &e.id).to_owned(),
            Node::Gate(gate) => self.gates.get(gate).map_or("", |g| &g.id).to_owned(),
            Node::Value { condition, value } => {
                let Some(condition) = self.conditions.get(condition) else {
                    return String::new();
                };
                let word = condition.values.get(value).map_or("", |v| &v.0);
                if word == "yes" {
                    condition.id.clone()
                } else {
                    format!("{}={word}", condition.id)
                }
            }
        }
    }

    /// The structure, users pointing at inputs.
    pub fn structure(&self) -> &DiGraph<Node, ()> {
        &self.structure
    }
}

fn structure(gates: &[Gate]) -> DiGraph<Node, ()> {
    let mut graph = DiGraph::new();
    let mut places: BTreeMap<Node, NodeIndex> = BTreeMap::new();
    let mut place = |graph: &mut DiGraph<Node, ()>, node: Node| {
        *places.entry(node).or_insert_with(|| graph.add_node(node))
    };
    for (index, gate) in gates.iter().enumerate() {
        let user = place(&mut graph, Node::Gate(index));
        for input in &gate.inputs {
            let input = place(&mut graph, *input);
            graph.add_edge(user, input, ());
        }
    }
    graph
}

/// Walks down from every gate until one is met that is still open, without recursion.
fn find_cycle(gates: &[Gate]) -> Cycle {
    let mut done = vec![false; gates.len()];
    for start in 0..gates.len() {
        let mut path: Vec<(usize, usize)> = vec![(start, 0)];
        while let Some((gate, next)) = path.last_mut() {
            let (gate, at) = (*gate, *next);
            *next += 1;
            let inputs = gates.get(gate).map_or(&[][..], |g| &g.inputs);
            match inputs.get(at) {
                None => {
                    done[gate] = true;
                    path.pop();
                }
                Some(Node::Gate(input)) if !done[*input] => {
                    let open = path.iter().position(|(on_path, _)| on_path == input);
                    if let Some(open) = open {
                        let mut cycle: Vec<usize> = path[open..].iter().map(|p| p.0).collect();
                        cycle.push(*input);
                        return Cycle(cycle);
                    }
                    path.push((*input, 0));
                }
                Some(_) => {}
            }
        }
    }
    Cycle(Vec::new())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn gate(id: &str, inputs: &[Node]) -> Gate {
        Gate {
            id: id.into(),
            operator: Operator::Any,
            inputs: inputs.to_vec(),
        }
    }

    #[test]
    fn a_cycle_is_shown_with_its_path() {
        let gates = vec![
            gate("a", &[Node::Event(0), Node::Gate(1)]),
            gate("b", &[Node::Gate(2)]),
            gate("c", &[Node::Gate(1)]),
        ];
        let event = Event {
            id: "e".into(),
            chance: Chance::PerParking(0.1),
        };
        let error = FaultTree::build(vec![event], vec![], gates, Node::Gate(0));
        assert_eq!(error.unwrap_err(), Cycle(vec![1, 2, 1]));
    }

    #[test]
    fn gates_are_ordered_inputs_first() {
        let gates = vec![
            gate("top", &[Node::Gate(2), Node::Gate(1)]),
            gate("b", &[Node::Gate(2)]),
            gate("c", &[Node::Event(0)]),
        ];
        let event = Event {
            id: "e".into(),
            chance: Chance::PerParking(0.1),
        };
        let tree = FaultTree::build(vec![event], vec![], gates, Node::Gate(0)).unwrap();
        assert_eq!(tree.gates_inputs_first(), [2, 1, 0]);
        assert_eq!(
            tree.below(Node::Gate(1)),
            [Node::Event(0), Node::Gate(1), Node::Gate(2)]
        );
    }
}
