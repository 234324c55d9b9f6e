//! What an action does to the state. Pure: no terminal, no file, no clock.

use super::action::Action;
use super::command::{Command, parse};
use super::effect::Effect;
use super::event::{Event, Key};
use super::keys::resolve;
use super::movement::go;
use super::open;
use super::prompt::{Pressed, clean, digit, typed};
use super::screens;
use super::state::{Screen, State};
use crate::base::stamp::Stamp;
use crate::session::entry::What;
use crate::session::field::Form;
use crate::session::fields::FIELDS;
use crate::session::follow::Follow;
use crate::session::job::Stage;
use crate::session::watch::watched;

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
        Event::Resize(columns, rows) => {
            state.size = (*columns, *rows);
            None
        }
        Event::Moment(at) => moment(state, *at),
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

/// A timer that is over is said; a reading that got old is drawn as such.
fn moment(state: &mut State, at: Stamp) -> Option<Effect> {
    let due = state
        .follow
        .as_ref()
        .is_some_and(|follow| follow.next <= at);
    if due {
        return Some(Effect::Look);
    }
    let over = state.job.timers().iter().find(|timer| timer.ends() == at);
    let line = over.map(|timer| timer.line(at))?;
    say(state, &line)
}

fn act(state: &mut State, action: Action) -> Option<Effect> {
    match action {
        Action::Digit(pressed) => press(state, pressed),
        Action::Accept => open::accept(state),
        Action::Type(c) => type_in(state, |input| input.push(c)),
        Action::Erase if state.input.is_empty() && state.screen == Screen::Search => {
            show(state, Screen::Work)
        }
        Action::Erase => type_in(state, |input| {
            input.pop();
        }),
        Action::Clear if state.input.is_empty() => back(state),
        Action::Clear => {
            // What was said about the words that are given up goes with them.
            state.message.clear();
            type_in(state, String::clear)
        }
        Action::Command => {
            show(state, Screen::Work);
            type_in(state, |input| input.push(':'))
        }
        Action::Send if state.screen == Screen::Search => open::accept(state),
        Action::Send => send(state),
        Action::Move(way) => go(state, way),
        Action::Undo | Action::Redo | Action::Heard => entry_of(action).map(Effect::Enter),
        Action::Show(screen) => show(state, screen),
        Action::Sheet => {
            state.sheet = state.sheet.next();
            show(state, Screen::Schematic);
            let word = state.sheet.word();
            say(state, &format!("Sheet: {word}."))
        }
        Action::Zoom => {
            state.zoom = state.zoom.next();
            None
        }
        Action::Look if !state.preferences.colour => {
            say(state, "Look: no colour, as NO_COLOR or the terminal asks.")
        }
        Action::Look => {
            state.preferences.look = state.preferences.look.next();
            let word = state.preferences.look.word();
            say(state, &format!("Look: {word}."))
        }
        Action::Lines => {
            state.preferences.lines = state.preferences.lines.next();
            let word = state.preferences.lines.word();
            say(state, &format!("Lines: {word}."))
        }
        Action::Focus => {
            state.preferences.focus = !state.preferences.focus;
            let word = if state.preferences.focus { "on" } else { "off" };
            say(state, &format!("The question alone: {word}."))
        }
        Action::Back => back(state),
        Action::Suspend => Some(Effect::Suspend),
        Action::Quit => Some(Effect::Leave),
    }
}

/// The entry that a key makes by itself.
fn entry_of(action: Action) -> Option<What> {
    match action {
        Action::Undo => Some(What::Undo),
        Action::Redo => Some(What::Redo),
        Action::Heard => Some(What::Heard),
        _ => None,
    }
}

/// Changes what is being typed; what was found by it is marked from the top again.
fn type_in(state: &mut State, change: impl FnOnce(&mut String)) -> Option<Effect> {
    change(&mut state.input);
    state.marked = None;
    // What is typed is always in sight.
    state.scroll = 0;
    None
}

