//! The bench as its user works it: by keys, by lines, with time passing as it comes.

use std::time::Duration;

use stillwheel::console::bench::app::Files;
use stillwheel::console::bench::plain;
use stillwheel::console::bench::state::{Pane, State};
use stillwheel::console::bench::table::{Act, ROWS, by_word};
use stillwheel::console::bench::update::{Event, typed, update};
use stillwheel::console::bench::view::view;
use stillwheel::console::event::Key;
use stillwheel::console::plain::Lines;
use stillwheel::plant::course::{Course, HOUR};
use stillwheel::plant::handle::Handle;

use crate::demo_plant::aircraft;
use crate::run::stillwheel_in;

/// The bench with the demo aircraft as it was found.
pub fn bench() -> State {
    State::new(&aircraft(), &Course::default()).unwrap()
}

/// The bench after some typed lines.
pub fn after(lines: &str) -> State {
    let mut state = bench();
    for line in lines.lines() {
        typed(&mut state, line);
    }
    state
}

/// Presses keys: `<` is Escape, `\n` Enter, `{` and `}` the arrows left and right, `^` and `_` up
/// and down, `\t` the tabulator.
pub fn press(state: &mut State, keys: &str) {
    for key in keys.chars() {
        let key = match key {
            '<' => Key::Escape,
            '\n' => Key::Enter,
            '\t' => Key::Tab,
            '{' => Key::Left,
            '}' => Key::Right,
            '^' => Key::Up,
            '_' => Key::Down,
            c if c.is_uppercase() => Key::Typed(c),
            c => Key::Char(c),
        };
        update(state, &Event::Key(key));
    }
}

/// Marks a line of a pane.
fn mark(state: &mut State, place: usize) {
    state.marks[state.pane.place()] = place.saturating_sub(1);
    press(state, if place > 0 { "_" } else { "^" });
}

/// What plain mode prints for some lines; files are not there.
pub fn plain_text(script: &str) -> String {
    let mut state = bench();
    let mut out = Vec::new();
    let mut input = script.as_bytes();
    let mut lines = Lines {
        input: &mut input,
        out: &mut out,
        clock: &|| stillwheel::base::stamp::Stamp::from_seconds(0),
    };
    let mut files = Files {
        save: &mut |_, _, _| Err("there is no file here".to_owned()),
        load: &mut |_| Err(vec!["There is no file here.".to_owned()]),
    };
    plain::run(&mut state, &mut lines, &mut files).unwrap();
    String::from_utf8(out).unwrap()
}

pub fn draw(state: &mut State, columns: u16, rows: u16) -> String {
    update(state, &Event::Resize(columns, rows));
    let backend = ratatui::backend::TestBackend::new(columns, rows);
    let mut terminal = ratatui::Terminal::new(backend).unwrap();
    let theme = state.preferences.look.theme();
    terminal.draw(|frame| view(frame, state, theme)).unwrap();
    terminal.backend().to_string()
}

/// Every pressure of a plant, to the last bit.
fn bits(plant: &Handle) -> Vec<u64> {
    let all = plant.pressures().into_iter();
    all.map(|(_, pressure)| pressure.pascals().to_bits())
        .collect()
}

#[test]
fn the_line_of_the_manual_works_and_says_the_same_twice() {
    let script = "set lever set\nrun 8 h\nshow\n";
    let run = || stillwheel_in(&crate::run::root(), &["bench"], script);
    let (first, second) = (run(), run());
    assert_eq!((first.code, first.err.as_str()), (0, ""));
    assert_eq!(first.out, second.out);
    assert!(
        first.out.contains("At 8 h: gas side 95.3 bar"),
        "{}",
        first.out
    );
    assert!(first.out.contains("Main reservoir, gain over 8 h: 1.80 L"));
    assert!(first.out.contains("It closes within 0.001 cm3."));
    for line in first.out.lines() {
        assert!(line.chars().count() <= 78, "{line}");
        assert!(!line.contains('\u{1b}'));
    }
}

