//! The screens, one file each, as pages that screen and plain mode share.

use super::layout::Room;
use super::page::Page;
use super::state::{Screen, State};
use crate::session::job::Stage;

pub mod cause;
pub mod causes;
pub mod change;
pub mod checks;
pub mod ends;
pub mod facts;
pub mod form;
pub mod hand_over;
pub mod help;
pub mod log;
pub mod messages;
pub mod pause;
pub mod schematic;
pub mod search;
pub mod trend;
pub mod what_if;
pub mod why;
pub mod work;

/// The page of the screen that is shown, for columns and rows of a window with this much room.
pub fn page(state: &State, room: Room, columns: usize, rows: usize) -> Page {
    let mut page = Page::new(columns);
    match state.screen {
        Screen::Work => work::write(&mut page, state, room, rows),
        Screen::Why => why::write(&mut page, state),
        Screen::Cause(event) => cause::write(&mut page, state, event),
        Screen::Checks => checks::write(&mut page, state),
        Screen::WhatIf => what_if::write(&mut page, state),
        Screen::Schematic => schematic::write(&mut page, state, rows),
        Screen::Trend => trend::write(&mut page, state, rows),
        Screen::Log => log::write(&mut page, state),
        Screen::HandOver => hand_over::write(&mut page, state),
        Screen::Pause => pause::write(&mut page, state),
        Screen::Ends => ends::write(&mut page),
        Screen::Search => search::write(&mut page, state),
        Screen::Messages => messages::write(&mut page, state),
        Screen::Help => help::write(&mut page),
    }
    page
}

/// The heading of the screen that is shown.
pub fn heading(state: &State) -> String {
    let fixed = match state.screen {
        Screen::Work => {
            let prompt = state.prompt();
            return prompt.map_or("Where it stands".to_owned(), |prompt| prompt.place);
        }
        Screen::Why => "For and against",
        Screen::Cause(_) => "Cause",
        Screen::Checks => "All checks",
        Screen::WhatIf => "What if",
        Screen::Schematic => "Schematic",
        Screen::Trend => "Trend",
        Screen::Log => "Log",
        Screen::HandOver => "Hand over",
        Screen::Pause => "Paused",
        Screen::Ends => "Ways to end",
        Screen::Search => "Search",
        Screen::Messages => "Messages",
        Screen::Help => "Help",
    };
    fixed.to_owned()
}

/// What is marked when a screen comes up: nothing of a question and of the page of a cause, the
/// newest entry of the log, the first line of every other list.
pub fn first_mark(screen: Screen, items: usize) -> Option<usize> {
    match screen {
        Screen::Work | Screen::Cause(_) | Screen::Trend => None,
        Screen::Log => items.checked_sub(1),
        _ => (items > 0).then_some(0),
    }
}

/// Whether causes are ranked for people by now: during the intake nobody sees them.
pub fn ranks(state: &State) -> bool {
    !matches!(state.job.stage(), Stage::Field(_) | Stage::Condition(_)) || state.job.end().is_some()
}
