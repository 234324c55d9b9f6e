//! The loop: draw, wait, update, save. Nothing is drawn without an event.

use std::io;
use std::time::{Duration, Instant};

use crossterm::event::{poll, read};
use crossterm::execute;
use crossterm::style::Print;
use crossterm::terminal::{BeginSynchronizedUpdate, EndSynchronizedUpdate};
use ratatui::Frame;

use super::commit::{Save, commit};
use super::effect::Effect;
use super::event::{Event, from_terminal};
use super::follow::look;
use super::start::{Choice, Start};
use super::state::State;
use super::terminal::Claimed;
use super::update::update;
use super::view::view;
use crate::base::stamp::Stamp;

/// What a terminal rings at.
const BELL: char = '\u{7}';

/// Runs the console until the person leaves.
///
/// Keys that come within `guard` of a new question were typed before it could be read.
pub fn run(
    state: &mut State,
    clock: &dyn Fn() -> Stamp,
    guard: Duration,
    save: &mut Save<'_>,
) -> io::Result<()> {
    let mut claimed = Claimed::new()?;
    state.size = crossterm::terminal::size()?;
    show(&mut claimed, state)?;
    let mut rung = false;
    loop {
        // Once for each alarm, also for one that was over before the console was opened.
        let alarm = state.alarm().is_some();
        if alarm && !rung {
            execute!(io::stdout(), Print(BELL))?;
        }
        rung = alarm;
        let Some(event) = next_event(state, clock)? else {
            continue;
        };
        state.now = clock();
        let guard_keys = match update(state, &event) {
            Some(Effect::Leave) => return Ok(()),
            Some(Effect::Look) => look(state, clock(), save) && !state.typing(),
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
        show(&mut claimed, state)?;
        if guard_keys && drop_early_keys(guard)? {
            state.say("Key ignored: the question had changed.");
            show(&mut claimed, state)?;
        }
    }
}

/// Waits for the terminal, or for the next moment at which the screen changes by itself: nothing
/// is asked for in between.
fn next_event(state: &State, clock: &dyn Fn() -> Stamp) -> io::Result<Option<Event>> {
    if let Some(at) = state.next_moment() {
        let left = at.seconds() - clock().seconds();
        let left = Duration::from_secs(u64::try_from(left).unwrap_or(0));
        if !poll(left)? {
            return Ok(Some(Event::Moment(at)));
        }
    }
    Ok(from_terminal(&read()?))
}

fn show(claimed: &mut Claimed, state: &State) -> io::Result<()> {
    let theme = state.preferences.look.theme();
    draw(claimed, |frame| view(frame, state, theme))
}

/// Shows the open jobs and gives what was chosen; `None` where the person leaves.
pub fn start(start: &mut Start) -> io::Result<Option<Choice>> {
    let mut claimed = Claimed::new()?;
    loop {
        draw(&mut claimed, |frame| start.view(frame))?;
        if let Some(Event::Key(key)) = from_terminal(&read()?)
            && let Some(done) = start.press(key)
        {
            return Ok(done);
        }
    }
}

/// Draws a frame, bracketed so that the terminal shows it at once.
pub(super) fn draw(claimed: &mut Claimed, paint: impl FnOnce(&mut Frame<'_>)) -> io::Result<()> {
    execute!(io::stdout(), BeginSynchronizedUpdate)?;
    let drawn = claimed.terminal.draw(paint).map(|_| ());
    execute!(io::stdout(), EndSynchronizedUpdate)?;
    drawn
}

/// Drops keys that come too soon; true where there were some.
fn drop_early_keys(guard: Duration) -> io::Result<bool> {
    let end = Instant::now() + guard;
    let mut dropped = false;
    loop {
        let left = end.saturating_duration_since(Instant::now());
        if left.is_zero() || !poll(left)? {
            return Ok(dropped);
        }
        dropped |= matches!(from_terminal(&read()?), Some(Event::Key(_)));
    }
}
