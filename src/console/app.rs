//! The loop: draw, wait, update. Nothing is drawn without an event.

use std::io;
use std::time::{Duration, Instant};

use crossterm::event::{poll, read};
use crossterm::execute;
use crossterm::terminal::{BeginSynchronizedUpdate, EndSynchronizedUpdate};

use super::effect::Effect;
use super::event::{Event, from_terminal};
use super::state::State;
use super::terminal::Claimed;
use super::theme::Theme;
use super::update::update;
use super::view::view;

/// Keys this soon after a new question were typed before it could be read.
const GUARD: Duration = Duration::from_millis(250);

/// Runs the console until the person leaves.
pub fn run(state: &mut State, theme: &Theme) -> io::Result<()> {
    let mut claimed = Claimed::new()?;
    draw(&mut claimed, state, theme)?;
    loop {
        let Some(event) = from_terminal(&read()?) else {
            continue;
        };
        let effect = update(state, &event);
        if effect == Some(Effect::Leave) {
            return Ok(());
        }
        draw(&mut claimed, state, theme)?;
        if effect == Some(Effect::Guard) && guard(state)? {
            draw(&mut claimed, state, theme)?;
        }
    }
}

fn draw(claimed: &mut Claimed, state: &State, theme: &Theme) -> io::Result<()> {
    execute!(io::stdout(), BeginSynchronizedUpdate)?;
    let drawn = claimed.terminal.draw(|frame| view(frame, state, theme));
    execute!(io::stdout(), EndSynchronizedUpdate)?;
    drawn.map(|_| ())
}

/// Drops keys that come too soon; true where there were some.
fn guard(state: &mut State) -> io::Result<bool> {
    let end = Instant::now() + GUARD;
    let mut dropped = false;
    loop {
        let left = end.saturating_duration_since(Instant::now());
        if left.is_zero() || !poll(left)? {
            break;
        }
        dropped |= matches!(from_terminal(&read()?), Some(Event::Key(_)));
    }
    if dropped {
        "Key ignored: the question had changed.".clone_into(&mut state.message);
    }
    Ok(dropped)
}
