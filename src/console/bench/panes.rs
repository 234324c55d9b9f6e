//! The panes, one file each, as pages that screen and plain mode share.

use super::state::{Pane, State};
use crate::console::page::Page;

pub mod account;
pub mod controls;
pub mod faults;
pub mod help;
pub mod plot;
pub mod readings;
pub mod schematic;

/// The page of a pane, for columns and rows.
pub fn page(state: &State, pane: Pane, columns: usize, rows: usize) -> Page {
    let mut page = Page::new(columns);
    match pane {
        Pane::Controls => controls::write(&mut page, state),
        Pane::Faults => faults::write(&mut page, state),
        Pane::Readings => readings::write(&mut page, state),
        Pane::Schematic => schematic::write(&mut page, state, rows),
        Pane::Plot => plot::write(&mut page, state, rows),
        Pane::Account => account::write(&mut page, state),
        Pane::Help => help::write(&mut page),
    }
    page
}

/// The last line of the pane that can be marked, or scrolled to.
pub fn most_marked(state: &State) -> usize {
    let (columns, rows) = super::view::pane_size(state);
    let (_, moving) = page(state, state.pane, columns, rows).parted();
    match moving.items().len() {
        0 => moving.rows.len().saturating_sub(rows),
        items => items - 1,
    }
}
