//! The tables of keys, one file per kind of document.

pub mod aircraft;
pub mod bench;
pub mod check;
pub mod tree;
