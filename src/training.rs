//! What a search for the cause should have cost: the best plan of checks, to judge others by.
//!
//! The yardstick is the noise-free version of a diagnosis: exactly one cause is there, and every
//! check has one answer with it. Its best plan is searched for exactly; where the search meets its
//! budget first, two bounds come out instead, never a guess.

pub mod best_plan;
mod bound;
pub mod plan;
pub mod problem;
pub mod rule;
pub mod set;
