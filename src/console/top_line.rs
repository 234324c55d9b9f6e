//! The top line: which aircraft, which screen, and on the right what must never be out of sight.

use ratatui::text::{Line, Span};

use super::screens::heading;
use super::state::State;
use super::theme::Theme;
use crate::base::text::{pad, truncate, width};
use crate::session::reading::pressure_as_found;

/// Columns that the aircraft and the screen keep for themselves.
const LEFT: usize = 20;

/// Chocks always; then the pressure with side and time, then the evidence, as far as there is room.
pub fn top_line(state: &State, theme: &Theme, columns: usize) -> Line<'static> {
    let (chocks, style) = if state.job.chocked() {
        ("CHOCKS IN", theme.strong)
    } else {
        ("NOT CHOCKED", theme.warning)
    };
    let aircraft = state.job.field("aircraft").unwrap_or_default();
    let mut left = heading(state);
    if !aircraft.is_empty() {
        left = format!("{aircraft}  {left}");
    }
    if let Some(over) = state.alarm() {
        let words = format!("ALARM {} over {}: k  ", over.label, over.ends().clock());
        let words = truncate(&words, columns.saturating_sub(width(chocks)));
        let room = columns.saturating_sub(width(chocks) + width(&words));
        return Line::from(vec![
            Span::styled(pad(&left, room), theme.strong),
            Span::styled(words, theme.warning),
            Span::styled(chocks, style),
        ]);
    }
    let mut facts = String::new();
    let room = columns.saturating_sub(width(chocks));
    for fact in [pressure(state, columns), evidence(state)] {
        let longer = format!("{facts}{fact}  ");
        let keep = if facts.is_empty() { 6 } else { LEFT };
        if width(&longer) + keep <= room {
            facts = longer;
        }
    }
    let keep = room.saturating_sub(width(&facts) + 1);
    // Which aircraft it is goes before which screen: it is never cut for that.
    let left = if keep < width(aircraft) + 6 && !aircraft.is_empty() {
        truncate(aircraft, keep)
    } else {
        truncate(&left, keep)
    };
    let left = pad(&left, room.saturating_sub(width(&facts)));
    Line::from(vec![
        Span::styled(format!("{left}{facts}"), theme.strong),
        Span::styled(chocks, style),
    ])
}

/// Value, side and time; OLD or GONE once it is.
fn pressure(state: &State, columns: usize) -> String {
    let Some(reading) = pressure_as_found(&state.job) else {
        return "no pressure read".to_owned();
    };
    let mark = match reading.mark(state.now) {
        "" => String::new(),
        mark => format!(" {mark}"),
    };
    let clock = reading.at.clock();
    let (side, clock) = if columns < 60 {
        ("gas", clock.trim_end_matches('Z'))
    } else {
        ("gas side", clock.as_str())
    };
    format!("{} {side} {clock}{mark}", reading.value)
}

/// How much of what the first pump start would erase is kept.
fn evidence(state: &State) -> String {
    let (kept, all) = state.job.evidence_kept();
    format!("evidence {kept}/{all} kept")
}
