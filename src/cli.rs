//! The command line: what was typed, which command it is, what is printed, with which exit code.
//!
//! The only layer that reads the environment, the clock and the arguments.

pub mod args;
pub mod commands;
pub mod exit;
pub mod output;
pub mod settings;
pub mod surroundings;
