//! All tests that look at the program from outside, in one binary.

mod bad_input;
mod brute_force;
mod console_keys;
mod document_example;
mod house_rules;
mod layers;
mod loader_never_panics;
mod published;
mod rank_command;
mod replays;
mod run;
