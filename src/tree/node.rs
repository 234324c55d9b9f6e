//! What can be true in a tree.

/// A node: a basic event, a value of a condition, or a gate, each by its place in its list.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Node {
    /// The basic event happened.
    Event(usize),
    /// The condition has this value.
    Value {
        /// Which condition.
        condition: usize,
        /// Which of its values.
        value: usize,
    },
    /// The gate is true.
    Gate(usize),
}

/// How a gate joins its inputs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Operator {
    /// At least one input.
    Any,
    /// All inputs.
    All,
    /// At least this many inputs.
    AtLeast(usize),
    /// Not the one input.
    Not,
    /// Exactly one of the two inputs.
    Either,
}
