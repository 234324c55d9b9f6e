//! Everything that can be read, beside the healthy twin.

use crate::base::text::{pad, plural};
use crate::console::bench::readings::Shown;
use crate::console::bench::state::{Pane, State};
use crate::console::page::{Page, Role};

/// Writes the pane: looks first, then what was tried.
pub fn write(page: &mut Page, state: &State) {
    let wide = if page.columns < 60 { 9 } else { 14 };
    let title = page.columns.saturating_sub(2 * wide + 6);
    let heading = plural(state.differences(), "difference");
    let heading = pad(&format!("Readings, {heading}"), title + 4);
    let columns = format!("{} {}", pad("here", wide), pad("healthy", wide));
    page.row_of(Role::Strong, &format!("{heading} {columns}"));
    let rows = rows(state);
    marked(page, state, &rows);
    page.fix();
    let looks = state.shown.iter().filter(|row| wanted(state, row)).count();
    let mut dead = Vec::new();
    for (place, row) in rows.iter().enumerate() {
        if place == looks
            && let Some(when) = state.tried_when()
        {
            page.text(&format!("{when}:"));
        }
        let mark = if row.differs { '*' } else { ' ' };
        let cut = |words: &str| pad(short(words), wide);
        let line = format!(
            "{mark} {} {} {}",
            pad(&row.title, title),
            cut(&row.found),
            cut(&row.healthy)
        );
        page.item(place, line.trim_end());
    }
    if state.tried.is_none() {
        page.text("t tries the checks that move something or take time.");
    }
    dead.extend(state.shown.iter().filter(|row| row.dead));
    if !dead.is_empty() && !state.only_different {
        let titles: Vec<&str> = dead.iter().map(|row| row.title.as_str()).collect();
        page.text(&format!(
            "Not to be read in this state: {}.",
            titles.join("; ")
        ));
    }
}

/// The rows in the order they are listed.
pub fn rows(state: &State) -> Vec<&Shown> {
    let tried = state.tried.iter().flat_map(|tried| &tried.shown);
    let all = state.shown.iter().chain(tried);
    all.filter(|row| wanted(state, row)).collect()
}

fn wanted(state: &State, row: &Shown) -> bool {
    !row.dead && (row.differs || !state.only_different)
}

/// The marked row in full: the columns may have cut it.
fn marked(page: &mut Page, state: &State, rows: &[&Shown]) {
    if state.pane != Pane::Readings {
        return;
    }
    if let Some(row) = rows.get(state.marked()) {
        let healthy = if row.differs {
            format!(" (healthy: {})", row.healthy)
        } else {
            String::new()
        };
        page.text(&format!("{}: {}{healthy}", row.title, row.found));
        page.rule();
    }
}

/// A pressure without its second unit, where columns are few.
fn short(words: &str) -> &str {
    words.split_once(" (").map_or(words, |(first, _)| first)
}
