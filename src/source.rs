//! Texts that people write, and what is wrong in them.
//!
//! One type of problem, one list of codes, one renderer. Invariant: a place always lies inside
//! the text it points into.

pub mod code;
pub mod codes;
pub mod file;
pub mod place;
pub mod problem;
pub mod render;
