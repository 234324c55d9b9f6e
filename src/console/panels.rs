//! What stands beside the screen where the window has room.

use super::layout::Room;
use super::page::Page;
use super::screens::{causes, facts, log, ranks, what_if, why};
use super::state::{Screen, State};

/// A panel beside the screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Panel {
    Causes,
    Reasons,
    WhatIf,
    Facts,
    Log,
}

impl Panel {
    /// A heading, where the page has none of its own.
    fn heading(self) -> Option<&'static str> {
        match self {
            Self::Causes | Self::Reasons | Self::WhatIf => None,
            Self::Facts => Some("Aircraft and evidence"),
            Self::Log => Some("Log, newest last"),
        }
    }

    /// Whether the screen itself shows the same.
    fn is_shown(self, screen: Screen) -> bool {
        matches!(
            (self, screen),
            (Self::Reasons | Self::Causes, Screen::Why)
                | (Self::WhatIf, Screen::WhatIf)
                | (Self::Log, Screen::Log)
        )
    }

    fn write(self, page: &mut Page, state: &State, rows: usize) {
        match self {
            Self::Causes => causes::write(page, state, rows),
            Self::Reasons => why::write(page, state),
            Self::WhatIf => what_if::earlier_answers(page, state),
            Self::Facts => facts::write(page, state),
            Self::Log => log::newest(page, state, rows.saturating_sub(page.rows.len())),
        }
    }
}

/// The pages of the columns beside the screen, each of some columns and rows.
pub fn beside(state: &State, room: Room, columns: usize, rows: usize) -> Vec<Page> {
    let ranked = ranks(state);
    let lists: &[&[Panel]] = match (room, ranked) {
        (Room::Two, true) => &[&[Panel::Causes, Panel::Log]],
        (Room::Two, false) => &[&[Panel::Facts, Panel::Log]],
        (Room::Three, true) => &[
            &[Panel::Causes, Panel::Reasons],
            &[Panel::Facts, Panel::WhatIf, Panel::Log],
        ],
        (Room::Three, false) => &[&[Panel::Facts], &[Panel::Log]],
        _ => &[],
    };
    lists
        .iter()
        .map(|panels| stacked(state, panels, columns, rows))
        .collect()
}

/// Panels one below the other; the last takes what is left. Facts stand in for a panel that the
/// screen shows already.
fn stacked(state: &State, panels: &[Panel], columns: usize, rows: usize) -> Page {
    let mut page = Page::new(columns);
    let count = panels.len();
    for (nth, panel) in panels.iter().enumerate() {
        let panel = match (panel.is_shown(state.screen), panels.contains(&Panel::Facts)) {
            (false, _) => *panel,
            (true, false) => Panel::Facts,
            (true, true) => continue,
        };
        if nth > 0 && !page.rows.is_empty() {
            page.rule();
        }
        if let Some(heading) = panel.heading() {
            page.strong(heading);
        }
        let left = rows.saturating_sub(page.rows.len());
        // Each panel leaves its share to those below it.
        let share = if nth + 1 == count {
            left
        } else {
            left * 6 / 10
        };
        let mut part = Page::new(columns);
        panel.write(&mut part, state, share);
        part.rows.truncate(share);
        // A panel beside the screen cannot be marked.
        for row in &mut part.rows {
            row.item = None;
        }
        page.rows.append(&mut part.rows);
    }
    page.rows.truncate(rows);
    page
}
