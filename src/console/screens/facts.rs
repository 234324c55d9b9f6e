//! What holds the aircraft and what the evidence is, for a panel.

use crate::base::text::pad;
use crate::console::page::{Page, Role};
use crate::console::state::State;
use crate::report::pause_card::pressure;
use crate::session::field::Section;
use crate::session::fields::{FIELDS, of};

/// Columns of a name.
const NAME: usize = 22;

/// Writes chocks, pressure, timers, evidence and what was taken away.
pub fn write(page: &mut Page, state: &State) {
    let job = &state.job;
    if job.chocked() {
        let by = job.field("chocks-by").unwrap_or("not written down");
        page.row(&format!("Chocks IN, seen by: {by}"));
    } else {
        page.row_of(Role::Warning, "NOT CHOCKED");
    }
    page.row(&format!("Pressure: {}", pressure(job, state.now)));
    for timer in job.timers() {
        page.row(&timer.line(state.now));
    }
    for field in of(Section::Evidence).filter(|f| FIELDS[*f].id != "pressure-as-found") {
        let about = &FIELDS[field];
        let value = match (job.field(about.id), job.was_asked(field)) {
            (Some(value), _) => value,
            (None, true) => "not known",
            (None, false) => "STILL TO WRITE DOWN",
        };
        let name = pad(&about.id.replace('-', " "), NAME);
        page.row(&format!("{name} {value}"));
    }
    let gone: Vec<&str> = job.situation().gone.iter().map(|word| word.name).collect();
    if !gone.is_empty() {
        page.text(&format!("Taken away by checks: {}.", gone.join(", ")));
    }
}
