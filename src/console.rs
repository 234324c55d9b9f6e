//! The screen: events become actions, actions change the state, the view draws the state.
//!
//! Event, action, state, update, view and effect are apart. Invariant: the view changes nothing,
//! and no colour is named outside [`theme`].

pub mod action;
pub mod app;
pub mod bench;
pub mod command;
pub mod commit;
pub mod effect;
pub mod event;
pub mod follow;
pub mod glyphs;
pub mod keys;
pub mod layout;
pub mod movement;
pub mod open;
pub mod page;
pub mod panels;
pub mod picture;
pub mod plain;
pub mod plot;
pub mod prompt;
pub mod schematic;
pub mod screens;
pub mod search;
pub mod start;
pub mod state;
pub mod terminal;
pub mod theme;
pub mod top_line;
pub mod update;
pub mod view;
