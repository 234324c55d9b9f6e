//! What speaks for and against each cause.

use crate::base::text::wrap;
use crate::console::state::State;
use crate::diagnosis::explain::{beliefs_without, moved};
use crate::diagnosis::ranking::of_100;
use crate::report::rank_text::{cause_row, item_words};

/// The lines of the screen.
pub fn texts(state: &State, columns: usize) -> Vec<String> {
    let job = &state.job;
    let Some(belief) = job.belief() else {
        return vec!["The answers contradict each other.".to_owned()];
    };
    let without = beliefs_without(job.inference(), job.evidence()).unwrap_or_default();
    let mut lines = Vec::new();
    for row in job.causes() {
        let cause = &job.model().causes[row.event];
        lines.push(cause_row(&cause.title, row.probability, columns));
        let mut under = Vec::new();
        for m in moved(row.event, belief, &without)
            .iter()
            .filter(|m| m.distance() >= 0.005)
        {
            let word = if m.speaks_for() { "for" } else { "against" };
            let what = item_words(job.inference(), job.evidence(), m.item);
            under.push(format!(
                "{word}: {what} ({} -> {})",
                of_100(m.without),
                of_100(m.with)
            ));
        }
        under.extend(cause.looks_like.clone());
        if let Some(confirm) = cause.confirm {
            let check = &job.model().checks[confirm.check];
            let answer = check.answers[confirm.answer].replace('-', " ");
            under.push(format!("confirm first: {}: {answer}", check.title));
        }
        if let Some(source) = &cause.source {
            under.push(format!("share from: {source}"));
        }
        for text in under {
            let parts = wrap(&text, columns.saturating_sub(6));
            lines.extend(parts.iter().map(|part| format!("      {part}")));
        }
    }
    lines.push(cause_row(
        "Cause not in this list",
        belief.unlisted,
        columns,
    ));
    lines
}
