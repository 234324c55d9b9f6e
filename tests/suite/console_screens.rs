//! The screens beside the question: what they show, where Enter leads, what stays in sight.

use crate::console_keys::{console, draw, intake, press, send};
use stillwheel::base::stamp::Stamp;
use stillwheel::console::event::{Event, Key};
use stillwheel::console::glyphs::Lines;
use stillwheel::console::layout::Room;
use stillwheel::console::screens;
use stillwheel::console::state::{Screen, State};
use stillwheel::diagnosis::next_check::effects;
use stillwheel::diagnosis::what_if::{leader, otherwise};
use stillwheel::session::entry::What;
use stillwheel::session::field::Section;
use stillwheel::session::fields::{FIELDS, of, place};
use stillwheel::session::job::Stage;

const SCREENS: &str = "woitlhepm/?";

/// The intake answered, chocks in: the first check is on the screen.
pub fn at_questions() -> State {
    let mut state = console();
    intake(&mut state, true);
    state
}

fn check_on_screen(state: &State) -> String {
    match state.stage() {
        Stage::Question(proposal) => state.job.model().checks[proposal.check].id.clone(),
        other => panic!("{other:?}"),
    }
}

#[test]
fn enter_leads_from_the_causes_to_a_cause_and_from_there_to_its_check() {
    let mut state = at_questions();
    press(&mut state, "w");
    let second = state.job.causes()[1].event;
    press(&mut state, "~\n");
    assert_eq!(state.screen, Screen::Cause(second));
    let confirm = state.job.model().causes[second].confirm.unwrap().check;
    press(&mut state, "~\n");
    assert_eq!(state.wish.chosen, Some(confirm));
    assert_eq!(state.screen, Screen::Work);
    let before = state.job.entries().len();
    press(&mut state, "1");
    let entry = &state.job.entries()[before].what;
    assert!(matches!(entry, What::Answer { check, answer: 0, .. } if *check == confirm));
    assert_eq!(state.wish.chosen, None, "its answer ends the choice");
}

#[test]
fn a_chosen_check_is_left_with_escape_and_a_locked_or_answered_one_is_refused() {
    let mut state = at_questions();
    let proposed = check_on_screen(&state);
    press(&mut state, ":check lamp-test\n");
    let refused = "There is no check lamp-test; ";
    assert!(state.message.starts_with(refused), "{}", state.message);
    press(&mut state, ":check fluid-where\n");
    assert_eq!(check_on_screen(&state), "fluid-where");
    press(&mut state, "<");
    assert_eq!(check_on_screen(&state), proposed);
    press(&mut state, "1");
    press(&mut state, &format!(":check {proposed}\n"));
    assert!(state.message.contains("is answered"), "{}", state.message);

    let mut state = console();
    intake(&mut state, false);
    let locked = state.job.locked_checks()[0];
    let id = state.job.model().checks[locked].id.clone();
    press(&mut state, &format!(":check {id}\n"));
    assert!(state.message.contains("waits for"), "{}", state.message);
    assert_eq!(state.wish.chosen, None);
}

#[test]
fn before_the_intake_is_done_no_check_and_no_hand_over_is_begun() {
    let mut state = console();
    press(&mut state, ":check fluid-where\n");
    assert!(state.message.contains("come first"), "{}", state.message);
    press(&mut state, "h\n");
    assert!(state.message.contains("come first"), "{}", state.message);
    assert_eq!(*state.job.stage(), Stage::Field(0));
}

/// What the screen promises for an answer is what the ranking gives once it is answered.
#[test]
fn what_if_keeps_its_word() {
    let mut state = at_questions();
    for digit in ["3", "1", "3"] {
        let Stage::Question(proposal) = state.stage() else {
            panic!("{:?}", state.stage());
        };
        let promised = effects(state.job.inference(), state.job.evidence(), &proposal);
        let answer = usize::from(digit == "3");
        press(&mut state, digit);
        let given = leader(state.job.inference(), state.job.evidence());
        assert_eq!(promised[answer].leader, given);
    }
    // And backwards: an answer had it been another is what a change of the entry gives.
    let all = otherwise(state.job.inference(), state.job.evidence());
    let first = &all[0];
    let (other, wanted) = first.other[0];
    let entries = state.job.entries().len();
    let word = match first.item {
        stillwheel::diagnosis::evidence::Item::Check(check) => {
            let at = state
                .job
                .entries()
                .iter()
                .position(|e| matches!(e.what, What::Answer { check: c, .. } if c == check));
            let word = &state.job.model().checks[check].answers[other];
            format!(":change {} {word}\n", at.unwrap() + 1)
        }
        item => panic!("{item:?}"),
    };
    press(&mut state, &word);
    assert_eq!(state.job.entries().len(), entries + 1);
    assert_eq!(leader(state.job.inference(), state.job.evidence()), wanted);
}

