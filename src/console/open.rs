//! What Enter does with the marked thing: an answer, a cause, a check, an entry, a way to end.

use super::effect::Effect;
use super::prompt::needs_word;
use super::schematic::Scene;
use super::screens;
use super::search::{Target, found};
use super::state::{Screen, State};
use super::update::{press, show};
use crate::session::end_state::END_STATES;
use crate::session::field::Section;
use crate::session::fields::of;
use crate::session::job::Stage;
use crate::session::reading::answer_by_reading;

/// Takes what is marked on the screen.
pub fn accept(state: &mut State) -> Option<Effect> {
    let (columns, rows) = state.screen_size();
    let items = screens::page(state, state.room(), columns, rows).items();
    // What was found is taken from the top where no arrow was pressed.
    let first = (state.screen == Screen::Search).then_some(0);
    let marked = state.marked.or(first);
    let item = marked.and_then(|place| items.get(place).copied());
    match (state.screen, item) {
        (Screen::HandOver, _) => hand_over(state),
        (Screen::Work, Some(place)) => {
            let prompt = state.prompt()?;
            press(state, prompt.choices.get(place)?.digit)
        }
        (Screen::Why, Some(event)) => show(state, Screen::Cause(event)),
        (Screen::Schematic, Some(part)) => open_part(state, part),
        (Screen::Checks | Screen::Cause(_), Some(check)) => choose(state, check),
        (Screen::Log, Some(entry)) => prefill(
            state,
            &format!(":change {} ", entry + 1),
            "Type what it is now, such as yes, no or cannot, and Enter.",
        ),
        (Screen::Ends, Some(end)) => prefill(
            state,
            &format!(":end {}", end + 1),
            &format!("Enter ends the job as: {}.", END_STATES[end].title),
        ),
        (Screen::Search, Some(place)) => {
            let results = found(state, &state.input);
            let target = results.get(place)?.target.clone();
            go_to(state, target)
        }
        _ => {
            state.say("Nothing is marked. Press a digit, or mark with the arrows.");
            None
        }
    }
}

/// Shows the most probable fault of a part.
fn open_part(state: &mut State, part: usize) -> Option<Effect> {
    let scene = Scene::of(&state.job, state.sheet)?;
    let drawn = scene.parts.into_iter().find(|drawn| drawn.place == part)?;
    if let Some((event, _)) = drawn.likeliest {
        return show(state, Screen::Cause(event));
    }
    state.say(&format!(
        "{}: no cause of this tree lies in it.",
        drawn.title
    ));
    None
}

/// Puts a check on the screen in place of the proposed one.
pub fn choose(state: &mut State, check: usize) -> Option<Effect> {
    match state.job.choose(check) {
        Ok(_) => {
            show(state, Screen::Work);
            state.wish.handing = None;
            state.wish.chosen = Some(check);
            state.say("Your own choice. Esc goes back to the proposed check.");
        }
        Err(reason) => state.say(&reason),
    }
    None
}

/// Answers the check on the screen with a reading; what it amounts to is said with it.
pub fn read(state: &mut State, typed: &str) -> Option<Effect> {
    let Stage::Question(proposal) = state.stage() else {
        state.say("There is no check on the screen.");
        return None;
    };
    if needs_word(&proposal, state.wish) {
        state.say("Take the first readings, then press 7.");
        return None;
    }
    match answer_by_reading(&state.job, proposal.check, typed) {
        Ok(what) => Some(Effect::Enter(what)),
        Err(reason) => {
            state.say(&reason);
            None
        }
    }
}

/// Begins a hand-over: its questions come one by one, the earlier answers are asked anew.
pub fn hand_over(state: &mut State) -> Option<Effect> {
    if !state.job.is_identified() {
        state.say("People, chocks and aircraft come first.");
        return None;
    }
    show(state, Screen::Work);
    state.wish.chosen = None;
    state.wish.handing = of(Section::HandOver).next();
    state.say("Hand-over. Esc leaves it; what was SAVED stays.");
    None
}

/// Writes the start of a command for the person to finish.
fn prefill(state: &mut State, command: &str, hint: &str) -> Option<Effect> {
    show(state, Screen::Work);
    command.clone_into(&mut state.input);
    state.say(hint);
    None
}

fn go_to(state: &mut State, target: Target) -> Option<Effect> {
    match target {
        Target::Check(check) => choose(state, check),
        Target::Cause(event) => show(state, Screen::Cause(event)),
        Target::Entry(entry) => {
            show(state, Screen::Log);
            state.marked = Some(entry);
            None
        }
        Target::Screen(screen) => show(state, screen),
        Target::Words(words) => {
            state.say(&words);
            None
        }
    }
}
