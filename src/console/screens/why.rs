//! The causes, and what speaks for and against each.

use super::causes::{HEADING, line};
use crate::console::page::Page;
use crate::console::state::State;
use crate::diagnosis::evidence::Item;
use crate::diagnosis::explain::{Moved, beliefs_without, moved};
use crate::diagnosis::inference::Belief;
use crate::diagnosis::ranking::of_100;
use crate::report::rank_text::item_words;

/// Reasons that move less than this are left out.
pub const WORTH_A_WORD: f64 = 0.005;

/// Writes the screen: every cause can be opened.
pub fn write(page: &mut Page, state: &State) {
    let Some(belief) = state.job.belief() else {
        page.text("The answers contradict each other.");
        return;
    };
    page.strong(HEADING);
    page.text("Two causes can be there at once.");
    let without = beliefs_without(state.job.inference(), state.job.evidence()).unwrap_or_default();
    for (place, row) in state.job.causes().iter().enumerate() {
        let cause = &state.job.model().causes[row.event];
        let title = format!("{:>2} {}", place + 1, cause.title);
        let columns = page.columns.saturating_sub(2);
        let text = line(state, &title, row.probability, Some(row.event), columns);
        page.item(row.event, &text);
        for reason in reasons(state, row.event, belief, &without) {
            page.indented(7, &reason);
        }
        if let Some(looks) = &cause.looks_like {
            page.indented(7, looks);
        }
    }
    let columns = page.columns.saturating_sub(5);
    let unlisted = line(
        state,
        "Cause not in this list",
        belief.unlisted,
        None,
        columns,
    );
    page.row(&format!("     {unlisted}"));
    bystanders(page, state, belief);
}

/// `for: Lever and latch as found: no (9 -> 37)`, strongest first. `without` is what would be
/// believed without each answer.
pub fn reasons(
    state: &State,
    event: usize,
    belief: &Belief,
    without: &[(Item, Belief)],
) -> Vec<String> {
    let job = &state.job;
    let all = moved(event, belief, without);
    let word = |m: &Moved| {
        let side = if m.speaks_for() { "for" } else { "against" };
        let what = item_words(job.inference(), job.evidence(), m.item);
        format!(
            "{side}: {what} ({} -> {})",
            of_100(m.without),
            of_100(m.with)
        )
    };
    let strong = all.iter().filter(|m| m.distance() >= WORTH_A_WORD);
    strong.map(word).collect()
}

/// Events that do not cause the report and colour what checks show.
fn bystanders(page: &mut Page, state: &State, belief: &Belief) {
    use crate::diagnosis::cause::Part;
    use crate::diagnosis::ranking::ranking;
    let model = state.job.model();
    let rows = ranking(model, belief, Part::Bystander);
    if rows.is_empty() {
        return;
    }
    page.strong("Beside the report, without causing it");
    for row in rows {
        let title = format!("   {}", model.causes[row.event].title);
        let columns = page.columns.saturating_sub(2);
        let text = line(state, &title, row.probability, Some(row.event), columns);
        page.item(row.event, &text);
    }
}