#[test]
fn how_often_somebody_looks_changes_no_digit() {
    let by_lines = after("fault brake-l3/seal-leak\nrun 3 h\nset pumps on\nrun 20 min");
    let mut by_keys = bench();
    typed(&mut by_keys, "fault brake-l3/seal-leak");
    typed(&mut by_keys, "speed 1000");
    // Frames of uneven length, as a busy machine gives them.
    let let_pass = |state: &mut State, to: u64| {
        press(state, " ");
        let mut length = 0;
        while state.play.now() < to {
            length = (length + 37) % 113;
            let left = to - state.play.now();
            let most = left.div_ceil(10);
            update(
                state,
                &Event::Passed(Duration::from_millis(most.min(length))),
            );
        }
        press(state, " ");
        assert_eq!(state.play.now(), to);
    };
    let_pass(&mut by_keys, 3 * HOUR);
    typed(&mut by_keys, "set pumps on");
    let_pass(&mut by_keys, 3 * HOUR + 12_000);
    assert_eq!(by_keys.play.course(), by_lines.play.course());
    assert_eq!(bits(by_keys.play.plant()), bits(by_lines.play.plant()));
    assert_eq!(bits(by_keys.play.twin()), bits(by_lines.play.twin()));
}

#[test]
fn time_follows_the_speed_and_a_busy_machine_plays_slower() {
    let mut state = bench();
    press(&mut state, " ");
    update(&mut state, &Event::Passed(Duration::from_millis(100)));
    assert_eq!(state.play.now(), 60, "6 s at 60 times");
    press(&mut state, "---------");
    assert_eq!(state.speed, 1);
    for _ in 0..10 {
        update(&mut state, &Event::Passed(Duration::from_millis(30)));
    }
    assert_eq!(state.play.now(), 63, "0.3 s more at real time");
    press(&mut state, "+++++++++");
    assert_eq!(state.speed, 1000);
    update(&mut state, &Event::Passed(Duration::from_mins(1)));
    assert_eq!(
        state.play.now(),
        63 + 2500,
        "no more than a quarter of a second counts"
    );
    press(&mut state, " ");
    update(&mut state, &Event::Passed(Duration::from_millis(100)));
    assert_eq!(state.play.now(), 63 + 2500, "it stands while it is stopped");
}

#[test]
fn it_stops_by_itself_as_the_aircraft_moves() {
    let mut state = after("fault latch-switch/open-in-set\npark\nspeed 1000");
    press(&mut state, " ");
    for _ in 0..100 {
        update(&mut state, &Event::Passed(Duration::from_millis(100)));
        if !state.running {
            break;
        }
    }
    assert!(!state.running, "{}", state.message);
    assert!(
        state.message.contains("It moves at 0."),
        "{}",
        state.message
    );
    assert!(draw(&mut state, 80, 24).contains("MOVES"));
}

#[test]
fn every_control_takes_its_own_usual_value_and_steps_both_ways() {
    let state = bench();
    let most = state.play.plant().pump_pressure();
    for control in &state.controls {
        let read = control.read(&control.usual, 0.0, most);
        assert!(read.is_ok(), "{}: {read:?}", control.name);
        assert_eq!(state.value(control), control.usual, "{}", control.name);
    }
    for name in [
        "lever",
        "first-pedals",
        "second-pedals",
        "pumps",
        "main-pump",
        "second-pump",
        "battery",
        "power",
        "valve-breaker",
        "temperature",
        "slope",
        "wind",
        "thrust",
        "wear",
        "precharge",
    ] {
        assert!(state.controls.iter().any(|c| c.name == name), "{name}");
    }
    for place in 0..state.controls.len() {
        let mut state = bench();
        mark(&mut state, place);
        let name = state.controls[place].name.clone();
        press(&mut state, "}");
        let course = state.play.course();
        // Gas is put in with the store empty, and the parking begins anew.
        let list = if name == "precharge" {
            &course.begin
        } else {
            &course.then
        };
        let raised = list.last().cloned();
        assert_eq!(
            raised.map(|done| done.name),
            Some(name.clone()),
            "{}",
            state.message
        );
        press(&mut state, "{");
        let control = &state.controls[place];
        assert_eq!(state.value(control), control.usual, "{name}");
    }
}

