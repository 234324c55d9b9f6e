//! What an event does to the state. Pure: no terminal, no file; the time that passed comes with it.

use std::time::Duration;

use super::course::course;
use super::effect::Effect;
use super::passing::{passed, time};
use super::state::{Pane, State};
use super::table::{Act, by_key, by_word};
use crate::console::action::Move;
use crate::console::event::Key;
use crate::plant::course::clock;

/// One event.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Event {
    /// A key was pressed.
    Key(Key),
    /// Text was pasted.
    Paste(String),
    /// The window has another size: columns and rows.
    Resize(u16, u16),
    /// So much real time passed since the last event of this kind.
    Passed(Duration),
}

/// Takes one event.
pub fn update(state: &mut State, event: &Event) -> Option<Effect> {
    match event {
        Event::Key(key) => press(state, *key),
        Event::Paste(text) => {
            let clean: String = text.chars().filter(|c| !c.is_control()).collect();
            match &mut state.input {
                Some(input) => input.push_str(&clean),
                None => state.say("There is no field to paste into here."),
            }
            None
        }
        Event::Resize(columns, rows) => {
            state.size = (*columns, *rows);
            None
        }
        Event::Passed(time) => {
            passed(state, *time);
            None
        }
    }
}

fn press(state: &mut State, key: Key) -> Option<Effect> {
    if key == Key::Control('c') {
        return Some(Effect::Leave);
    }
    if key == Key::Control('z') && cfg!(unix) {
        return Some(Effect::Suspend);
    }
    if let Some(input) = &mut state.input {
        match key {
            Key::Char(c) | Key::Typed(c) => input.push(c),
            Key::Back => {
                input.pop();
                if input.is_empty() {
                    state.input = None;
                }
            }
            Key::Escape => state.input = None,
            Key::Enter => {
                let line = state.input.take().unwrap_or_default();
                return typed(state, &line);
            }
            _ => {}
        }
        return None;
    }
    if let Some(act) = by_key(key) {
        return take(state, act, None);
    }
    if let Key::Char(c) = key {
        state.say(&format!("Key {c} does nothing here."));
    }
    None
}

/// Takes a typed line.
pub fn typed(state: &mut State, line: &str) -> Option<Effect> {
    match by_word(line) {
        Ok((act, rest)) => take(state, act, Some(&rest)),
        Err(said) => {
            state.say(&said);
            None
        }
    }
}

fn take(state: &mut State, act: Act, words: Option<&str>) -> Option<Effect> {
    // What was said about something else would be taken for this.
    state.message.clear();
    match acted(state, act, words) {
        Ok(effect) => effect,
        Err(said) => {
            state.running = false;
            state.say(&said);
            None
        }
    }
}

fn acted(state: &mut State, act: Act, words: Option<&str>) -> Result<Option<Effect>, String> {
    let rest = words.unwrap_or_default();
    match act {
        Act::Run | Act::Step | Act::Faster | Act::Slower | Act::Speed => time(state, act, words)?,
        Act::Start | Act::Park | Act::Undo => course(state, act, rest)?,
        Act::Clear => state.clear()?,
        Act::Try => tried(state)?,
        Act::Read => state.read(rest)?,
        Act::Set => {
            let (name, value) = rest.split_once(char::is_whitespace).unwrap_or((rest, ""));
            state.set_control(name, value.trim())?;
        }
        Act::Fault => {
            let (name, severity) = rest.split_once([' ', '=']).unwrap_or((rest, "1"));
            state.set_fault(name, severity.trim())?;
        }
        Act::Less | Act::More => stepped(state, act == Act::More)?,
        Act::Take => match state.pane {
            Pane::Controls => state.take_control(state.marked())?,
            Pane::Faults => state.take_fault(state.marked())?,
            _ => {}
        },
        Act::Mark(way) => mark(state, way),
        Act::Next => state.go_to(state.pane.next()),
        Act::Back => back(state),
        Act::Show(pane) => show(state, pane, words),
        Act::ShowAll => show(state, Pane::Readings, words),
        Act::Save | Act::Load => return file(state, act, words),
        Act::Command => state.input = Some(":".to_owned()),
        // Typed, it says which of the two is wanted.
        Act::Differ if words.is_some() => {
            state.only_different = true;
            state.go_to(Pane::Readings);
        }
        Act::Differ | Act::Sheet | Act::Zoom | Act::Look | Act::Lines => looks(state, act),
        Act::Quit => return Ok(quit(state)),
    }
    Ok(None)
}

