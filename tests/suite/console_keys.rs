//! The console by key strings: keys in, state out, no terminal.

use std::sync::Arc;
use stillwheel::authoring::{desk::Desk, document};
use stillwheel::console::event::{Event, Key};
use stillwheel::console::state::{Screen, State};
use stillwheel::console::{theme, update::update, view::view};
use stillwheel::diagnosis::inference::Inference;
use stillwheel::session::job::{Job, Stage};

/// The console at the start of a job on the shipped tree.
pub fn console() -> State {
    let mut desk = Desk::default();
    let model = document::tree(&mut desk, "crept-while-parked", None).unwrap();
    State::new(Job::new(Arc::new(Inference::new(Arc::new(model)))))
}

/// Presses keys; `<` is Esc, `\n` is Enter, `^` and `v` are the arrows.
pub fn press(state: &mut State, keys: &str) {
    for c in keys.chars() {
        let key = match c {
            '<' => Key::Back,
            '\n' => Key::Enter,
            '^' => Key::Up,
            'v' => Key::Down,
            other => Key::Char(other),
        };
        update(state, &Event::Key(key));
    }
}

fn asked(state: &State) -> String {
    match state.job.stage() {
        Stage::Question(proposal) => state.job.model().checks[proposal.check].id.clone(),
        other => format!("{other:?}"),
    }
}

#[test]
fn chocks_come_first_and_then_one_question_at_a_time() {
    let mut state = console();
    assert_eq!(*state.job.stage(), Stage::Safety(0));
    press(&mut state, "11");
    assert!(state.job.chocked());
    press(&mut state, "11");
    assert_eq!(asked(&state), "lever-position");
    press(&mut state, "3");
    assert!(
        state
            .message
            .starts_with("Kept: Lever and latch as found: no.")
    );
    assert_eq!(state.job.evidence().answered(), 1);
}

#[test]
fn a_dead_key_changes_nothing() {
    let mut state = console();
    press(&mut state, "1111");
    let before = state.job.entries().len();
    for key in ["2", "4", "6", "8", "9", "5", "7", "x"] {
        press(&mut state, key);
        assert_eq!(state.job.entries().len(), before, "{key}");
        assert!(state.message.contains("does nothing here"), "{key}");
    }
}

#[test]
fn undo_goes_back_to_the_start_and_redo_gives_the_same_digits() {
    let mut state = console();
    press(&mut state, "1111303130");
    let end = state.job.belief().cloned();
    let entries = state.job.entries().len();
    for _ in 0..entries {
        press(&mut state, "u");
    }
    assert_eq!(*state.job.stage(), Stage::Safety(0));
    assert!(!state.job.can_undo());
    for _ in 0..entries {
        press(&mut state, "r");
    }
    assert_eq!(state.job.belief().cloned(), end);
    assert_eq!(
        state.job.entries().len(),
        3 * entries,
        "undo deletes nothing"
    );
}

#[test]
fn without_chocks_nothing_that_moves_or_opens_is_asked() {
    let mut state = console();
    press(&mut state, "3333");
    assert!(!state.job.chocked());
    let mut asked_checks = Vec::new();
    for _ in 0..40 {
        let Stage::Question(proposal) = state.job.stage() else {
            break;
        };
        let check = &state.job.model().checks[proposal.check];
        assert!(
            check.locks.is_empty(),
            "{} is asked without chocks",
            check.id
        );
        asked_checks.push(check.id.clone());
        press(&mut state, "0");
    }
    assert!(
        asked_checks.len() >= 5,
        "looking and asking are free: {asked_checks:?}"
    );
    assert!(!state.job.locked_checks().is_empty());
}

#[test]
fn answering_cannot_to_everything_ends_with_the_ranking_of_the_start() {
    let mut state = console();
    let start = state.job.belief().cloned().unwrap();
    press(&mut state, "1111");
    for _ in 0..40 {
        press(&mut state, "0");
    }
    assert_eq!(*state.job.stage(), Stage::NothingLeft);
    assert_eq!(state.job.belief().unwrap().events, start.events);
    assert_eq!(
        state.job.cannot_checks().len(),
        state.job.model().checks.len()
    );
}

#[test]
fn the_marked_answer_is_taken_with_enter() {
    let mut state = console();
    press(&mut state, "1111v\n");
    assert!(state.message.contains(": no."), "{}", state.message);
}

#[test]
fn other_screens_come_and_go() {
    let mut state = console();
    press(&mut state, "w");
    assert_eq!(state.screen, Screen::Why);
    press(&mut state, "?");
    assert_eq!(state.screen, Screen::Help);
    press(&mut state, "1");
    assert_eq!(
        *state.job.stage(),
        Stage::Safety(0),
        "an answer needs its question on the screen"
    );
    press(&mut state, "<");
    assert_eq!(state.screen, Screen::Work);
}

/// Draws a state at a size and gives the text.
pub fn draw(state: &State, columns: u16, rows: u16) -> String {
    let backend = ratatui::backend::TestBackend::new(columns, rows);
    let mut terminal = ratatui::Terminal::new(backend).unwrap();
    terminal
        .draw(|frame| view(frame, state, &theme::MONO))
        .unwrap();
    // The test backend cannot print a screen without columns.
    if columns == 0 {
        String::new()
    } else {
        terminal.backend().to_string()
    }
}

#[test]
fn every_question_and_its_answers_are_seen_whole_at_both_sizes() {
    let mut state = console();
    press(&mut state, "1111");
    while let Stage::Question(proposal) = state.job.stage().clone() {
        let check = state.job.model().checks[proposal.check].clone();
        for (columns, rows) in [(40, 12), (80, 24)] {
            let screen = draw(&state, columns, rows);
            let words: String = screen.replace(['"', '\n'], " ");
            let words: Vec<&str> = words.split_whitespace().collect();
            let ask: Vec<&str> = check.ask.split_whitespace().collect();
            assert!(
                words.windows(ask.len()).any(|w| w == ask),
                "{}\n{screen}",
                check.ask
            );
            for answer in &check.answers {
                assert!(
                    screen.contains(&answer.replace('-', " ")),
                    "{answer}\n{screen}"
                );
            }
            assert!(screen.contains("cannot check"), "{screen}");
        }
        press(&mut state, "0");
    }
}

proptest::proptest! {
    #![proptest_config(proptest::prelude::ProptestConfig { cases: 60, ..Default::default() })]

    #[test]
    fn any_size_and_any_keys_draw_without_panic(
        columns in 0u16..220, rows in 0u16..70, keys in "[0-9urw?<v^]{0,25}"
    ) {
        let mut state = console();
        press(&mut state, &keys);
        draw(&state, columns, rows);
        if let Some(belief) = state.job.belief() {
            proptest::prop_assert!(belief.events.iter().all(|p| (0.0..=1.0).contains(p)));
        }
    }
}
