//! The bench as it is drawn, text and styles, at four sizes and in both sets of lines. Read the
//! diff before accepting it.

use ratatui::style::Modifier;
use stillwheel::console::bench::state::{Pane, State};
use stillwheel::console::bench::view::view;
use stillwheel::console::glyphs::Lines;
use stillwheel::console::picture::svg;
use stillwheel::console::theme::{Look, MONO};

use crate::bench::{after, draw};
use crate::run::{expect_file, root};

/// The rod between the pedals is off on one side: the show-piece of the demo.
fn at_rest() -> State {
    after("fault right-cross-rod/detached\npark\nrun 30 min\nset slope 2 %\nrun 5 min")
}

/// Runs of one style: row, columns, style; plain runs are left out.
fn styles(state: &State, columns: u16, rows: u16) -> String {
    let backend = ratatui::backend::TestBackend::new(columns, rows);
    let mut terminal = ratatui::Terminal::new(backend).unwrap();
    terminal.draw(|frame| view(frame, state, &MONO)).unwrap();
    let buffer = terminal.backend().buffer();
    let mut out = String::new();
    for y in 0..rows {
        let mut from = 0;
        for x in 1..=columns {
            let style = |x: u16| buffer[(x, y)].modifier;
            if x < columns && style(x) == style(from) {
                continue;
            }
            if style(from) != Modifier::empty() {
                let end = x - 1;
                out.push_str(&format!(
                    "row {y} columns {from}-{end}: {:?}\n",
                    style(from)
                ));
            }
            from = x;
        }
    }
    out
}

fn snapshot(state: &mut State, name: &str, (columns, rows): (u16, u16)) {
    let lines = state.preferences.lines.word();
    let text = draw(state, columns, rows);
    let text = format!("{text}--- styles, mono\n{}", styles(state, columns, rows));
    let file = format!("tests/screens/bench-{name}-{lines}-{columns}x{rows}.txt");
    expect_file(&root().join(file), &text);
}

#[test]
fn the_panes_are_as_they_were() {
    let mut state = at_rest();
    for lines in [Lines::Ascii, Lines::Box] {
        state.preferences.lines = lines;
        for pane in Pane::ALL {
            let drawn = matches!(pane, Pane::Schematic | Pane::Plot);
            if lines == Lines::Box && !drawn {
                continue;
            }
            state.go_to(pane);
            let name = pane.word().to_lowercase();
            snapshot(&mut state, &name, (40, 12));
            snapshot(&mut state, &name, (80, 24));
        }
        state.go_to(Pane::Plot);
        snapshot(&mut state, "two", (120, 40));
        state.go_to(Pane::Readings);
        snapshot(&mut state, "three", (200, 60));
    }
}

/// The picture of the README is a real run; with `ACCEPT=1` it is drawn anew.
#[test]
fn the_picture_of_the_bench_is_a_real_screen() {
    let mut state = at_rest();
    state.preferences.lines = Lines::Box;
    state.preferences.look = Look::Night;
    state.go_to(Pane::Readings);
    state.size = (200, 60);
    let backend = ratatui::backend::TestBackend::new(200, 60);
    let mut terminal = ratatui::Terminal::new(backend).unwrap();
    let theme = Look::Night.theme();
    terminal.draw(|frame| view(frame, &state, theme)).unwrap();
    let picture = svg(terminal.backend().buffer(), Look::Night);
    assert!(!picture.contains("currentColor"), "every colour is named");
    expect_file(&root().join("demo-data/bench.svg"), &picture);
    let readme = std::fs::read_to_string(root().join("README.md")).unwrap();
    assert!(readme.contains("demo-data/bench.svg"));
}
