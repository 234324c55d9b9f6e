//! Fault-tree logic: events, conditions, gates, and exact probabilities over them.
//!
//! Knows no aircraft and no YAML; a textbook tree runs here as well as ours. Invariant: a
//! [`fault_tree::FaultTree`] has no cycle, and every node in it exists.

mod chance;
pub mod cut_sets;
pub mod diagram;
mod digest;
pub mod engine;
pub mod family;
pub mod fault_tree;
mod frontier;
pub mod importance;
pub mod layers;
pub mod mass;
pub mod node;
pub mod partition;
pub mod scale;
pub mod sweep;
