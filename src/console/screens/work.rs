//! The work: what is asked now, with the likely causes or the rest of the form below it.

use super::{causes, change, form};
use crate::console::layout::Room;
use crate::console::page::{Page, Role};
use crate::console::prompt::Prompt;
use crate::console::state::State;
use crate::diagnosis::contradiction::item_name;
use crate::diagnosis::next_check::Proposal;
use crate::diagnosis::ranking::of_100;
use crate::report::rank_text::minutes;
use crate::session::end_state::END_STATES;
use crate::session::job::Stage;

/// Below these only the question and the leading cause are shown.
const FULL: (usize, usize) = (56, 16);

/// Writes the screen.
pub fn write(page: &mut Page, state: &State, room: Room, rows: usize) {
    if let Some((place, what)) = change::target(state) {
        return change::write(page, state, place, &what);
    }
    match state.prompt() {
        Some(prompt) => asked(page, state, &prompt, room, rows),
        None => stopped(page, state),
    }
}

fn asked(page: &mut Page, state: &State, prompt: &Prompt, room: Room, rows: usize) {
    let stage = state.stage();
    let full = page.columns >= FULL.0 && rows >= FULL.1;
    page.strong(&prompt.ask);
    answers(page, state, prompt);
    if full && !prompt.how.is_empty() {
        page.text(&prompt.how);
    }
    if let (Some(why), true) = (&prompt.why, full) {
        page.text(&format!("Why this one: {why}."));
    }
    // In a small window too: cautions go before odds, and what has no room is a page down.
    for caution in &prompt.cautions {
        one_caution(page, caution, full);
    }
    if !full {
        page.text(&prompt.how);
    }
    let ending = state.job.end().is_some();
    for timer in state.job.timers().iter().filter(|_| !ending) {
        page.row(&timer.line(state.now));
    }
    match &stage {
        Stage::RuleMet | Stage::NothingLeft => ends(page, rows),
        Stage::Question(proposal) => {
            if full {
                others(page, state, proposal);
            }
            page.rule();
            if !full {
                causes::leader(page, state);
            } else if room <= Room::One {
                causes::write(page, state, rows);
            } else {
                effects(page, state, proposal);
            }
        }
        Stage::Field(_) | Stage::Condition(_) if full => form::write(page, state, &stage, rows),
        _ => {}
    }
}

fn answers(page: &mut Page, state: &State, prompt: &Prompt) {
    for (place, choice) in prompt.choices.iter().enumerate() {
        page.item(place, &format!(" {}  {}", choice.digit, choice.label));
    }
    match prompt.typed {
        Some(what) => {
            page.text(&format!("Type {what}."));
            page.input(&state.input);
        }
        None if state.input.starts_with(':') => page.input(&state.input),
        None => {}
    }
    if let Some(zero) = prompt.zero {
        page.row(&format!("   0  {zero}"));
    }
}

/// The first sentence of a caution, in one line where the page is wide; the whole stands in the
/// report.
fn one_caution(page: &mut Page, text: &str, one_line: bool) {
    let first = text.split_once(". ").map_or(text, |(first, _)| first);
    let first = format!("{}.", first.trim_end_matches('.'));
    if one_line {
        page.row_of(Role::Caution, &format!("CAUTION  {first}"));
    } else {
        page.caution(&first);
    }
}

/// The two checks that would come instead.
fn others(page: &mut Page, state: &State, proposal: &Proposal) {
    let model = state.job.model();
    let open = state.job.open_checks().iter();
    let words: Vec<String> = open
        .filter(|other| other.check != proposal.check)
        .take(2)
        .map(|other| {
            let title = &model.checks[other.check].title;
            format!("{title} ({})", minutes(other.cost.minutes))
        })
        .collect();
    if !words.is_empty() {
        page.text(&format!("Or: {}.", words.join("; ")));
    }
}

/// What each answer would do, where the causes stand beside.
fn effects(page: &mut Page, state: &State, proposal: &Proposal) {
    page.strong("What each answer would do");
    super::what_if::next_answers(page, state, proposal);
}

fn ends(page: &mut Page, rows: usize) {
    page.rule();
    let room = rows.saturating_sub(page.rows.len());
    for (place, end) in END_STATES.iter().enumerate().take(room) {
        page.row(&format!("  {:>2}  {}", place + 1, end.title));
    }
}

fn stopped(page: &mut Page, state: &State) {
    let job = &state.job;
    match job.stage() {
        Stage::Contradiction(items) => {
            page.strong("These cannot all be true. Look at each of them again:");
            for item in items {
                page.text(&format!("  {}", item_name(job.inference(), *item)));
            }
            page.text("u takes the last one back; :change NUMBER ANSWER changes another.");
        }
        Stage::Refused(reason) => page.strong(&format!("No ranking: {reason}.")),
        Stage::Closed(end) => {
            let end = &END_STATES[*end];
            page.strong(&format!("Closed: {}", end.title));
            page.text(end.text);
            page.text("This program never releases an aircraft. `report` writes the job up.");
            if let Some(row) = job.causes().first() {
                let title = &job.model().causes[row.event].title;
                let count = of_100(row.probability);
                page.text(&format!("First at the end: {title}, {count} of 100."));
            }
        }
        _ => {}
    }
    if state.input.starts_with(':') {
        page.input(&state.input);
    }
}
