//! Time on the bench: running, steps, speed, and waiting until something is seen.

use std::time::Duration;

use super::state::{SPEEDS, State};
use super::table::Act;
use crate::base::dimension::Dimension;
use crate::base::quantity::{Quantity, plain_decimal};
use crate::plant::course::{LONGEST, Seen, clock};

/// Real time beyond this counts no further, ms: a machine that is held up plays slower instead of
/// ever more at once.
const MOST_AT_ONCE: u64 = 250;

/// Takes an act that concerns time.
pub(super) fn time(state: &mut State, act: Act, words: Option<&str>) -> Result<(), String> {
    let step = |up: bool, now: u32| {
        let mut speeds = SPEEDS.iter();
        let next = if up {
            speeds.find(|speed| **speed > now)
        } else {
            speeds.rfind(|speed| **speed < now)
        };
        next.copied().unwrap_or(now)
    };
    match (act, words) {
        (Act::Run, None | Some("")) => {
            state.running = !state.running;
            state.spare = 0;
            let speed = state.speed;
            state.say(&if state.running {
                format!("Time passes, {speed} times real time.")
            } else {
                format!("Stopped at {}.", clock(state.play.now()))
            });
        }
        (Act::Run, Some(rest)) => run(state, rest)?,
        (Act::Step, words) => {
            if let Some(text) = words.filter(|text| !text.is_empty()) {
                state.step = tenths(text)?;
            }
            let step = state.step;
            let before = state.play.seen();
            state.pass(step)?;
            reached(state, before);
        }
        (Act::Speed, words) => {
            let number = words.and_then(plain_decimal);
            let speed = number.filter(|n| n.fract() == 0.0 && (1.0..=1000.0).contains(n));
            let speed = speed.ok_or("Write speed and a whole number from 1 to 1000.")?;
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "it is a whole number from 1 to 1000"
            )]
            {
                state.speed = speed as u32;
            }
            state.say(&format!("{} times real time.", state.speed));
        }
        _ => {
            state.speed = step(act == Act::Faster, state.speed);
            state.say(&format!("{} times real time.", state.speed));
        }
    }
    Ok(())
}

/// A way to see something, for `run until`.
type See = fn(&Seen) -> Option<f64>;

/// What can be waited for, how it is said, and how it is seen.
const EVENTS: [(&str, &str, See); 3] = [
    ("moves", "It moves", |seen| seen.moves),
    ("empty", "The store is empty", |seen| seen.empty),
    ("drops", "The lever drops by itself", |seen| seen.drops),
];

/// `run 8 h`, `run until moves`, `run until moves 48 h`.
fn run(state: &mut State, rest: &str) -> Result<(), String> {
    state.running = false;
    let Some(until) = rest.strip_prefix("until") else {
        let before = state.play.seen();
        state.pass(tenths(rest)?)?;
        reached(state, before);
        return Ok(());
    };
    let until = until.trim();
    let (word, most) = until.split_once(' ').unwrap_or((until, "48 h"));
    let known = EVENTS.iter().find(|(known, ..)| *known == word);
    let names: Vec<&str> = EVENTS.iter().map(|(known, ..)| *known).collect();
    let (_, said, see) =
        known.ok_or_else(|| format!("Write run until and one of: {}.", names.join(", ")))?;
    let most = (state.play.now() + tenths(most)?).min(LONGEST);
    let seen = state.play.go_until(most, *see);
    state.unsaved = true;
    state.look();
    let seen = seen.map_err(|error| format!("Stopped: {error}."))?;
    let now = state.play.now();
    let words = if seen {
        let hours = see(&state.play.seen()).unwrap_or_default();
        format!("{said} at {} ({hours:.2} h).", clock(now))
    } else {
        format!("Not seen until {}.", clock(now))
    };
    state.say(&words);
    Ok(())
}

/// Says what was seen on the way, or shows where it stands.
fn reached(state: &mut State, before: Seen) {
    if !told(state, before) {
        state.message = format!("At {}.", clock(state.play.now()));
    }
}

/// Says what was seen for the first time.
fn told(state: &mut State, before: Seen) -> bool {
    let now = state.play.seen();
    let mut words = String::new();
    for (_, said, see) in EVENTS {
        if let (None, Some(hours)) = (see(&before), see(&now)) {
            words.push_str(&format!("{said} at {}. ", time_of(hours)));
        }
    }
    if words.is_empty() {
        return false;
    }
    state.say(words.trim());
    true
}

/// Hours as people say them: seconds where they are few.
fn time_of(hours: f64) -> String {
    if hours < 0.1 {
        format!("{:.1} s", hours * 3600.0)
    } else {
        format!("{hours:.2} h")
    }
}

/// A time that was typed, in tenths of a second.
fn tenths(text: &str) -> Result<u64, String> {
    let read = Quantity::parse(text, Dimension::Time);
    let seconds = read
        .map_err(|error| format!("{error}; write a time such as 8 h."))?
        .si();
    let most = 240.0 * 3600.0;
    if !(0.1..=most).contains(&seconds) {
        return Err("A time is from 0.1 s to 240 h.".to_owned());
    }
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "it is from 1 to some millions"
    )]
    Ok((seconds * 10.0).round() as u64)
}

/// Real time passed: the plant follows at its speed.
pub(super) fn passed(state: &mut State, time: Duration) {
    if !state.running {
        return;
    }
    let real = u64::try_from(time.as_millis()).unwrap_or(u64::MAX);
    state.spare += real.min(MOST_AT_ONCE) * u64::from(state.speed);
    let tenths = state.spare / 100;
    state.spare %= 100;
    if tenths == 0 {
        return;
    }
    let before = state.play.seen();
    if let Err(said) = state.pass(tenths) {
        state.running = false;
        state.say(&said);
        return;
    }
    told(state, before);
    // That is the moment to look round.
    if before.moves.is_none() && state.play.seen().moves.is_some() {
        state.running = false;
    }
}
