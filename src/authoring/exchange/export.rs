//! A tree of ours as an Open-PSA model.

use super::Exchanged;
use super::not_carried::not_carried;
use crate::diagnosis::model::Model;
use crate::tree::fault_tree::Chance;
use crate::tree::node::{Node, Operator};

/// Writes the gates below the top, with all events and values below them.
///
/// Chances are those per parking, as the engine uses them, in full digits.
pub fn export(model: &Model) -> Exchanged {
    let tree = &model.tree;
    let below = tree.below(tree.top);
    let mut text = format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<opsa-mef name=\"{0}\">\n  <define-fault-tree name=\"{0}\">\n    <label>{1}</label>\n",
        escaped(&model.id),
        escaped(&model.title)
    );
    // The format names no top; it is the gate that no other uses, and stands first here.
    let mut gates: Vec<usize> = tree.gates_inputs_first().to_vec();
    gates.reverse();
    gates.retain(|gate| below.binary_search(&Node::Gate(*gate)).is_ok());
    if let Node::Gate(top) = tree.top {
        gates.retain(|gate| *gate != top);
        gates.insert(0, top);
    } else {
        let input = reference(model, tree.top);
        text.push_str(&format!("    <define-gate name=\"top\">\n      <or>\n        {input}\n      </or>\n    </define-gate>\n"));
    }
    for gate in gates {
        text.push_str(&define_gate(model, gate));
    }
    let chains = chains(model, &below);
    for chain in &chains {
        text.push_str(&chain.gates(model));
    }
    text.push_str("  </define-fault-tree>\n  <model-data>\n");
    for node in &below {
        let chained = chains.iter().any(|chain| chain.values.contains(node));
        if !chained {
            text.push_str(&define_event(model, *node));
        }
    }
    for chain in &chains {
        text.push_str(&chain.events(model));
    }
    text.push_str("  </model-data>\n</opsa-mef>\n");
    Exchanged {
        text,
        lost: not_carried(model, &below),
    }
}

/// Name of a node in the other form: a value is written `supply-used_main`, since `=` is no letter
/// of an identifier there.
fn name(model: &Model, node: Node) -> String {
    model.tree.name(node).replace('=', "_")
}

fn reference(model: &Model, node: Node) -> String {
    let element = match node {
        Node::Gate(_) => "gate",
        Node::Value { condition, .. } if is_chained(model, condition) => "gate",
        Node::Event(event) if model.tree.events[event].chance == Chance::Dropped => "house-event",
        _ => "basic-event",
    };
    format!("<{element} name=\"{}\"/>", escaped(&name(model, node)))
}

/// Whether several values of a condition lie below the top.
fn is_chained(model: &Model, of: usize) -> bool {
    let below = model.tree.below(model.tree.top);
    let own = below
        .iter()
        .filter(|node| matches!(node, Node::Value { condition, .. } if *condition == of));
    own.count() > 1
}

fn define_gate(model: &Model, gate: usize) -> String {
    let about = &model.tree.gates[gate];
    let (open, close) = match about.operator {
        Operator::Any => ("or".to_owned(), "or"),
        Operator::All => ("and".to_owned(), "and"),
        Operator::AtLeast(count) => (format!("atleast min=\"{count}\""), "atleast"),
        Operator::Not => ("not".to_owned(), "not"),
        Operator::Either => ("xor".to_owned(), "xor"),
    };
    let inputs: String = about
        .inputs
        .iter()
        .map(|input| format!("        {}\n", reference(model, *input)))
        .collect();
    format!(
        "    <define-gate name=\"{}\">\n      <{open}>\n{inputs}      </{close}>\n    </define-gate>\n",
        escaped(&about.id)
    )
}

fn define_event(model: &Model, node: Node) -> String {
    let (label, chance) = match node {
        Node::Gate(_) => return String::new(),
        Node::Event(event) => {
            let title = &model.causes[event].title;
            if model.tree.events[event].chance == Chance::Dropped {
                return format!(
                    "    <define-house-event name=\"{}\">\n      <label>{}</label>\n      <constant value=\"false\"/>\n    </define-house-event>\n",
                    escaped(&name(model, node)),
                    escaped(title)
                );
            }
            (title.as_str(), model.priors.events[event])
        }
        Node::Value { condition, value } => (
            model.questions[condition].ask.as_str(),
            model.tree.conditions[condition].values[value].1,
        ),
    };
    format!(
        "    <define-basic-event name=\"{}\">\n      <label>{}</label>\n      <float value=\"{chance:e}\"/>\n    </define-basic-event>\n",
        escaped(&name(model, node)),
        escaped(label)
    )
}

/// Several values of one condition, of which one holds at most. The format knows no such thing, so
/// they become a chain: each value holds where its own event does and those before do not.
struct Chain {
    condition: usize,
    values: Vec<Node>,
}

fn chains(model: &Model, below: &[Node]) -> Vec<Chain> {
    let mut found: Vec<Chain> = Vec::new();
    for (condition, _) in model.tree.conditions.iter().enumerate() {
        let is_own =
            |node: &&Node| matches!(node, Node::Value { condition: of, .. } if *of == condition);
        let values: Vec<Node> = below.iter().filter(is_own).copied().collect();
        if values.len() > 1 {
            found.push(Chain { condition, values });
        }
    }
    found
}

impl Chain {
    /// Name of the event of one value.
    fn event(model: &Model, value: Node) -> String {
        escaped(&format!("{}-alone", name(model, value)))
    }

    fn gates(&self, model: &Model) -> String {
        let mut text = String::new();
        for (nth, value) in self.values.iter().enumerate() {
            let not = |before: &Node| {
                format!(
                    "        <not>\n          <basic-event name=\"{}\"/>\n        </not>\n",
                    Self::event(model, *before)
                )
            };
            let before: String = self.values[..nth].iter().map(not).collect();
            text.push_str(&format!(
                "    <define-gate name=\"{}\">\n      <and>\n{before}        <basic-event name=\"{}\"/>\n      </and>\n    </define-gate>\n",
                escaped(&name(model, *value)),
                Self::event(model, *value)
            ));
        }
        text
    }

    fn events(&self, model: &Model) -> String {
        let chances = &model.tree.conditions[self.condition].values;
        let mut passed: Vec<usize> = Vec::new();
        let mut text = String::new();
        for node in &self.values {
            let Node::Value { value, .. } = node else {
                continue;
            };
            // What is left for this value once those before it are known not to hold: a sum, and no
            // difference.
            let left = chances
                .iter()
                .enumerate()
                .filter(|(at, _)| !passed.contains(at));
            let left: f64 = left.map(|(_, (_, chance))| chance).sum();
            let chance = if left > 0.0 {
                chances[*value].1 / left
            } else {
                0.0
            };
            passed.push(*value);
            text.push_str(&format!(
                "    <define-basic-event name=\"{}\">\n      <float value=\"{chance:e}\"/>\n    </define-basic-event>\n",
                Self::event(model, *node)
            ));
        }
        text
    }
}

/// Text that can stand in XML.
fn escaped(text: &str) -> String {
    let text = text.replace('&', "&amp;").replace('<', "&lt;");
    text.replace('>', "&gt;").replace('"', "&quot;")
}
