//! The console by key strings: keys in, state out, no terminal.

use std::sync::Arc;
use stillwheel::authoring::{desk::Desk, document};
use stillwheel::base::stamp::Stamp;
use stillwheel::console::commit::commit;
use stillwheel::console::effect::Effect;
use stillwheel::console::event::{Event, Key};
use stillwheel::console::state::{Screen, State};
use stillwheel::console::{theme, update::update, view::view};
use stillwheel::diagnosis::inference::Inference;
use stillwheel::session::entry::What;
use stillwheel::session::fields::FIELDS;
use stillwheel::session::job::{Job, Stage};

/// The console at the start of a job on the shipped tree.
pub fn console() -> State {
    let mut desk = Desk::default();
    let model = document::tree(&mut desk, "crept-while-parked", None).unwrap();
    let job = Job::new(Arc::new(Inference::new(Arc::new(model))), Vec::new());
    State::new(job, "test", Stamp::from_seconds(0))
}

/// One event, with its effect carried out and nothing written.
pub fn send(state: &mut State, event: &Event) {
    if let Some(Effect::Enter(what)) = update(state, event) {
        let now = Stamp::from_seconds(state.now.seconds() + 60);
        commit(state, what, now, &mut |_| Ok(()));
    }
}

/// Presses keys; `<` is Esc, `\n` is Enter, `^` and `~` are the arrows.
pub fn press(state: &mut State, keys: &str) {
    for c in keys.chars() {
        let key = match c {
            '<' => Key::Back,
            '\n' => Key::Enter,
            '^' => Key::Up,
            '~' => Key::Down,
            other => Key::Char(other),
        };
        send(state, &Event::Key(key));
    }
}

/// Answers the intake: nobody hurt, chocks in or not, one aircraft, the rest not known.
pub fn intake(state: &mut State, chocked: bool) {
    press(state, "3");
    press(state, if chocked { "1111" } else { "333" });
    loop {
        match state.job.stage().clone() {
            Stage::Field(field) if FIELDS[field].id == "aircraft" => press(state, "DEMO-7\n"),
            Stage::Field(field) if FIELDS[field].id == "right-one" => press(state, "1"),
            Stage::Field(field) if FIELDS[field].id == "idea-sure" => press(state, "\n"),
            Stage::Field(_) | Stage::Condition(_) => {
                let typed = state.typing();
                press(state, if typed { "0\n" } else { "0" });
            }
            _ => return,
        }
    }
}

/// Says what is known of a condition after the intake, and nothing of what that brings up.
pub fn tell(state: &mut State, id: &str, word: &str) {
    let conditions = &state.job.model().tree.conditions;
    let condition = conditions.iter().position(|c| c.id == id).unwrap();
    let word = Some(word.to_owned());
    let now = state.now;
    commit(state, What::Condition { condition, word }, now, &mut |_| {
        Ok(())
    });
    while matches!(state.job.stage(), Stage::Condition(_)) {
        let typed = state.typing();
        press(state, if typed { "0\n" } else { "0" });
    }
}

/// Answers what is asked with 0 until nothing is asked any more.
pub fn zeros(state: &mut State) {
    while matches!(state.job.stage(), Stage::Question(_)) {
        press(state, "0");
    }
}

fn asked(state: &State) -> String {
    match state.job.stage() {
        Stage::Question(proposal) => state.job.model().checks[proposal.check].id.clone(),
        other => format!("{other:?}"),
    }
}

#[test]
fn people_and_chocks_come_first_and_then_one_question_at_a_time() {
    let mut state = console();
    assert_eq!(*state.job.stage(), Stage::Field(0));
    assert_eq!(FIELDS[0].id, "hurt");
    intake(&mut state, true);
    assert!(state.job.chocked());
    assert_eq!(asked(&state), "lever-position");
    press(&mut state, "3");
    assert!(state.message.contains("SAVED"), "{}", state.message);
    assert!(
        state.message.contains("Lever and latch as found: no."),
        "{}",
        state.message
    );
    assert_eq!(state.job.evidence().answered(), 1);
}