/// Shows a screen from its start.
pub fn show(state: &mut State, screen: Screen) -> Option<Effect> {
    state.screen = screen;
    state.message.clear();
    state.scroll = 0;
    state.input.clear();
    let (columns, rows) = state.screen_size();
    let items = screens::page(state, state.room(), columns, rows)
        .items()
        .len();
    state.marked = screens::first_mark(screen, items);
    None
}

/// One screen back; on the work itself, back to what the job asks.
fn back(state: &mut State) -> Option<Effect> {
    match state.screen {
        Screen::Cause(_) => show(state, Screen::Why),
        Screen::Work => {
            state.wish.chosen = None;
            state.wish.handing = None;
            show(state, Screen::Work)
        }
        _ => show(state, Screen::Work),
    }
}

/// Presses a digit.
pub fn press(state: &mut State, pressed: char) -> Option<Effect> {
    match digit(&state.job, state.wish, pressed, None) {
        Pressed::Entry(what) => Some(Effect::Enter(what)),
        Pressed::Agree(check) => {
            state.wish.agreed = Some(check);
            state.marked = None;
            say(state, "Go on. What does it show?")
        }
        Pressed::NotYet => say(
            state,
            "Take the first readings, then press 7; 0 leaves it out.",
        ),
        Pressed::Nothing => None,
    }
}

/// Whether 0 alone says "not known" here, or is refused as that; a number can be 0.
fn means_not_known(state: &State) -> bool {
    let Stage::Field(field) = state.stage() else {
        return state.prompt().is_some_and(|prompt| prompt.zero.is_some());
    };
    FIELDS[field].form != Form::OutOfTen
}

/// Takes what was typed: a command after a colon, 0 for not known, or the words.
pub fn send(state: &mut State) -> Option<Effect> {
    let line = std::mem::take(&mut state.input);
    if line.starts_with(':') {
        return run(state, &line);
    }
    if state.screen == Screen::Trend {
        return match watched(&state.job, &clean(&line), state.now) {
            Ok(what) => Some(Effect::Enter(what)),
            Err(reason) => {
                state.input = line;
                say(state, &reason)
            }
        };
    }
    if line.trim() == "0" && means_not_known(state) {
        return press(state, '0');
    }
    match typed(&state.job, state.wish, &line) {
        Ok(what) => Some(Effect::Enter(what)),
        Err(reason) => {
            // What was typed stays, for the person to mend it.
            state.input = line;
            say(state, &reason)
        }
    }
}

/// Follows a file, or ends that.
fn follow(state: &mut State, wanted: Option<(String, Option<usize>)>) -> Option<Effect> {
    let Some((path, gauge)) = wanted else {
        let said = match state.follow.take() {
            Some(follow) => format!("{} is followed no more.", follow.name()),
            None => "No file is followed.".to_owned(),
        };
        return say(state, &said);
    };
    if state.read_only {
        return say(
            state,
            "This job can only be read here, so nothing is followed.",
        );
    }
    if !state.job.is_identified() {
        return say(state, "People, chocks and aircraft come first.");
    }
    let follow = Follow::new(&path, gauge, state.now);
    show(state, Screen::Trend);
    let name = follow.name();
    state.follow = Some(follow);
    state.say(&format!("{name} is followed; :follow off ends that."));
    Some(Effect::Look)
}

/// Runs a typed command.
pub fn run(state: &mut State, line: &str) -> Option<Effect> {
    match parse(&state.job, line) {
        Ok(Command::Enter(what)) => Some(Effect::Enter(what)),
        Ok(Command::Show(screen)) => show(state, screen),
        Ok(Command::Check(check)) => open::choose(state, check),
        Ok(Command::Read(words)) => open::read(state, &words),
        Ok(Command::Watch(words)) => match watched(&state.job, &words, state.now) {
            Ok(what) => Some(Effect::Enter(what)),
            Err(reason) => say(state, &reason),
        },
        Ok(Command::Follow(wanted)) => follow(state, wanted),
        Ok(Command::HandOver) => open::hand_over(state),
        Ok(Command::Search(words)) => {
            show(state, Screen::Search);
            state.input = words;
            None
        }
        Ok(Command::Quit) => Some(Effect::Leave),
        Err(reason) => say(state, &reason),
    }
}
