//! What speaks for and against each cause.

use ratatui::layout::Rect;
use ratatui::text::Line;

use crate::base::text::wrap;
use crate::console::state::State;
use crate::console::theme::Theme;
use crate::diagnosis::explain::{beliefs_without, moved};
use crate::diagnosis::ranking::of_100;
use crate::report::rank_text::{cause_row, item_words};

/// The lines of the screen.
pub fn lines(state: &State, theme: &Theme, area: Rect) -> Vec<Line<'static>> {
    let job = &state.job;
    let Some(belief) = job.belief() else {
        return vec![Line::styled(
            "The answers contradict each other.",
            theme.caution,
        )];
    };
    let without = beliefs_without(job.inference(), job.evidence()).unwrap_or_default();
    let columns = usize::from(area.width).saturating_sub(6);
    let mut lines = Vec::new();
    for row in job.causes() {
        let cause = &job.model().causes[row.event];
        lines.push(Line::styled(
            cause_row(&cause.title, row.probability, usize::from(area.width)),
            theme.strong,
        ));
        for m in moved(row.event, belief, &without)
            .iter()
            .filter(|m| m.distance() >= 0.005)
        {
            let word = if m.speaks_for() { "for" } else { "against" };
            let what = item_words(job.inference(), job.evidence(), m.item);
            let change = format!("{} -> {}", of_100(m.without), of_100(m.with));
            for part in wrap(&format!("{word}: {what} ({change})"), columns) {
                lines.push(Line::styled(format!("      {part}"), theme.text));
            }
        }
        if let Some(looks) = &cause.looks_like {
            for part in wrap(looks, columns) {
                lines.push(Line::styled(format!("      {part}"), theme.text));
            }
        }
    }
    lines.push(Line::styled(
        cause_row(
            "Cause not in this list",
            belief.unlisted,
            usize::from(area.width),
        ),
        theme.strong,
    ));
    lines
}