#[test]
fn enter_in_the_log_starts_a_change_and_in_the_ends_an_end() {
    let mut state = at_questions();
    press(&mut state, "3l\n");
    let number = state.job.entries().len();
    assert_eq!(state.input, format!(":change {number} "));
    press(&mut state, "yes\n");
    assert_eq!(state.job.evidence().answered(), 1);
    let check = state.job.model().check("lever-position").unwrap();
    let reply = &state.job.evidence().replies[check];
    assert_eq!(
        *reply,
        stillwheel::diagnosis::evidence::Reply::Answered(vec![0])
    );
    press(&mut state, "e~~~\n");
    assert_eq!(state.input, ":end 4");
    assert!(state.message.contains("Held as long as designed"));
    assert_eq!(
        state.job.end(),
        None,
        "the second Enter ends it, not the first"
    );
    press(&mut state, "\n");
    assert_eq!(state.job.end(), Some(3));
}

#[test]
fn a_hand_over_can_be_made_while_the_work_goes_on() {
    let mut state = at_questions();
    let question = check_on_screen(&state);
    press(&mut state, "h\n");
    for field in of(Section::HandOver) {
        assert_eq!(state.stage(), Stage::Field(field));
        let about = &FIELDS[field];
        assert!(draw(&state, 80, 24).contains("Hand over, "), "{}", about.id);
        let keys = if state.typing() { "typed\n" } else { "1" };
        press(&mut state, keys);
    }
    assert_eq!(
        check_on_screen(&state),
        question,
        "and then the work goes on"
    );
    assert_eq!(state.job.field("accepted"), Some("yes"));
    press(&mut state, "h");
    let sheet = draw(&state, 120, 60);
    assert!(sheet.contains("Takes over: typed") && sheet.contains("Accepted: yes"));
    // Begun again and left: what was saved stays, the rest is as it was.
    press(&mut state, "\nLT3\n");
    send(&mut state, &Event::Key(Key::Escape));
    assert_eq!(check_on_screen(&state), question);
    assert_eq!(state.job.field("takes-over"), Some("LT3"));
    // Nobody takes over: that ends it at once.
    press(&mut state, "h\n0\n");
    assert_eq!(check_on_screen(&state), question);
}

#[test]
fn search_finds_words_in_any_order_and_goes_there() {
    let mut state = at_questions();
    press(&mut state, "3/worn PAWL\n");
    let worn = state.job.model().cause("pawl-worn").unwrap();
    assert_eq!(state.screen, Screen::Cause(worn));
    press(&mut state, "<</entry latch no\n");
    assert_eq!(state.screen, Screen::Log);
    let marked = state.marked.unwrap();
    assert_eq!(marked + 1, state.job.entries().len());
    press(&mut state, "</check fluid outside\n");
    assert_eq!(check_on_screen(&state), "fluid-where");
    press(&mut state, "</no such thing");
    assert!(draw(&state, 80, 24).contains("Nothing holds these words."));
}

#[test]
fn chocks_and_pressure_with_side_and_age_stand_on_every_screen() {
    let mut state = console();
    press(&mut state, "31111LT1\nDEMO-7\n1");
    while state.stage() != Stage::Field(place("temperature-as-found").unwrap()) {
        let pressure = state.stage() == Stage::Field(place("pressure-as-found").unwrap());
        press(&mut state, if pressure { "1480 psi\n" } else { "0\n" });
    }
    while matches!(*state.job.stage(), Stage::Field(_) | Stage::Condition(_)) {
        let keys = if state.typing() { "0\n" } else { "0" };
        press(&mut state, keys);
    }
    let read = state.job.entries().iter().find_map(|entry| {
        matches!(&entry.what, What::Field { value: Some(v), .. } if v == "1480 psi")
            .then_some(entry.at)
    });
    let read = read.unwrap();
    for minutes in [0, 16] {
        state.now = Stamp::from_seconds(read.seconds() + minutes * 60);
        let age = if minutes > 15 { " OLD" } else { "" };
        for key in SCREENS.chars() {
            press(&mut state, &key.to_string());
            for (columns, rows, side) in
                [(40, 12, "gas"), (80, 24, "gas side"), (200, 60, "gas side")]
            {
                let text = draw(&state, columns, rows);
                let top = text.lines().next().unwrap();
                // The narrowest has no room for the Z of UTC beside a whole registration.
                let clock = read.clock();
                let clock = clock.trim_end_matches(if columns < 60 { "Z" } else { "" });
                let wanted = format!("1480 psi {side} {clock}{age} ");
                assert!(top.contains(&wanted), "{key} {columns}: {top}");
                assert!(top.contains("CHOCKS IN"), "{top}");
                assert!(top.starts_with("\"DEMO-7 "), "{top}");
                if columns >= 80 {
                    assert!(top.contains("evidence 1/7 kept"), "{top}");
                }
            }
            send(&mut state, &Event::Key(Key::Escape));
            state.now = Stamp::from_seconds(read.seconds() + minutes * 60);
        }
    }
}

