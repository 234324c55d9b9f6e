//! The loop: draw, wait, update. While the plant stands it sleeps until a key comes.

use std::io;
use std::sync::Arc;
use std::time::Duration;

use crossterm::event::{poll, read};

use super::effect::Effect;
use super::state::State;
use super::update::{Event, update};
use super::view::view;
use crate::console::app::draw;
use crate::console::event::{Event as Raw, from_terminal};
use crate::console::terminal::Claimed;
use crate::plant::aircraft::Aircraft;
use crate::plant::course::Course;

/// Time between two frames while the plant runs.
const FRAME: Duration = Duration::from_millis(100);

/// What came of reading a file: the aircraft and the course, or lines for people.
pub type Loaded = Result<(Arc<Aircraft>, Course), Vec<String>>;

/// Files, as the command line layer reads and writes them.
pub struct Files<'a> {
    /// Writes a course; the error is for people.
    pub save: &'a mut dyn FnMut(&str, &Aircraft, &Course) -> Result<(), String>,
    /// Reads a course.
    pub load: &'a mut dyn FnMut(&str) -> Loaded,
}

/// Runs the bench until the person leaves. `clock` is the real time since any moment.
pub fn run(
    state: &mut State,
    clock: &dyn Fn() -> Duration,
    files: &mut Files<'_>,
) -> io::Result<()> {
    let mut claimed = Claimed::new()?;
    state.size = crossterm::terminal::size()?;
    let mut last = clock();
    loop {
        draw(&mut claimed, |frame| {
            view(frame, state, state.preferences.look.theme());
        })?;
        state.said.clear();
        let ran = state.running;
        let event = next_event(state, clock, last)?;
        if matches!(event, Some(Event::Passed(_))) {
            last = clock();
        }
        let effect = event.and_then(|event| update(state, &event));
        if !ran {
            last = clock();
        }
        match effect {
            Some(Effect::Leave) => return Ok(()),
            Some(Effect::Suspend) => claimed.suspend()?,
            Some(file) => {
                done(state, &file, files);
            }
            None => {}
        }
    }
}

/// Waits for the terminal; while the plant runs, no longer than to the next frame.
fn next_event(
    state: &State,
    clock: &dyn Fn() -> Duration,
    last: Duration,
) -> io::Result<Option<Event>> {
    if state.running {
        let passed = clock().saturating_sub(last);
        if !poll(FRAME.saturating_sub(passed))? {
            return Ok(Some(Event::Passed(clock().saturating_sub(last))));
        }
    }
    Ok(match from_terminal(&read()?) {
        Some(Raw::Key(key)) => Some(Event::Key(key)),
        Some(Raw::Resize(columns, rows)) => Some(Event::Resize(columns, rows)),
        Some(Raw::Paste(text)) => Some(Event::Paste(text)),
        _ => None,
    })
}

/// Carries out what concerns a file; true where it was done. What cannot be read changes nothing.
pub fn done(state: &mut State, effect: &Effect, files: &mut Files<'_>) -> bool {
    match effect {
        Effect::Save(name) => {
            let play = &state.play;
            match (files.save)(name, play.aircraft(), play.course()) {
                Ok(()) => {
                    state.file = Some(name.clone());
                    state.unsaved = false;
                    state.say(&format!("SAVED {name}."));
                    true
                }
                Err(reason) => {
                    state.say(&format!("NOT SAVED: {reason}."));
                    false
                }
            }
        }
        Effect::Load(name) => match (files.load)(name) {
            Ok((aircraft, course)) => load(state, name, &aircraft, &course),
            Err(lines) => {
                for line in lines.iter().skip(1) {
                    state.say(line);
                }
                let first = lines.first().map_or("", String::as_str);
                state.say(&format!("Not loaded, and nothing changed here. {first}"));
                false
            }
        },
        _ => false,
    }
}

fn load(state: &mut State, name: &str, aircraft: &Arc<Aircraft>, course: &Course) -> bool {
    match State::new(aircraft, course) {
        Ok(mut loaded) => {
            loaded.size = state.size;
            loaded.preferences = state.preferences;
            loaded.speed = state.speed;
            loaded.file = Some(name.to_owned());
            loaded.said.clear();
            *state = loaded;
            state.say(&format!("Loaded {name}."));
            true
        }
        Err(error) => {
            state.say(&format!("Not loaded, and nothing changed here: {error}."));
            false
        }
    }
}
