//! What an action does to the state. Pure: no terminal, no file, no clock.

use super::action::Action;
use super::command::{Command, parse};
use super::effect::Effect;
use super::event::{Event, Key};
use super::keys::resolve;
use super::prompt::{Pressed, clean, digit, typed};
use super::state::{Screen, State};
use crate::session::entry::What;

/// Takes one event.
pub fn update(state: &mut State, event: &Event) -> Option<Effect> {
    match event {
        Event::Key(key) => match resolve(state, *key) {
            Some(action) => act(state, action),
            None => dead_key(state, *key),
        },
        Event::Paste(text) if state.typing() => {
            let text = clean(text);
            state.input.push_str(&text);
            None
        }
        Event::Paste(_) => say(state, "There is no field to paste into here."),
        Event::Resize => None,
    }
}

fn say(state: &mut State, message: &str) -> Option<Effect> {
    state.say(message);
    None
}

fn dead_key(state: &mut State, key: Key) -> Option<Effect> {
    match key {
        Key::Char(c) => say(state, &format!("Key {c} does nothing here.")),
        _ => None,
    }
}

fn act(state: &mut State, action: Action) -> Option<Effect> {
    match action {
        Action::Digit(pressed) => press(state, pressed),
        Action::Accept => {
            let prompt = state.prompt()?;
            let Some(choice) = state.marked.and_then(|place| prompt.choices.get(place)) else {
                return say(
                    state,
                    "Nothing is marked. Press a digit, or mark with the arrows.",
                );
            };
            press(state, choice.digit)
        }
        Action::Type(c) => {
            state.input.push(c);
            None
        }
        Action::Erase => {
            state.input.pop();
            None
        }
        Action::Clear => {
            state.input.clear();
            None
        }
        Action::Command => {
            ":".clone_into(&mut state.input);
            None
        }
        Action::Send => send(state),
        Action::Up => {
            state.marked = Some(state.marked.map_or(0, |place| place.saturating_sub(1)));
            None
        }
        Action::Down => {
            state.marked = Some(down(state));
            None
        }
        Action::Undo => Some(Effect::Enter(What::Undo)),
        Action::Redo => Some(Effect::Enter(What::Redo)),
        Action::Why => show(state, Screen::Why),
        Action::Log => show(state, Screen::Log),
        Action::Pause => show(state, Screen::Pause),
        Action::Ends => show(state, Screen::Ends),
        Action::Messages => show(state, Screen::Messages),
        Action::Look => {
            state.look = state.look.next();
            let word = state.look.word();
            say(state, &format!("Look: {word}."))
        }
        Action::Help => show(state, Screen::Help),
        Action::Back => show(state, Screen::Work),
        Action::Suspend => Some(Effect::Suspend),
        Action::Quit => Some(Effect::Leave),
    }
}

fn down(state: &State) -> usize {
    let last = match state.screen {
        Screen::Work => state
            .prompt()
            .map_or(0, |p| p.choices.len().saturating_sub(1)),
        // Lists are cut to the screen when drawn; the view shows what is there.
        _ => 500,
    };
    let from_list = state.screen != Screen::Work;
    let next = state
        .marked
        .map_or(usize::from(from_list), |place| place + 1);
    next.min(last)
}

fn show(state: &mut State, screen: Screen) -> Option<Effect> {
    state.screen = screen;
    state.message.clear();
    state.marked = None;
    state.input.clear();
    None
}

/// Presses a digit.
pub fn press(state: &mut State, pressed: char) -> Option<Effect> {
    match digit(&state.job, state.agreed, pressed, None) {
        Pressed::Entry(what) => Some(Effect::Enter(what)),
        Pressed::Agree(check) => {
            state.agreed = Some(check);
            say(state, "Go on. What does it show?")
        }
        Pressed::NotYet => say(
            state,
            "Take the first readings, then press 7; 0 leaves it out.",
        ),
        Pressed::Nothing => None,
    }
}

/// Takes what was typed: a command after a colon, 0 for not known, or the words.
pub fn send(state: &mut State) -> Option<Effect> {
    let line = std::mem::take(&mut state.input);
    if line.starts_with(':') {
        return run(state, &line);
    }
    let zero = state.prompt().is_some_and(|prompt| prompt.zero.is_some());
    if line.trim() == "0" && zero {
        return press(state, '0');
    }
    match typed(&state.job, &line) {
        Ok(what) => Some(Effect::Enter(what)),
        Err(reason) => say(state, &reason),
    }
}

/// Runs a typed command.
pub fn run(state: &mut State, line: &str) -> Option<Effect> {
    match parse(&state.job, line) {
        Ok(Command::Enter(what)) => Some(Effect::Enter(what)),
        Ok(Command::Log) => show(state, Screen::Log),
        Ok(Command::Why) => show(state, Screen::Why),
        Ok(Command::Pause) => show(state, Screen::Pause),
        Ok(Command::Ends) => show(state, Screen::Ends),
        Ok(Command::Messages) => show(state, Screen::Messages),
        Ok(Command::Help) => show(state, Screen::Help),
        Ok(Command::Quit) => Some(Effect::Leave),
        Err(reason) => say(state, &reason),
    }
}
