//! The loop: draw, wait, update, save. Nothing is drawn without an event.

use std::io;
use std::time::{Duration, Instant};

use crossterm::event::{poll, read};
use crossterm::execute;
use crossterm::terminal::{BeginSynchronizedUpdate, EndSynchronizedUpdate};
use ratatui::Frame;

use super::commit::{Save, commit};
use super::effect::Effect;
use super::event::{Event, from_terminal};
use super::start::{Choice, Start};
use super::state::State;
use super::terminal::Claimed;
use super::theme::Theme;
use super::update::update;
use super::view::view;
use crate::base::stamp::Stamp;

/// Keys this soon after a new question were typed before it could be read.
const GUARD: Duration = Duration::from_millis(250);

/// Runs the console until the person leaves.
pub fn run(state: &mut State, clock: &dyn Fn() -> Stamp, save: &mut Save<'_>) -> io::Result<()> {
    let mut claimed = Claimed::new()?;
    draw(&mut claimed, |frame| view(frame, state, state.look.theme()))?;
    loop {
        let Some(event) = from_terminal(&read()?) else {
            continue;
        };
        state.now = clock();
        let guard_keys = match update(state, &event) {
            Some(Effect::Leave) => return Ok(()),
            Some(Effect::Suspend) => {
                claimed.suspend()?;
                false
            }
            Some(Effect::Enter(what)) => {
                let changed = commit(state, what, clock(), save);
                // A fast typist must not lose letters to the guard.
                changed && !state.typing()
            }
            None => false,
        };
        draw(&mut claimed, |frame| view(frame, state, state.look.theme()))?;
        if guard_keys && guard()? {
            state.say("Key ignored: the question had changed.");
            draw(&mut claimed, |frame| view(frame, state, state.look.theme()))?;
        }
    }
}

/// Shows the open jobs and gives what was chosen; `None` where the person leaves.
pub fn start(start: &mut Start, theme: &Theme) -> io::Result<Option<Choice>> {
    let mut claimed = Claimed::new()?;
    loop {
        draw(&mut claimed, |frame| start.view(frame, theme))?;
        if let Some(Event::Key(key)) = from_terminal(&read()?)
            && let Some(done) = start.press(key)
        {
            return Ok(done);
        }
    }
}

fn draw(claimed: &mut Claimed, paint: impl FnOnce(&mut Frame<'_>)) -> io::Result<()> {
    execute!(io::stdout(), BeginSynchronizedUpdate)?;
    let drawn = claimed.terminal.draw(paint).map(|_| ());
    execute!(io::stdout(), EndSynchronizedUpdate)?;
    drawn
}

/// Drops keys that come too soon; true where there were some.
fn guard() -> io::Result<bool> {
    let end = Instant::now() + GUARD;
    let mut dropped = false;
    loop {
        let left = end.saturating_duration_since(Instant::now());
        if left.is_zero() || !poll(left)? {
            return Ok(dropped);
        }
        dropped |= matches!(from_terminal(&read()?), Some(Event::Key(_)));
    }
}
