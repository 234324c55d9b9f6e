//! Screens as they are, text and styles, at three sizes. Read the diff before accepting it.

use crate::console_keys::{console, draw, intake, press};
use crate::run::{expect_file, root};
use ratatui::style::{Color, Modifier};
use stillwheel::console::state::State;
use stillwheel::console::theme::{MONO, TERMINAL, Theme};
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
    for (columns, rows) in [(40, 12), (80, 24), (120, 40)] {
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
    press(&mut state, "<l");
    snapshot("log", &state);
    press(&mut state, "<p");
    snapshot("pause", &state);
    press(&mut state, "<e");
    snapshot("ends", &state);
    press(&mut state, "<?");
    snapshot("help", &state);
    press(&mut state, "<:end 5\n");
    snapshot("closing", &state);
}
