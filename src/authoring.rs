//! From YAML texts to the model, with every problem at its line.
//!
//! The only layer that reads documents. Invariant: either a model comes out, or an error with a
//! place does; never both, never neither.

pub mod agreement;
pub mod cases;
pub mod conform;
pub mod desk;
pub mod difference;
pub mod document;
pub mod embedded;
pub mod exchange;
pub mod form;
pub mod kept;
pub mod limits;
pub mod lower;
pub mod rules;
pub mod scalar;
pub mod schema;
pub mod shape;
pub mod starter;
pub mod survey;
pub mod tables;
pub mod yaml;