#[test]
fn every_fault_goes_in_and_out_by_key_and_the_account_closes() {
    let mut state = bench();
    press(&mut state, "2");
    let all = state.faults.len();
    assert!(all > 60, "{all} faults");
    for place in 0..all {
        mark(&mut state, place);
        press(&mut state, "\n");
        let name = state.faults[place].name.clone();
        assert_eq!(
            state.severity(&name).as_deref(),
            Some("1"),
            "{}",
            state.message
        );
        press(&mut state, "}");
        assert_eq!(state.severity(&name).as_deref(), Some("2"));
        press(&mut state, ".\n");
        assert_eq!(state.severity(&name), None);
    }
    for plant in [state.play.plant(), state.play.twin()] {
        assert!(
            plant.balance().amiss.abs() < 1e-9,
            "{:e}",
            plant.balance().amiss
        );
    }
}

#[test]
fn the_account_closes_whatever_is_done() {
    let lines = "set temperature 35 C, 2 h -15 C, lag 0.5 h\nfault brake-l3/seal-leak 2\n\
        fault left-cable/stretched\nrun 30 min\nset lever released\nrun 10 s\n\
        set second-pedals 100 60\nrun 1 min\nset power external\nset pumps on\nrun 10 min\n\
        set lever set\nset main-pump off\nrun 5 min\nset pumps off\nset second-pedals free\n\
        fault gas-valve/core-loose\nset valve-breaker out\nrun 9 h\nclear\nrun 1 h";
    let state = after(lines);
    assert_eq!(state.play.course().then.len(), 18, "{}", state.message);
    for plant in [state.play.plant(), state.play.twin()] {
        let balance = plant.balance();
        assert!(balance.amiss.abs() < 1e-9, "{balance:?}");
        assert!(plant.moved_fluid() > 1e-3);
    }
}

#[test]
fn the_twin_gets_everything_but_the_faults() {
    let healthy = after("run 1 h\nset wind 10 kt\nrun 1 h");
    assert_eq!(healthy.differences(), 0);
    let state = after("fault brake-l3/seal-leak\nrun 1 h\nset wind 10 kt\nrun 1 h");
    assert!(state.differences() >= 2, "{:?}", state.shown);
    assert_eq!(
        bits(healthy.play.plant()).len(),
        bits(state.play.twin()).len()
    );
    let near = |a: &Handle, b: &Handle| {
        let (a, b) = (a.sample().gas.unwrap(), b.sample().gas.unwrap());
        (a - b).abs() < 0.05e5
    };
    assert!(near(healthy.play.plant(), state.play.twin()));
    assert!(!near(state.play.plant(), state.play.twin()));
    let wet = state.reading("wet").unwrap();
    assert_eq!(
        (wet.found.as_str(), wet.healthy.as_str()),
        ("L3 brake", "dry")
    );
}

#[test]
fn what_was_set_is_taken_back_begun_anew_and_left_behind() {
    let mut state = after("run 10 min\nset slope 2 %\nrun 10 min\nfault brake-l3/seal-leak");
    press(&mut state, "u");
    assert_eq!(state.play.course().faults().len(), 0);
    assert_eq!(state.play.now(), 12_000, "the time stays");
    press(&mut state, "b");
    assert_eq!(state.play.now(), 0);
    let slope = state.controls.iter().find(|c| c.name == "slope").unwrap();
    assert_eq!(state.value(slope), "1 %");
    let mut state =
        after("run 10 min\nset slope 2 %\nfault brake-l3/seal-leak\nrun 1 h\npark 120 bar");
    let course = state.play.course().clone();
    assert_eq!(
        (course.until, course.then.len(), course.begin.len()),
        (0, 0, 2)
    );
    let gas = state.play.plant().sample().gas.unwrap() / 1e5;
    assert!((gas - 121.0).abs() < 0.1, "{gas}");
    press(&mut state, "p");
    assert_eq!(*state.play.course(), course, "parked anew the same way");
}

