//! From answers to a ranking of causes, and from the ranking to the next check.
//!
//! Holds no history and does no I/O: the same evidence gives the same digits. Invariant: no
//! probability leaves here without its certificate.

pub mod agreement;
pub mod alike;
pub mod cause;
pub mod certificate;
mod chances;
pub mod check;
pub mod conflict;
pub mod contradiction;
pub mod coverage;
pub mod derivation;
pub mod evidence;
pub mod explain;
pub mod fact;
pub mod falls;
pub mod fell;
pub mod gauge_reading;
pub mod given;
pub mod inference;
pub mod mechanism;
pub mod model;
pub mod moved;
pub mod next_check;
pub mod played_times;
pub mod predicted;
pub mod ranking;
pub mod reading;
pub mod situation;
pub mod standing_of_parts;
pub mod stop;
pub mod time_to_movement;
pub mod what_if;
pub mod worked_case;
