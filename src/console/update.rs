//! What an action does to the state. Pure: no terminal, no file, no clock.

use super::action::Action;
use super::effect::Effect;
use super::event::{Event, Key};
use super::keys::resolve;
use super::state::{Screen, State};
use crate::session::entry::Entry;
use crate::session::job::Stage;

/// Takes one event.
pub fn update(state: &mut State, event: &Event) -> Option<Effect> {
    match event {
        Event::Key(key) => {
            if let Some(action) = resolve(state, *key) {
                act(state, action)
            } else {
                dead_key(state, *key);
                None
            }
        }
        Event::Paste => {
            "There is no field to paste into here.".clone_into(&mut state.message);
            None
        }
        Event::Resize => None,
    }
}

fn dead_key(state: &mut State, key: Key) {
    if let Key::Char(c) = key {
        state.message = format!("Key {c} does nothing here. The bottom line lists the keys.");
    }
}

fn act(state: &mut State, action: Action) -> Option<Effect> {
    match action {
        Action::Answer(place) => answer(state, Some(place)),
        Action::Accept => answer(state, Some(state.marked)),
        Action::Cannot => answer(state, None),
        Action::Up => {
            state.marked = state.marked.saturating_sub(1);
            None
        }
        Action::Down => {
            state.marked = down(state);
            None
        }
        Action::Undo => enter(
            state,
            Entry::Undo,
            "Taken back. Press r to put it back.".to_owned(),
        ),
        Action::Redo => enter(state, Entry::Redo, "Put back.".to_owned()),
        Action::Why => show(state, Screen::Why),
        Action::Help => show(state, Screen::Help),
        Action::Back => show(state, Screen::Work),
        Action::Quit => Some(Effect::Leave),
    }
}

fn down(state: &State) -> usize {
    let last = match state.screen {
        Screen::Work => state.options().len().saturating_sub(1),
        // Lists are cut to the screen when drawn; the view shows what is there.
        Screen::Why | Screen::Help => 200,
    };
    (state.marked + 1).min(last)
}

fn show(state: &mut State, screen: Screen) -> Option<Effect> {
    state.screen = screen;
    state.marked = 0;
    None
}

fn answer(state: &mut State, place: Option<usize>) -> Option<Effect> {
    let options = state.options();
    let word = place.and_then(|place| options.get(place)).cloned();
    let word = word.unwrap_or_else(|| "cannot check".to_owned());
    let entry = match state.job.stage() {
        Stage::Safety(item) => Entry::Safety {
            item: *item,
            so: place.map(|place| place == 0),
        },
        Stage::Question(proposal) => match place {
            Some(answer) => Entry::Answer {
                check: proposal.check,
                answer,
            },
            None => Entry::Cannot {
                check: proposal.check,
            },
        },
        _ => return None,
    };
    let what = question_title(state);
    enter(
        state,
        entry,
        format!("Kept: {what}: {word}. u takes it back."),
    )
}

/// The short name of the question on the screen.
pub fn question_title(state: &State) -> String {
    match state.job.stage() {
        Stage::Safety(item) => format!("safety question {}", item + 1),
        Stage::Question(proposal) => state.job.model().checks[proposal.check].title.clone(),
        _ => String::new(),
    }
}

fn enter(state: &mut State, entry: Entry, message: String) -> Option<Effect> {
    let before = state.job.stage().clone();
    state.job.enter(entry);
    state.marked = 0;
    state.screen = Screen::Work;
    state.message = message;
    (*state.job.stage() != before).then_some(Effect::Guard)
}
