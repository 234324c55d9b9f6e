//! Texts and JSON that leave the program. Everything here is a function of what it is given.

pub mod bench_file;
pub mod cases;
pub mod coverage;
pub mod cut_sets;
pub mod derived_text;
pub mod difference;
pub mod drawing;
pub mod hold_json;
pub mod hold_text;
pub mod importance;
pub mod log_text;
pub mod mechanism_text;
pub mod parking_text;
pub mod pause_card;
pub mod predicted_text;
pub mod rank_json;
pub mod rank_text;
pub mod ranking;
pub mod readings;
pub mod trend_text;
pub mod write_up;
pub mod write_up_text;
