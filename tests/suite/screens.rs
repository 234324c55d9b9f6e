//! Screens as they are, text and styles, at three sizes. Read the diff before accepting it.

use crate::console_keys::{console, draw, intake, press};
use crate::run::{expect_file, root};
use ratatui::style::{Color, Modifier};
use stillwheel::authoring::embedded;
use stillwheel::console::picture::svg;
use stillwheel::console::start::{JobLine, Report, Start};
use stillwheel::console::state::State;
use stillwheel::console::theme::{Look, MONO, TERMINAL, Theme};
use stillwheel::console::view::view;

/// Runs of one style: row, columns, style; plain runs are left out.
fn styles(state: &State, theme: &Theme, columns: u16, rows: u16) -> String {
    let backend = ratatui::backend::TestBackend::new(columns, rows);
    let mut terminal = ratatui::Terminal::new(backend).unwrap();
    terminal.draw(|frame| view(frame, state, theme)).unwrap();
    let buffer = terminal.backend().buffer().clone();
    let mut out = String::new();
    for y in 0..rows {
        let mut from = 0;
        for x in 1..=columns {
            let style = |x: u16| (buffer[(x, y)].fg, buffer[(x, y)].modifier);
            if x < columns && style(x) == style(from) {
                continue;
            }
            let (colour, modifier) = style(from);
            if colour != Color::Reset || modifier != Modifier::empty() {
                out.push_str(&format!(
                    "row {y} columns {from}-{}: {colour:?} {modifier:?}\n",
                    x - 1
                ));
            }
            from = x;
        }
    }
    out
}

fn snapshot(name: &str, state: &State) {
    for (columns, rows) in [(40, 12), (80, 24), (120, 40), (200, 60)] {
        let mut text = draw(state, columns, rows);
        for (title, theme) in [("mono", &MONO), ("terminal colours", &TERMINAL)] {
            text.push_str(&format!(
                "--- styles, {title}\n{}",
                styles(state, theme, columns, rows)
            ));
        }
        let path = root().join(format!("tests/screens/{name}-{columns}x{rows}.txt"));
        expect_file(&path, &text);
    }
}

#[test]
fn screens_are_as_they_were() {
    let mut state = console();
    snapshot("safety", &state);
    press(&mut state, "31111LT1\n");
    snapshot("field", &state);
    let mut state = console();
    intake(&mut state, true);
    snapshot("question", &state);
    press(&mut state, "30");
    snapshot("question-after", &state);
    press(&mut state, "w");
    snapshot("why", &state);
    press(&mut state, "\n");
    snapshot("cause", &state);
    press(&mut state, "<<o");
    snapshot("checks", &state);
    press(&mut state, "<i");
    snapshot("what-if", &state);
    press(&mut state, "<s");
    snapshot("schematic", &state);
    press(&mut state, "nz");
    snapshot("schematic-signals", &state);
    let mut watched = crate::trend::watching(&crate::trend::three(9.0));
    snapshot("trend", &watched);
    press(&mut watched, "zg");
    snapshot("trend-box", &watched);
    press(&mut state, "</valve\u{301} PARK");
    snapshot("search", &state);
    press(&mut state, "<<<<<<<<<<<<<<h");
    snapshot("hand-over", &state);
    press(&mut state, "<l");
    snapshot("log", &state);
    press(&mut state, "<p");
    snapshot("pause", &state);
    press(&mut state, "<e");
    snapshot("ends", &state);
    press(&mut state, "<?");
    snapshot("help", &state);
    press(&mut state, "g<");
    snapshot("question-box", &state);
    press(&mut state, "g:end 5\n");
    snapshot("closing", &state);
}

#[test]
fn the_start_screen_is_as_it_was() {
    let job = |name: &str, aircraft: &str, about: &str, open| JobLine {
        name: name.to_owned(),
        aircraft: aircraft.to_owned(),
        about: about.to_owned(),
        open,
    };
    let start = Start {
        jobs: vec![
            job(
                "20261125-0231",
                "DEMO-7",
                "REPEAT: 2 jobs on it; 12 entries, last 11-25 02:44",
                true,
            ),
            job(
                "20261124-2310",
                "DEMO-9",
                "3 entries, last 11-24 23:12",
                true,
            ),
            job("20261116-0410", "DEMO-7", "ended as not reproduced", false),
        ],
        reports: embedded::reports()
            .map(|(tree, words)| Report {
                tree: tree.to_owned(),
                words: words.to_owned(),
            })
            .collect(),
        marked: 1,
        ..Start::default()
    };
    for (columns, rows) in [(40, 12), (80, 24)] {
        let backend = ratatui::backend::TestBackend::new(columns, rows);
        let mut terminal = ratatui::Terminal::new(backend).unwrap();
        terminal.draw(|frame| start.view(frame)).unwrap();
        let path = root().join(format!("tests/screens/start-{columns}x{rows}.txt"));
        expect_file(&path, &terminal.backend().to_string());
    }
}

/// The pictures of the README are real screens; with `ACCEPT=1` they are drawn anew.
#[test]
fn the_pictures_of_the_readme_are_real_screens() {
    let mut state = console();
    intake(&mut state, true);
    press(&mut state, "3");
    for (name, look, keys, columns, rows) in [
        ("question", Look::Night, "", 80, 24),
        ("cause", Look::Day, "w\n", 80, 24),
        ("wide", Look::Night, "<<", 120, 40),
        ("schematic", Look::Night, "sg", 120, 40),
    ] {
        press(&mut state, keys);
        picture(name, &state, look, columns, rows);
    }
    let mut watched = crate::trend::watching(&crate::trend::three(9.0));
    press(&mut watched, "g");
    picture("trend", &watched, Look::Night, 120, 40);
}

fn picture(name: &str, state: &State, look: Look, columns: u16, rows: u16) {
    let backend = ratatui::backend::TestBackend::new(columns, rows);
    let mut terminal = ratatui::Terminal::new(backend).unwrap();
    terminal
        .draw(|frame| view(frame, state, look.theme()))
        .unwrap();
    let picture = svg(terminal.backend().buffer(), look);
    assert!(!picture.contains("currentColor"), "every colour is named");
    let path = root().join(format!("demo-data/{name}.svg"));
    expect_file(&path, &picture);
    let readme = std::fs::read_to_string(root().join("README.md")).unwrap();
    assert!(readme.contains(&format!("demo-data/{name}.svg")));
}