#[test]
fn the_lever_is_set_with_pedals_and_let_go() {
    let mut state = after("set lever released\nrun 30 s");
    assert!(!state.play.plant().latched());
    assert_eq!(state.play.plant().clamped().0, 0);
    // The lever alone does not catch.
    typed(&mut state, "set lever up");
    assert!(!state.play.plant().latched());
    typed(&mut state, "set lever set");
    assert!(state.play.plant().latched(), "{}", state.message);
    typed(&mut state, "run 10 s");
    assert_eq!(state.play.plant().clamped().0, 8);
    // The other seat does it as well, by its own pedals.
    let state = after(
        "set lever released\nrun 30 s\nset second-pedals down\nrun 2 s\nset lever up\nrun 2 s\n\
         set second-pedals free\nrun 10 s",
    );
    assert!(state.play.plant().latched());
}

#[test]
fn a_lever_that_a_hand_let_down_has_not_dropped() {
    let state = after("set lever released\nrun 1 min");
    assert_eq!(state.play.seen().drops, None);
    assert_eq!(state.reading("park-lever-stays").unwrap().found, "not up");
    let worn = after("fault park-latch/pawl-worn\npark\nrun 1 h");
    let dropped = &worn.reading("park-lever-stays").unwrap().found;
    assert!(dropped.starts_with("drops after 0.7"), "{dropped}");
}

#[test]
fn what_has_its_own_time_waits_for_it() {
    let found = |state: &State, name: &str| state.reading(name).unwrap().found.clone();
    let mut state = after("run 9 min");
    assert_eq!(found(&state, "heard"), "not yet");
    typed(&mut state, "run 1 min");
    assert_eq!(found(&state, "heard"), "nothing");
    assert_eq!(found(&state, "gas-at-30-min-bar"), "not yet");
    typed(&mut state, "run 7 h");
    let early = found(&state, "gas-at-30-min-bar");
    assert!(early.starts_with("186."), "{early}");
    typed(&mut state, "run 1 h");
    assert!(found(&state, "main-reservoir-gain-l").starts_with("1.8"));
    assert_eq!(
        found(&state, "gas-at-30-min-bar"),
        early,
        "it stays what it was"
    );
    // With pumps on nothing waits, and once they stop it begins anew.
    typed(&mut state, "set pumps on");
    typed(&mut state, "run 10 min");
    typed(&mut state, "set pumps off");
    assert_eq!(found(&state, "heard"), "not yet");
}

#[test]
fn back_leads_out_of_a_filter_and_then_to_the_controls() {
    let mut state = after("faults seal leak");
    let listed = state.listed().len();
    assert!(listed > 5 && listed < state.faults.len(), "{listed}");
    press(&mut state, "<");
    assert_eq!(
        (state.pane, state.listed().len()),
        (Pane::Faults, state.faults.len())
    );
    press(&mut state, "<");
    assert_eq!(state.pane, Pane::Controls);
    press(&mut state, "?");
    assert_eq!(state.pane, Pane::Help);
    press(&mut state, "?");
    assert_eq!(state.pane, Pane::Controls);
    // While something is typed, it leaves that.
    press(&mut state, "3:set slope<");
    assert_eq!((state.pane, state.input.as_deref()), (Pane::Readings, None));
}

#[test]
fn what_is_tried_moves_nothing_here() {
    let mut state = after("run 20 min");
    let (before, course) = (bits(state.play.plant()), state.play.course().clone());
    press(&mut state, "t");
    assert_eq!(bits(state.play.plant()), before);
    assert_eq!(*state.play.course(), course);
    let count = state.reading("applications").unwrap();
    assert_eq!(count.found, "10");
    assert_eq!(state.pane, Pane::Readings);
}

