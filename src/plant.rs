//! The aircraft as a graph of parts: what there is, how it is joined, what can be switched, and
//! how it behaves.
//!
//! Never knows a fault tree. Invariant: an [`aircraft::Aircraft`] only exists with every link on
//! ports of one type and every name resolved; a [`handle::Handle`] never loses fluid unseen.

pub mod account;
pub mod aircraft;
pub mod band;
pub mod behaviour;
pub mod climate;
pub mod control;
pub mod course;
pub mod error;
pub mod graph;
pub mod ground;
pub mod handle;
pub mod hold;
pub mod kind;
pub mod kinds;
pub mod levels;
mod logic;
pub mod memory;
pub mod observe;
pub mod parking;
pub mod physics;
pub mod practice;
pub mod procedure;
pub mod setting;
pub mod solver;
pub mod stamp;
pub mod state;
pub mod stored_pressure;
pub mod view;
pub mod wiring;
