//! Every fault of the aircraft, with the severity of those that are in.

use crate::base::text::{pad, plural};
use crate::console::bench::state::State;
use crate::console::page::Page;

/// Columns of a severity.
const SEVERITY: usize = 5;

/// Writes the pane.
pub fn write(page: &mut Page, state: &State) {
    let listed = state.listed();
    let heading = if state.filter.is_empty() {
        format!("Faults, {}", plural(listed.len(), "fault"))
    } else {
        let count = plural(listed.len(), "fault");
        format!("Faults with \"{}\", {count}", state.filter)
    };
    page.strong(&heading);
    page.fix();
    for (place, row) in listed.iter().enumerate() {
        let severity = state.severity(&row.name);
        let mark = if severity.is_some() { '#' } else { ' ' };
        let severity = pad(&severity.unwrap_or_default(), SEVERITY);
        let text = if page.columns < 60 {
            format!("{mark} {severity} {}", row.title)
        } else {
            let title = page.columns.saturating_sub(SEVERITY + 5) / 2;
            format!("{mark} {severity} {} {}", pad(&row.title, title), row.name)
        };
        page.item(place, &text);
    }
}
