//! Pressures and flows over time. Knows passages, leaks, orifices, stores and sources, never the
//! name of a part.
//!
//! Invariant: what is stored plus what left is the same before and after every step, because the
//! unknowns are pressures and the balance is of volumes.

pub mod known;
pub mod law;
pub mod matrix;
pub mod network;
pub mod newton;
pub mod step;
pub mod store;