#[test]
fn the_screen_wakes_for_a_timer_and_for_a_reading_that_gets_old_and_for_nothing_else() {
    let mut state = at_questions();
    assert_eq!(state.next_moment(), None, "nothing is polled");
    press(&mut state, ":timer 10 leak-down\n");
    let end = state.next_moment().unwrap();
    assert_eq!(
        end.seconds(),
        state.job.entries().last().unwrap().at.seconds() + 600
    );
    state.now = end;
    send(&mut state, &Event::Moment(end));
    assert!(
        state.message.contains("TIMER leak-down: OVER"),
        "{}",
        state.message
    );
    assert_eq!(state.next_moment(), None);
}

#[test]
fn without_letters_function_keys_arrows_and_commands_do_everything() {
    let mut state = at_questions();
    state.preferences.letters = false;
    press(&mut state, "w");
    assert_eq!(state.screen, Screen::Work);
    for (key, screen) in [
        (4, Screen::Why),
        (3, Screen::Checks),
        (5, Screen::WhatIf),
        (6, Screen::Log),
        (7, Screen::HandOver),
        (8, Screen::Ends),
        (9, Screen::Pause),
        (1, Screen::Help),
    ] {
        send(&mut state, &Event::Key(Key::F(key)));
        assert_eq!(state.screen, screen);
        send(&mut state, &Event::Key(Key::F(2)));
        assert_eq!(state.screen, Screen::Work);
    }
    let before = state.job.entries().len();
    press(&mut state, "~~\n:undo\n:redo\n");
    assert_eq!(state.job.entries().len(), before + 3);
}

#[test]
fn ascii_is_ascii_and_box_drawing_is_asked_for() {
    let mut state = at_questions();
    press(&mut state, "3");
    for key in SCREENS.chars() {
        press(&mut state, &key.to_string());
        for (columns, rows) in [(40, 12), (80, 24), (120, 40), (200, 60)] {
            let text = draw(&state, columns, rows);
            assert!(text.is_ascii(), "{text}");
        }
        send(&mut state, &Event::Key(Key::Escape));
    }
    press(&mut state, "g");
    assert_eq!(state.preferences.lines, Lines::Box);
    let text = draw(&state, 120, 40);
    assert!(['\u{2500}', '\u{2502}'].iter().all(|c| text.contains(*c)));
}

/// Down alone shows every row of every screen, at the smallest size.
#[test]
fn every_row_can_be_reached_with_the_arrows() {
    let mut state = at_questions();
    press(&mut state, "313");
    send(&mut state, &Event::Resize(40, 12));
    for keys in ["w", "w\n", "o", "i", "l", "h", "e", "p", "m", "?"] {
        press(&mut state, keys);
        send(&mut state, &Event::Key(Key::Home));
        let page = screens::page(&state, Room::One, 40, 8);
        let mut seen = String::new();
        for _ in 0..2 * page.rows.len() {
            seen.push_str(&draw(&state, 40, 12).replace('>', " "));
            send(&mut state, &Event::Key(Key::Down));
        }
        for row in page.rows.iter().filter(|row| !row.text.is_empty()) {
            let text = row.text.replace('>', " ");
            assert!(seen.contains(text.trim_end()), "{keys}: {text}");
        }
        // And back up again.
        for _ in 0..2 * page.rows.len() {
            send(&mut state, &Event::Key(Key::Up));
        }
        let first = page.rows[0].text.replace('>', " ");
        let top = draw(&state, 40, 12).replace('>', " ");
        assert!(top.contains(first.trim_end()), "{keys}: {first}\n{top}");
        send(&mut state, &Event::Key(Key::Escape));
        send(&mut state, &Event::Key(Key::Escape));
    }
}

#[test]
fn panels_stand_beside_the_question_where_there_is_room_and_go_on_request() {
    let mut state = at_questions();
    press(&mut state, "3");
    let wide = draw(&state, 120, 40);
    assert!(wide.contains("What each answer would do") && wide.contains("Log, newest last"));
    let widest = draw(&state, 200, 60);
    assert!(widest.contains("Aircraft and evidence") && widest.contains("had it been otherwise"));
    press(&mut state, "f");
    let alone = draw(&state, 200, 60);
    assert!(!alone.contains("Log, newest last"));
    assert!(alone.contains("Likely causes of 100"));
}

#[test]
fn a_word_that_is_pasted_goes_into_the_field_and_nowhere_else() {
    let mut state = at_questions();
    send(&mut state, &Event::Paste("1".to_owned()));
    assert!(state.message.contains("no field to paste into"));
    assert_eq!(state.job.evidence().answered(), 0);
    press(&mut state, "/");
    send(&mut state, &Event::Paste("fluid".to_owned()));
    assert_eq!(state.input, "fluid");
}
