//! An entry on its way: on disk first, then into the job, then on the screen.

use super::state::{Screen, State};
use crate::base::stamp::Stamp;
use crate::diagnosis::ranking::of_100;
use crate::report::log_text::words;
use crate::report::predicted_text::compared_words;
use crate::report::trend_text::fall_sum;
use crate::session::entry::{Entry, What};
use crate::session::field::Section;
use crate::session::fields::{FIELDS, of};
use crate::session::reading::comparison;

/// Puts an entry on disk; the error is for people.
pub type Save<'a> = dyn FnMut(&Entry) -> Result<(), String> + 'a;

/// Saves an entry and takes it into the job; true where another question is now on the screen.
///
/// Where it cannot be saved the job stays as it is, and the message says so.
pub fn commit(state: &mut State, what: What, now: Stamp, save: &mut Save<'_>) -> bool {
    state.now = now;
    if let Some(reason) = state.job.refuses(&what) {
        state.say(&reason);
        return false;
    }
    if state.read_only {
        state.say("NOT SAVED: another console holds this job; it can only be read here.");
        return false;
    }
    let said = words(&state.job, &what);
    let entry = Entry { at: now, what };
    if let Err(reason) = save(&entry) {
        state.say(&format!(
            "NOT SAVED: {reason}. The entry was not taken; try again."
        ));
        return false;
    }
    let back = state.job.entries().last().is_some_and(|last| last.at > now);
    let (before, stage) = (leader(state), state.stage());
    let chances = state.job.belief().map(|belief| belief.events.clone());
    state.before = chances.unwrap_or_default();
    let what = entry.what.clone();
    state.job.enter(entry);
    settle_wish(state, &what);
    let moved = moved(state, before.as_ref());
    let sum = sum(state, &what);
    let clock = if back { " The clock was set back." } else { "" };
    state.say(&format!("SAVED {} {said}.{sum}{moved}{clock}", now.clock()));
    leave_screen(state, &what);
    state.stage() != stage
}

/// Back to the work; readings stay on the trend, and those of a file leave everything as it is.
fn leave_screen(state: &mut State, what: &What) {
    let taken_back = matches!(what, What::Undo | What::Redo) && state.screen == Screen::Trend;
    match what {
        What::Readings { from: Some(_), .. } | What::Heard => return,
        What::Readings { .. } | What::NewWatch => state.screen = Screen::Trend,
        _ if taken_back => {}
        _ => state.screen = Screen::Work,
    }
    state.marked = None;
    state.scroll = 0;
    state.input.clear();
}

/// A chosen check is done with its answer; a hand-over goes on with its next question.
///
/// It ends with its last question, and at once where nobody takes over. Notes and timers leave
/// both as they are.
fn settle_wish(state: &mut State, what: &What) {
    match (what, state.wish.handing) {
        (What::Field { field, value }, Some(open)) if *field == open => {
            let nobody = FIELDS[open].id == "takes-over" && value.is_none();
            let mut later = of(Section::HandOver).skip_while(|place| *place <= open);
            state.wish.handing = later.next().filter(|_| !nobody);
        }
        (
            What::Note(_)
            | What::Timer { .. }
            | What::Heard
            | What::Readings { .. }
            | What::NewWatch,
            _,
        ) => {}
        // Going back inside a hand-over stays inside it: letters typed on must not become keys.
        (What::Undo, Some(open)) => {
            let earlier = of(Section::HandOver).take_while(|place| *place < open);
            state.wish.handing = Some(earlier.last().unwrap_or(open));
        }
        (What::Redo, Some(open)) => {
            let later = of(Section::HandOver).find(|place| *place > open);
            state.wish.handing = Some(later.unwrap_or(open));
        }
        _ => {
            state.wish.chosen = None;
            state.wish.handing = None;
        }
    }
}

/// What a reading that was typed amounts to, beside what the plant would read.
fn sum(state: &State, what: &What) -> String {
    if matches!(what, What::Readings { .. }) {
        let fell = state.job.evidence().fell.as_deref();
        let sum = fell.map(|fell| fall_sum(state.job.inference(), fell));
        return sum.map_or(String::new(), |sum| format!(" {sum}"));
    }
    let What::Answer {
        check,
        read: Some(read),
        ..
    } = what
    else {
        return String::new();
    };
    let compared = comparison(&state.job, *check, read);
    compared.map_or(String::new(), |(all, sum)| {
        format!(" {}", compared_words(state.job.model(), &all, &sum))
    })
}

fn leader(state: &State) -> Option<(usize, u32)> {
    let first = state.job.causes().first().copied()?;
    Some((first.event, of_100(first.probability)))
}

/// What the entry did to the leading cause, where it did something.
fn moved(state: &State, before: Option<&(usize, u32)>) -> String {
    match (before, leader(state)) {
        (Some(before), Some(after)) if *before != after => {
            let title = &state.job.model().causes[after.0].title;
            format!(" First now: {title}, {}.", after.1)
        }
        _ => String::new(),
    }
}
