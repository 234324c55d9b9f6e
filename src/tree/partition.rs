//! Lines that share out all cases: the first line whose nodes all hold decides.

use super::node::Node;

/// Lines in order, and what each gives.
///
/// Lines that give the same have one outcome, so that the product need not tell them apart: a check
/// of forty lines and three different rows of shares is a function of three values.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Partition {
    /// The nodes of each line. A line without nodes always holds.
    pub lines: Vec<Vec<Node>>,
    /// The outcome of each line, and last that of a case in which no line holds.
    outcomes: Vec<u32>,
}

impl Partition {
    /// Lines of which each gives something else than all others.
    pub fn of_lines(lines: Vec<Vec<Node>>) -> Self {
        let count = u32::try_from(lines.len()).unwrap_or(u32::MAX);
        Self {
            lines,
            outcomes: (0..=count).collect(),
        }
    }

    /// Lines with the outcome of each, `otherwise` last; outcomes are numbered from 0 without gaps.
    pub fn sharing(lines: Vec<Vec<Node>>, outcomes: &[usize]) -> Self {
        let number = |outcome: &usize| u32::try_from(*outcome).unwrap_or(u32::MAX);
        Self {
            lines,
            outcomes: outcomes.iter().map(number).collect(),
        }
    }

    /// Outcome 0 where the node holds, outcome 1 where it does not.
    pub fn of_node(node: Node) -> Self {
        Self::of_lines(vec![vec![node]])
    }

    /// The lines with their outcomes, in order.
    pub fn rows(&self) -> impl DoubleEndedIterator<Item = (&[Node], u32)> {
        let rows = self.lines.iter().zip(&self.outcomes[..self.lines.len()]);
        rows.map(|(line, outcome)| (line.as_slice(), *outcome))
    }

    /// What comes out where no line holds.
    pub fn otherwise(&self) -> u32 {
        self.outcomes[self.lines.len()]
    }

    /// How many outcomes there are.
    pub fn outcomes(&self) -> usize {
        self.outcomes
            .iter()
            .max()
            .map_or(0, |last| *last as usize + 1)
    }
}
