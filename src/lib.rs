//! Stillwheel finds out why a parked aircraft moved, or lost its brake pressure, although the
//! park brake was set.
//!
//! Layers, each using only those above it in this list:
//!
//! - [`base`]: quantities, probabilities, names, text widths
//! - [`source`]: texts, places, problems and how they are printed
//! - [`plant`]: the aircraft as a graph of parts
//! - [`tree`]: fault trees and exact probabilities over them
//! - [`diagnosis`]: from answers to a ranking and to the next check
//! - [`session`]: one report being worked
//! - [`training`]: what a search should have cost
//! - [`report`]: texts and JSON that leave the program
//! - [`authoring`]: from YAML to the model, every problem at its line
//! - [`console`]: the screen, and the same line by line
//! - [`cli`]: the command line
//!
//! `tree` does not know `plant`: the engine runs on a textbook tree as well. A test holds these
//! rules against the sources.

pub mod authoring;
pub mod base;
pub mod cli;
pub mod console;
pub mod diagnosis;
pub mod plant;
pub mod report;
pub mod session;
pub mod source;
pub mod training;
pub mod tree;