#[test]
fn a_hurt_person_freezes_the_scene() {
    let mut state = console();
    press(&mut state, "1");
    press(&mut state, "11told\n");
    let Stage::Field(field) = state.job.stage() else {
        panic!("{:?}", state.job.stage());
    };
    assert_eq!(FIELDS[*field].id, "takes-over");
    press(&mut state, "0\n");
    let Stage::Closed(end) = state.job.stage() else {
        panic!("{:?}", state.job.stage());
    };
    assert_eq!(
        stillwheel::session::end_state::END_STATES[*end].id,
        "frozen"
    );
}

#[test]
fn the_first_three_need_an_answer() {
    let mut state = console();
    press(&mut state, "0");
    assert_eq!(*state.job.stage(), Stage::Field(0));
    press(&mut state, "30");
    assert_eq!(*state.job.stage(), Stage::Field(1));
}

#[test]
fn a_dead_key_changes_nothing() {
    let mut state = console();
    intake(&mut state, true);
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
    intake(&mut state, true);
    press(&mut state, "303130");
    let end = state.job.belief().cloned();
    let entries = state.job.entries().len();
    for _ in 0..entries {
        let keys = if state.typing() { ":undo\n" } else { "u" };
        press(&mut state, keys);
    }
    assert_eq!(*state.job.stage(), Stage::Field(0));
    assert!(!state.job.can_undo());
    for _ in 0..entries {
        let keys = if state.typing() { ":redo\n" } else { "r" };
        press(&mut state, keys);
    }
    assert_eq!(state.job.belief().cloned(), end);
    assert_eq!(
        state.job.entries().len(),
        3 * entries,
        "undo deletes nothing"
    );
}

#[test]
fn an_old_answer_changed_gives_what_a_fresh_run_gives() {
    let mut state = console();
    intake(&mut state, true);
    let line = state.job.entries().len() + 1;
    press(&mut state, "3");
    press(&mut state, "1");
    press(&mut state, &format!(":change {line} yes\n"));
    let mut fresh = console();
    intake(&mut fresh, true);
    press(&mut fresh, "1");
    let check = fresh.job.model().check("ask-who-touched").unwrap();
    let second = What::Answer {
        check,
        answer: 0,
        read: None,
    };
    commit(&mut fresh, second, Stamp::from_seconds(9), &mut |_| Ok(()));
    assert_eq!(state.job.evidence().replies, fresh.job.evidence().replies);
    assert_eq!(state.job.belief(), fresh.job.belief());
}

