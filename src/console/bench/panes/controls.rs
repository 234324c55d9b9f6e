//! What can be set and what is set, then the faults that are in.

use crate::base::text::{pad, width};
use crate::console::bench::state::State;
use crate::console::page::Page;

/// Writes the pane.
pub fn write(page: &mut Page, state: &State) {
    page.strong("Controls");
    page.fix();
    let room = page.columns.saturating_sub(2);
    for (place, control) in state.controls.iter().enumerate() {
        let value = state.value(control);
        let mark = if value == control.usual { ' ' } else { '*' };
        let title = if page.columns < 60 {
            control.title.clone()
        } else {
            let wide = (room / 2).saturating_sub(2).min(34);
            format!("{} {}", pad(&control.title, wide), control.name)
        };
        let left = pad(&title, room.saturating_sub(width(&value) + 3));
        page.item(place, &format!("{mark} {left} {value}"));
    }
    page.blank();
    faults_in(page, state);
    page.blank();
    page.text(
        "* not as the aircraft was found. Enter changes what is marked, Left and Right step it.",
    );
}

/// The faults that are in, with their severity.
fn faults_in(page: &mut Page, state: &State) {
    let faults = state.play.course().faults();
    if faults.is_empty() {
        page.text("No fault is in.");
        return;
    }
    page.strong("Faults that are in");
    for (name, severity) in faults {
        let row = state.faults.iter().find(|row| row.name == name);
        let title = row.map_or(name, |row| row.title.as_str());
        page.hanging(4, &format!("# {title}, severity {severity}"));
    }
}
