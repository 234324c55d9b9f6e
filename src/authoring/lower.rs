//! From shapes to the model: names resolved, quantities converted, every mistake at its place.

pub mod aircraft;
pub mod around;
pub mod bench;
pub mod broken;
pub mod case;
pub mod check;
pub mod condition;
pub mod derived;
pub mod event;
pub mod forms;
pub mod gate;
pub mod header;
pub mod link;
pub mod located;
pub mod names;
pub mod part;
pub mod scale;
pub mod setting;
pub mod shows;
pub mod solvable;
pub mod tree;
pub mod usage;
pub mod words;