#[test]
fn a_key_and_a_word_mean_one_thing() {
    for (at, row) in ROWS.iter().enumerate() {
        assert!(row.help.ends_with('.'), "{}", row.help);
        assert_eq!(row.keys.is_empty(), row.shown.is_empty(), "{}", row.help);
        assert!(!row.keys.is_empty() || !row.word.is_empty());
        for other in &ROWS[at + 1..] {
            let shared = row.keys.iter().any(|key| other.keys.contains(key));
            assert!(!shared, "{} and {}", row.help, other.help);
            assert!(
                row.word.is_empty() || row.word != other.word,
                "{}",
                row.word
            );
        }
        if !row.word.is_empty() {
            assert_eq!(by_word(row.word), Ok((row.act, String::new())));
            assert_eq!(
                by_word(&format!(":{} x", row.word)),
                Ok((row.act, "x".to_owned()))
            );
        }
    }
    assert_eq!(by_word("u"), Ok((Act::Undo, String::new())));
    let said = by_word("schemtic").unwrap_err();
    assert!(said.contains("did you mean schematic?"), "{said}");
}

#[test]
fn the_readme_holds_the_table_of_the_bench() {
    let readme = std::fs::read_to_string(crate::run::root().join("README.md")).unwrap();
    for (key, typed, help) in stillwheel::console::bench::table::help_rows() {
        let line = format!("| {key} | {typed} | {help} |");
        assert!(readme.contains(&line), "{line}");
    }
}

#[test]
fn a_window_of_any_size_is_drawn_and_the_smallest_says_so() {
    let mut state = after("fault brake-l3/seal-leak\nrun 2 h\ntry");
    assert!(draw(&mut state, 20, 5).contains("Too small"));
    for pane in Pane::ALL {
        state.go_to(pane);
        for (columns, rows) in [
            (1, 1),
            (39, 60),
            (40, 12),
            (57, 13),
            (80, 24),
            (120, 30),
            (131, 41),
            (220, 70),
        ] {
            let drawn = draw(&mut state, columns, rows);
            if columns >= 40 {
                assert!(drawn.contains("demo-twin"), "{drawn}");
            }
            press(&mut state, "__^");
        }
    }
}

#[test]
fn a_mistyped_line_changes_nothing_and_says_what_is_wanted() {
    for (line, wanted) in [
        ("set slop 2 %", "did you mean slope?"),
        ("set slope 2", "has no unit"),
        ("set slope 80 %", "-50 % to 50 %"),
        ("set lever sideways", "it has down, up"),
        ("set precharge 1000 bar", "out of range"),
        ("set temperature 200 C", "-70 C to 100 C"),
        ("set temperature 15 C, then warm", "write 35 C, 6 h -15 C"),
        ("set first-pedals hop", "free, down, hard"),
        ("fault brake-l3/seel-leak", "did you mean `seal-leak`?"),
        ("fault brake-l9", "write PART/FAULT"),
        ("fault brake-l3/seal-leak much", "is not a number"),
        ("fault brake-l3/seal-leak 1000", "100 is the most"),
        ("run 8", "write a time such as 8 h"),
        ("run 900 h", "from 0.1 s to 240 h"),
        ("run until tea", "moves, empty, drops"),
        ("speed 2000", "from 1 to 1000"),
        ("park 3000", "has no unit"),
        ("undo", "Nothing was set"),
        ("save", "the name of a file"),
        ("jump", "There is no command jump"),
    ] {
        let mut state = bench();
        typed(&mut state, line);
        assert!(state.message.contains(wanted), "{line}: {}", state.message);
        assert_eq!(*state.play.course(), Course::default(), "{line}");
    }
    let long = after("run 239 h\nrun 2 h");
    assert!(long.message.contains("ten days"), "{}", long.message);
}

#[test]
fn leaving_warns_once_of_a_course_that_was_not_saved() {
    use stillwheel::console::bench::effect::Effect;
    let mut state = after("set slope 2 %\nrun 1 h");
    let quit = Event::Key(Key::Char('q'));
    assert_eq!(update(&mut state, &quit), None);
    assert!(state.message.contains("not saved"), "{}", state.message);
    assert_eq!(update(&mut state, &quit), Some(Effect::Leave));
    let mut looked = bench();
    assert_eq!(update(&mut looked, &quit), Some(Effect::Leave));
}
