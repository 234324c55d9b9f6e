//! From YAML texts to the model, with every problem at its line.
pub mod conform;
pub mod form;
pub mod limits;
pub mod scalar;
pub mod survey;
pub mod tables;
pub mod yaml;
