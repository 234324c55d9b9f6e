//! What an entry needs to know about the tree around it.

use super::names::Names;
use crate::plant::aircraft::Aircraft;
use crate::tree::fault_tree::Condition;

/// What an entry needs to know about the tree around it.
pub struct Around<'a> {
    /// The aircraft, where there is one.
    pub aircraft: Option<&'a Aircraft>,
    /// Source of the whole tree.
    pub source: Option<&'a str>,
    /// The names of the tree.
    pub names: &'a Names,
    /// Its conditions.
    pub conditions: &'a [Condition],
}
