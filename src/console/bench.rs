//! The bench: the plant to play with. Anything is set, time passes, everything is read, beside a
//! healthy twin to which the same was done.
//!
//! Table, state, update, view and effect are apart, as in the console of a job. Invariant: what
//! stands on the screen is a function of the course of the plant; the clock is an argument.

pub mod app;
pub mod course;
pub mod effect;
pub mod panes;
pub mod passing;
pub mod plain;
pub mod readings;
pub mod setting;
pub mod state;
pub mod table;
pub mod update;
pub mod view;
