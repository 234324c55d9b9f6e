//! All tests that look at the program from outside, in one binary.

// Tests say at once what went wrong.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::string_slice,
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::too_many_lines,
    clippy::too_many_arguments
)]

mod author_commands;
mod author_page;
mod bad_input;
mod bench;
mod bench_files;
mod bench_results;
mod bench_screens;
mod best_plan;
mod brute_force;
mod cause_explained;
mod console_keys;
mod console_screens;
mod console_trial;
mod coverage;
mod crept_tree;
mod cut_sets;
mod demo_plant;
mod diagnosis_rules;
mod document_example;
mod exchange;
// The bench uses it too.
mod generated_tree;
mod house_rules;
mod job_lines;
mod job_replays;
mod kept;
mod layers;
mod loader_never_panics;
mod plant_bad_input;
mod plant_classes;
mod plant_closed_forms;
mod plant_commands;
mod plant_published;
mod plant_reference;
mod plant_second_integration;
mod plant_sharing;
mod plant_systems;
mod plant_traps;
mod planted_mistakes;
mod pressure_tree;
mod published;
mod rank_command;
mod replays;
mod rules;
mod run;
mod schematic;
mod screens;
mod settings_file;
mod single_node;
mod terminal;
mod time_to_movement;
mod tree_agree;
mod tree_derive;
// The bench prints what is not looked at here.
mod trend;
#[allow(dead_code)]
#[path = "../bench/trial.rs"]
mod trial;
mod trial_by_simulation;
mod typed_readings;
mod worked_cases;
