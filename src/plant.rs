//! The aircraft as a graph of parts: what there is, how it is joined, what can be switched.
//!
//! Never knows a fault tree. Invariant: an [`aircraft::Aircraft`] only exists with every link on
//! ports of one type and every name resolved.

pub mod aircraft;
pub mod graph;
pub mod kind;
pub mod kinds;
pub mod practice;
pub mod procedure;
pub mod state;
