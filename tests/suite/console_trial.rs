//! What a new user stumbled on, held by keys and by what the screen shows.

use stillwheel::console::action::Move;
use stillwheel::console::event::{Event, Key};
use stillwheel::console::movement::go;
use stillwheel::console::state::State;
use stillwheel::console::theme::Look;
use stillwheel::session::field::Section;
use stillwheel::session::fields::{FIELDS, of};
use stillwheel::session::job::Stage;

use crate::console_keys::{console, draw, press, send};
use crate::console_screens::at_questions;

#[test]
fn cautions_and_what_is_taken_away_are_seen_in_the_smallest_window() {
    let mut state = at_questions();
    state.size = (40, 12);
    press(&mut state, ":check leak-down\n");
    let gate = draw(&state, 40, 12);
    assert!(
        gate.contains("CAUTION It takes away pressure, fluid"),
        "{gate}"
    );
    assert!(gate.contains("More: PgDn"), "{gate}");
    press(&mut state, "7");
    let top = draw(&state, 40, 12);
    assert!(top.contains("CAUTION"), "{top}");
    let mut seen = top;
    for _ in 0..6 {
        go(&mut state, Move::PageDown);
        seen.push_str(&draw(&state, 40, 12));
    }
    for words in [
        "The aircraft can",
        "Pump pressure moves",
        "Never search for a",
        "Pumps on ten minutes",
    ] {
        assert!(seen.contains(words), "{words} is nowhere in:\n{seen}");
    }
    assert_eq!(state.marked, None, "turning pages marks no answer");
}

#[test]
fn a_pressure_that_a_check_used_up_is_not_shown_as_standing_there() {
    let mut state = console();
    press(&mut state, "311111");
    while let Stage::Field(field) = *state.job.stage() {
        match FIELDS[field].id {
            "aircraft" => press(&mut state, "DEMO-7\n"),
            "right-one" => press(&mut state, "1"),
            "pressure-as-found" => break,
            _ if state.typing() => press(&mut state, "0\n"),
            _ => press(&mut state, "1"),
        }
    }
    press(&mut state, "45 bar\n");
    intake_rest(&mut state);
    assert!(!draw(&state, 80, 24).contains("GONE"));
    press(&mut state, ":check leak-down\n73");
    assert!(state.message.contains("SAVED"), "{}", state.message);
    let top = draw(&state, 80, 24);
    assert!(
        top.lines().next().unwrap().contains("45 bar gas side"),
        "{top}"
    );
    assert!(top.lines().next().unwrap().contains("GONE"), "{top}");
    press(&mut state, "p");
    assert!(draw(&state, 80, 24).contains("GONE: a check has used it up"));
}

fn intake_rest(state: &mut State) {
    while let Stage::Field(_) | Stage::Condition(_) = state.job.stage() {
        let sure =
            matches!(*state.job.stage(), Stage::Field(field) if FIELDS[field].id == "idea-sure");
        press(
            state,
            if sure {
                "\n"
            } else if state.typing() {
                "0\n"
            } else {
                "0"
            },
        );
    }
}

#[test]
fn taking_back_inside_a_hand_over_stays_inside_it() {
    let mut state = at_questions();
    press(&mut state, ":hand-over\n");
    let first = of(Section::HandOver).next().unwrap();
    press(&mut state, ":undo\n");
    assert_eq!(state.stage(), Stage::Field(first));
    press(&mut state, "K. Weiss\n");
    press(&mut state, ":undo\n");
    assert_eq!(state.stage(), Stage::Field(first));
    press(&mut state, "the night shift\n");
    assert_eq!(state.job.field("takes-over"), Some("the night shift"));
}

#[test]
fn an_end_asks_for_a_hand_over_of_its_own() {
    let mut state = at_questions();
    press(&mut state, ":hand-over\n");
    for _ in of(Section::HandOver) {
        let keys = if state.typing() { "words\n" } else { "1" };
        press(&mut state, keys);
    }
    assert_eq!(state.job.field("accepted"), Some("yes"));
    press(&mut state, ":end 10\n");
    let mut asked = Vec::new();
    while let Stage::Field(field) = *state.job.stage() {
        asked.push(FIELDS[field].id);
        let keys = if state.typing() { "later\n" } else { "1" };
        press(&mut state, keys);
    }
    assert!(
        asked.contains(&"takes-over") && asked.contains(&"accepted"),
        "{asked:?}"
    );
    assert_eq!(state.job.field("next-step"), Some("later"));
}

#[test]
fn refused_words_stay_for_the_person_to_mend() {
    let mut state = console();
    press(&mut state, "311111");
    while let Stage::Field(field) = *state.job.stage() {
        match FIELDS[field].id {
            "aircraft" => {
                press(&mut state, "0\n");
                assert_eq!(state.job.field("aircraft"), None, "0 is no aircraft");
                press(&mut state, "DEMO-7\n");
            }
            "right-one" => press(&mut state, "1"),
            "pressure-as-found" => break,
            _ if state.typing() => press(&mut state, "0\n"),
            _ => press(&mut state, "1"),
        }
    }
    press(&mut state, "45\n");
    assert_eq!(state.input, "45");
    press(&mut state, " bar\n");
    assert_eq!(state.job.field("pressure-as-found"), Some("45 bar"));
}

#[test]
fn a_change_shows_the_entry_that_is_changed_and_what_it_takes() {
    let mut state = at_questions();
    press(&mut state, "3");
    let number = state.job.entries().len();
    press(&mut state, &format!(":change {number} "));
    let screen = draw(&state, 80, 24);
    assert!(
        screen.contains(&format!("Change entry {number}:")),
        "{screen}"
    );
    assert!(
        screen.contains("It says: Lever and latch as found: no."),
        "{screen}"
    );
    assert!(screen.contains("It takes: yes, no, cannot."), "{screen}");
    send(&mut state, &Event::Key(Key::Escape));
    assert!(!draw(&state, 80, 24).contains("Change entry"));
    assert!(state.message.is_empty(), "{}", state.message);
}

#[test]
fn no_key_brings_colours_where_none_are_wanted() {
    let mut state = at_questions();
    state.preferences.colour = false;
    press(&mut state, "d");
    assert_eq!(state.preferences.look, Look::Mono);
}

#[test]
fn causes_that_no_check_tells_apart_are_named_with_their_common_share() {
    let mut state = at_questions();
    let standing = |state: &State| state.job.standing().unwrap().clone();
    // Answered in turn until two causes stand together, whichever they are.
    for _ in 0..30 {
        if standing(&state).group.len() > 1 || !matches!(state.job.stage(), Stage::Question(_)) {
            break;
        }
        press(&mut state, "0");
    }
    let group = standing(&state).group;
    assert!(group.len() > 1, "nothing left to ask groups what is left");
    let words = stillwheel::console::screens::causes::standing(&state);
    for event in &group {
        assert!(
            words.contains(&state.job.model().causes[*event].title),
            "{words}"
        );
    }
    assert!(words.contains("together"), "{words}");
}

#[test]
fn what_the_smallest_top_line_leaves_out_is_one_key_away() {
    let mut state = at_questions();
    state.size = (40, 12);
    assert!(!draw(&state, 40, 12).contains("evidence"));
    press(&mut state, "p");
    let mut seen = draw(&state, 40, 12);
    for _ in 0..3 {
        go(&mut state, Move::PageDown);
        seen.push_str(&draw(&state, 40, 12));
    }
    assert!(seen.contains("0 of 7 kept"), "{seen}");
}
