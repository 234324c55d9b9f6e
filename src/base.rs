//! Words and numbers every other layer speaks in: quantities, probabilities, names, text widths.
//!
//! Never knows what a brake is, never reads a file. Invariant: a value of a type from here is
//! always in its valid range.

pub mod checksum;
pub mod dimension;
pub mod name;
pub mod normal;
pub mod physical;
pub mod pressure;
pub mod probability;
pub mod quantity;
pub mod stamp;
pub mod suggestion;
pub mod temperature;
pub mod text;
pub mod unit;
