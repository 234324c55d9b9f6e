//! Texts and JSON that leave the program. Everything here is a function of what it is given.

pub mod rank_json;
pub mod rank_text;
pub mod ranking;