#[test]
fn without_chocks_nothing_that_moves_or_opens_is_asked() {
    let mut state = console();
    intake(&mut state, false);
    assert!(!state.job.chocked());
    let mut asked_checks = Vec::new();
    while let Stage::Question(proposal) = state.job.stage() {
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
fn a_check_that_takes_evidence_away_asks_on_another_key() {
    let mut state = console();
    intake(&mut state, true);
    loop {
        let Stage::Question(proposal) = state.job.stage().clone() else {
            panic!("no check takes anything away");
        };
        if proposal.cost.takes_away.is_empty() {
            press(&mut state, "0");
            continue;
        }
        let before = state.job.entries().len();
        press(&mut state, "1");
        assert_eq!(state.job.entries().len(), before, "1 is the safe choice");
        assert!(
            state.message.contains("first readings"),
            "{}",
            state.message
        );
        press(&mut state, "7");
        assert_eq!(state.job.entries().len(), before);
        press(&mut state, "1");
        assert_eq!(state.job.entries().len(), before + 1);
        return;
    }
}

#[test]
fn answering_cannot_to_everything_ends_chocked_with_what_is_not_excluded() {
    let mut state = console();
    let start = state.job.belief().cloned().unwrap();
    intake(&mut state, true);
    zeros(&mut state);
    assert_eq!(*state.job.stage(), Stage::NothingLeft);
    assert_eq!(state.job.belief().unwrap().events, start.events);
    // A check that tells bystanders only is never asked: it says nothing about a cause.
    let model = state.job.model();
    let tells = |check: &&stillwheel::diagnosis::check::Check| {
        let mut nodes = check.lines.iter().flat_map(|line| &line.when);
        nodes.any(|node| !model.is_bystander_node(*node))
    };
    let asked = model.checks.iter().filter(tells).count();
    assert!(asked + 1 >= model.checks.len());
    assert_eq!(state.job.cannot_checks().len(), asked);
    press(&mut state, "0\n");
    while let Stage::Field(_) = state.job.stage() {
        let keys = if state.typing() { "0\n" } else { "0" };
        press(&mut state, keys);
    }
    let Stage::Closed(end) = state.job.stage() else {
        panic!("{:?}", state.job.stage());
    };
    assert_eq!(
        stillwheel::session::end_state::END_STATES[*end].id,
        "not-reproduced"
    );
    assert!(state.job.chocked());
}

#[test]
fn an_end_with_proof_is_refused_without_its_confirming_check() {
    let mut state = console();
    intake(&mut state, true);
    press(&mut state, ":end 1\n");
    assert!(state.message.contains("Not proved"), "{}", state.message);
    assert!(matches!(state.job.stage(), Stage::Question(_)));
}

#[test]
fn an_end_waits_for_people_chocks_and_aircraft_and_is_chosen_once() {
    let mut state = console();
    press(&mut state, ":end 9\n");
    assert!(state.message.contains("come first"), "{}", state.message);
    intake(&mut state, true);
    press(&mut state, ":end 9\n");
    assert!(state.message.contains("SAVED"), "{}", state.message);
    press(&mut state, ":end 6\n");
    assert!(
        state.message.contains("chosen already"),
        "{}",
        state.message
    );
}

/// Answers named checks until the rule is met.
fn answer_all(state: &mut State, known: &[(&str, &str)]) {
    for _ in 0..60 {
        let Stage::Question(proposal) = state.job.stage().clone() else {
            return;
        };
        let check = &state.job.model().checks[proposal.check];
        let word = known
            .iter()
            .find(|(id, _)| *id == check.id)
            .map(|(_, word)| *word);
        let what = match word {
            Some(word) => What::Answer {
                check: proposal.check,
                answer: check.answer(word).unwrap(),
                read: None,
            },
            None => What::Cannot {
                check: proposal.check,
                reason: None,
            },
        };
        let now = state.now;
        commit(state, what, now, &mut |_| Ok(()));
    }
}

#[test]
fn an_end_that_denies_a_proved_cause_is_refused() {
    let mut state = console();
    intake(&mut state, true);
    tell(&mut state, "moved-after", "1 h to 3 h");
    let lost = [
        ("lever-position", "yes"),
        ("ask-last-pump", "yes"),
        ("gas-gauge", "below-precharge"),
        ("leak-down", "fast"),
        ("position-indicator", "shut"),
    ];
    answer_all(&mut state, &lost);
    assert_eq!(*state.job.stage(), Stage::RuleMet);
    press(&mut state, "0\n");
    assert_eq!(
        *state.job.stage(),
        Stage::RuleMet,
        "a 0 by habit ends nothing"
    );
    press(&mut state, "7\n");
    assert!(
        state.message.contains("says otherwise"),
        "{}",
        state.message
    );
    press(&mut state, "1\n");
    assert!(state.message.contains("SAVED"), "{}", state.message);
}

#[test]
fn chocks_taken_out_at_the_end_are_out_everywhere() {
    let mut state = console();
    intake(&mut state, true);
    press(&mut state, ":end 9\n");
    while let Stage::Field(field) = *state.job.stage() {
        let out = FIELDS[field].id == "chocks-left";
        let keys = match (out, state.typing()) {
            (true, _) => "3",
            (false, true) => "0\n",
            (false, false) => "1",
        };
        press(&mut state, keys);
        if out {
            assert!(!state.job.chocked());
            assert!(draw(&state, 80, 24).contains("NOT CHOCKED"));
        }
    }
}

#[test]
fn without_a_chocked_nose_nobody_is_sent_to_mains_or_into_the_well() {
    let mut state = console();
    press(&mut state, "33");
    let mut asked = Vec::new();
    while let Stage::Field(field) = *state.job.stage() {
        let id = FIELDS[field].id;
        asked.push(id);
        let typing = state.typing();
        press(
            &mut state,
            match (id, typing) {
                ("aircraft", _) => "DEMO-7\n",
                ("idea-sure", _) => "\n",
                ("right-one", _) => "1",
                (_, true) => "0\n",
                (_, false) => "0",
            },
        );
        if matches!(state.job.stage(), Stage::Condition(_)) {
            break;
        }
    }
    for waits in [
        "main-chocks",
        "chocks-by",
        "pressure-as-found",
        "temperature-as-found",
    ] {
        assert!(!asked.contains(&waits), "{waits} is asked: {asked:?}");
    }
    assert!(asked.contains(&"lever-as-found"));
}

#[test]
fn what_cannot_be_saved_is_not_taken() {
    let mut state = console();
    let what = What::Field {
        field: 0,
        value: Some("no".to_owned()),
    };
    let full = "no space left on device";
    commit(&mut state, what, Stamp::from_seconds(1), &mut |_| {
        Err(full.to_owned())
    });
    assert_eq!(*state.job.stage(), Stage::Field(0));
    assert!(
        state.message.starts_with("NOT SAVED: no space left"),
        "{}",
        state.message
    );
}

#[test]
fn a_clock_that_was_set_back_is_said_and_logged() {
    let mut state = console();
    let what = |value: &str| What::Note(value.to_owned());
    commit(
        &mut state,
        what("later"),
        Stamp::from_seconds(7200),
        &mut |_| Ok(()),
    );
    commit(
        &mut state,
        what("earlier"),
        Stamp::from_seconds(60),
        &mut |_| Ok(()),
    );
    assert!(
        state.message.contains("clock was set back"),
        "{}",
        state.message
    );
    let log = stillwheel::report::log_text::log_lines(&state.job);
    assert!(log[1].contains("set back"), "{log:?}");
}

#[test]
fn control_characters_do_not_get_into_names() {
    let mut state = console();
    press(&mut state, "31111");
    assert!(state.typing());
    send(&mut state, &Event::Paste("LT\u{1b}[2J1\u{7}".to_owned()));
    press(&mut state, "\n");
    assert_eq!(state.job.field("chocks-by"), Some("LT[2J1"));
}

#[test]
fn other_screens_come_and_go() {
    let mut state = console();
    intake(&mut state, true);
    let asked = state.job.stage().clone();
    for (key, screen) in [
        ("w", Screen::Why),
        ("o", Screen::Checks),
        ("i", Screen::WhatIf),
        ("l", Screen::Log),
        ("h", Screen::HandOver),
        ("e", Screen::Ends),
        ("p", Screen::Pause),
        ("m", Screen::Messages),
        ("/", Screen::Search),
        ("?", Screen::Help),
    ] {
        press(&mut state, key);
        assert_eq!(state.screen, screen);
        press(&mut state, "1");
        assert_eq!(
            *state.job.stage(),
            asked,
            "an answer needs its question on the screen"
        );
        // What was typed to search for goes first, then the screen.
        press(
            &mut state,
            if screen == Screen::Search { "<<" } else { "<" },
        );
        assert_eq!(state.screen, Screen::Work);
    }
}

/// 500 walks of random digits from the end of the intake: no panic, no NaN, and taking everything
/// back gives the start again.
#[test]
fn random_walks_end_where_they_began() {
    let mut begin = console();
    intake(&mut begin, true);
    let entries = begin.job.entries().to_vec();
    let inference = Arc::new(Inference::new(Arc::clone(begin.job.model())));
    let start = begin.job.belief().cloned();
    let mut seed: u64 = 11;
    for walk in 0..500 {
        let job = Job::new(Arc::clone(&inference), entries.clone());
        let mut state = State::new(job, "walk", Stamp::from_seconds(0));
        state.now = Stamp::from_seconds(100_000);
        for _ in 0..12 {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
            let digit = ["1", "3", "5", "7", "0", "0", "u", "1"][(seed >> 60) as usize / 2];
            press(&mut state, digit);
            if state.job.entries().len() < entries.len() {
                break;
            }
            if let Some(belief) = state.job.belief() {
                let numbers = belief.events.iter().chain(belief.lines.iter().flatten());
                assert!(
                    numbers
                        .chain([&belief.unlisted])
                        .all(|p| (0.0..=1.0 + 1e-12).contains(p))
                );
                let some: f64 = belief.events.iter().sum::<f64>() + belief.unlisted;
                assert!(
                    some > 0.999,
                    "a cause or the unlisted one must be there: {some}"
                );
            }
        }
        if walk % 50 == 0 {
            assert!(!draw(&state, 80, 24).contains("NaN"));
        }
        while state.job.can_undo() && state.job.stage() != begin.job.stage() {
            let now = state.now;
            commit(&mut state, What::Undo, now, &mut |_| Ok(()));
        }
        assert_eq!(state.job.belief().cloned(), start, "walk {walk}");
    }
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
    for step in 0..200 {
        let Some(prompt) = state.prompt() else {
            break;
        };
        if matches!(state.job.stage(), Stage::NothingLeft) {
            break;
        }
        for (columns, rows) in [(40, 12), (80, 24)] {
            let screen = draw(&state, columns, rows);
            let words: String = screen.replace(['"', '\n'], " ");
            let words: Vec<&str> = words.split_whitespace().collect();
            let ask: Vec<&str> = prompt.ask.split_whitespace().collect();
            assert!(
                words.windows(ask.len()).any(|w| w == ask),
                "{}\n{screen}",
                prompt.ask
            );
            for choice in &prompt.choices {
                assert!(screen.contains(&choice.label), "{}\n{screen}", choice.label);
            }
        }
        match (step, state.typing()) {
            (0, _) => press(&mut state, "3"),
            (1..=4, _) => press(&mut state, "1"),
            (_, true) if prompt.zero.is_none() => press(&mut state, "7\n"),
            (_, true) => press(&mut state, "0\n"),
            (_, false) if prompt.zero.is_none() => press(&mut state, "1"),
            (_, false) => press(&mut state, "0"),
        }
    }
    assert!(
        matches!(state.job.stage(), Stage::NothingLeft),
        "{:?}",
        state.job.stage()
    );
}

proptest::proptest! {
    #![proptest_config(proptest::prelude::ProptestConfig { cases: 100, ..Default::default() })]

    #[test]
    fn any_size_and_any_keys_draw_without_panic(
        columns in 0u16..220, rows in 0u16..70, start in proptest::bool::ANY, keys in "[0-9urwoilhepm/dgf?<~^:\n]{0,60}"
    ) {
        let mut state = console();
        if start {
            intake(&mut state, true);
        }
        send(&mut state, &Event::Resize(columns, rows));
        press(&mut state, &keys);
        let screen = draw(&state, columns, rows);
        proptest::prop_assert!(!screen.contains("NaN"));
        if let Some(belief) = state.job.belief() {
            proptest::prop_assert!(belief.events.iter().all(|p| (0.0..=1.0).contains(p)));
        }
    }
}