/// Leaving asks once where something would be lost.
fn quit(state: &mut State) -> Option<Effect> {
    let worth = state.unsaved && !state.play.course().then.is_empty();
    if !worth {
        return Some(Effect::Leave);
    }
    state.unsaved = false;
    state.say("This course is not saved: w saves it, q again leaves it.");
    None
}

fn tried(state: &mut State) -> Result<(), String> {
    state
        .try_all()
        .map_err(|error| format!("Not tried: {error}."))?;
    state.go_to(Pane::Readings);
    let time = clock(state.play.now());
    state.say(&format!("Tried on a copy at {time}; nothing moved here."));
    Ok(())
}

/// One step back: what is filtered first, then the pane.
fn back(state: &mut State) {
    if state.pane == Pane::Faults && !state.filter.is_empty() {
        state.filter.clear();
    } else {
        state.go_to(Pane::Controls);
    }
}

fn stepped(state: &mut State, up: bool) -> Result<(), String> {
    let place = state.marked();
    match state.pane {
        Pane::Controls => state.step_control(place, up),
        Pane::Faults => state.step_fault(place, up),
        _ => Ok(()),
    }
}

fn show(state: &mut State, pane: Pane, words: Option<&str>) {
    match (pane, words) {
        (Pane::Faults, Some(words)) => {
            words.clone_into(&mut state.filter);
            state.marks[pane.place()] = 0;
        }
        (Pane::Readings, Some(_)) => state.only_different = false,
        _ => {}
    }
    let pane = if pane == Pane::Help && state.pane == Pane::Help {
        Pane::Controls
    } else {
        pane
    };
    state.go_to(pane);
}

fn file(state: &mut State, act: Act, words: Option<&str>) -> Result<Option<Effect>, String> {
    let word = if act == Act::Save { "save" } else { "load" };
    let name = words.map_or("", str::trim).to_owned();
    match (words, act, &state.file) {
        (None, _, known) => {
            let known = known.clone().unwrap_or_default();
            state.input = Some(format!(":{word} {known}"));
            Ok(None)
        }
        (Some(""), Act::Save, Some(known)) => Ok(Some(Effect::Save(known.clone()))),
        (Some(""), ..) => Err(format!("Write {word} and the name of a file.")),
        (Some(_), Act::Save, _) => Ok(Some(Effect::Save(name))),
        _ => Ok(Some(Effect::Load(name))),
    }
}

fn looks(state: &mut State, act: Act) {
    let preferences = &mut state.preferences;
    let said = match act {
        Act::Look if !preferences.colour => {
            "Look: no colour, as NO_COLOR or the terminal asks.".to_owned()
        }
        Act::Look => {
            preferences.look = preferences.look.next();
            format!("Look: {}.", preferences.look.word())
        }
        Act::Lines => {
            preferences.lines = preferences.lines.next();
            format!("Lines: {}.", preferences.lines.word())
        }
        Act::Sheet => {
            state.sheet = state.sheet.next();
            state.go_to(Pane::Schematic);
            format!("Sheet: {}.", state.sheet.word())
        }
        Act::Zoom => {
            state.zoom = state.zoom.next();
            state.go_to(Pane::Schematic);
            return;
        }
        _ => {
            state.only_different = !state.only_different;
            state.go_to(Pane::Readings);
            let which = if state.only_different {
                "what differs"
            } else {
                "all"
            };
            format!("Readings: {which}.")
        }
    };
    state.say(&said);
}

fn mark(state: &mut State, way: Move) {
    let (_, rows) = super::view::pane_size(state);
    let last = super::panes::most_marked(state);
    let mark = &mut state.marks[state.pane.place()];
    *mark = match way {
        Move::Up => mark.saturating_sub(1),
        Move::Down => *mark + 1,
        Move::PageUp => mark.saturating_sub(rows.max(2) - 1),
        Move::PageDown => *mark + rows.max(2) - 1,
        Move::First => 0,
        Move::Last => last,
    }
    .min(last);
}
