//! One report being worked: what was entered, in order, and where that leaves the work.
//!
//! Knows no terminal and no physics. Invariant: the state of a job is a function of its entries
//! alone; undoing the last entry is the same as never having made it.

pub mod choice;
pub mod end_state;
pub mod entry;
pub mod field;
pub mod fields;
pub mod follow;
pub mod header;
pub mod job;
pub mod journal;
mod known;
pub mod listed;
pub mod reading;
mod refusal;
pub mod standing;
pub mod store;
pub mod timer;
pub mod watch;
