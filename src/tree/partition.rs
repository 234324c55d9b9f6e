//! Lines that share out all cases: the first line whose nodes all hold decides.

use super::node::Node;

/// Lines in order; where none holds, the outcome is `lines.len()` (otherwise).
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Partition {
    /// The nodes of each line. A line without nodes always holds.
    pub lines: Vec<Vec<Node>>,
}

impl Partition {
    /// Outcome 0 where the node holds, outcome 1 where it does not.
    pub fn of_node(node: Node) -> Self {
        Self {
            lines: vec![vec![node]],
        }
    }

    /// How many outcomes there are, otherwise included.
    pub fn outcomes(&self) -> usize {
        self.lines.len() + 1
    }
}
