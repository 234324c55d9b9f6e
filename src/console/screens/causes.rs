//! The likely causes, most probable first, with what the last answer did.

use crate::base::text::{pad, width};
use crate::console::page::{Page, Role};
use crate::console::state::State;
use crate::diagnosis::ranking::of_100;
use crate::diagnosis::stop::Proof;
use crate::report::rank_text::share_words;

/// Columns of a title where there is room.
const TITLE: usize = 49;

/// What the numbers of the list are.
pub const HEADING: &str = "Likely causes of 100 jobs like this, +/- by the last entry";
/// Longest bar, and the shortest that still says something.
const BAR: (usize, usize) = (20, 5);

/// As many causes as the page has rows left, and where the search stands against the rule.
pub fn write(page: &mut Page, state: &State, rows: usize) {
    let Some(belief) = state.job.belief() else {
        return;
    };
    let mut status = Page::new(page.columns);
    status.text(&standing(state));
    let room = rows.saturating_sub(page.rows.len() + 2 + status.rows.len());
    page.row_of(Role::Strong, HEADING);
    for row in state.job.causes().iter().take(room) {
        let title = &state.job.model().causes[row.event].title;
        let line = line(
            state,
            title,
            row.probability,
            Some(row.event),
            page.columns - 2,
        );
        page.row(&format!("  {line}"));
    }
    let unlisted = line(
        state,
        "Cause not in this list",
        belief.unlisted,
        None,
        page.columns - 2,
    );
    page.row(&format!("  {unlisted}"));
    page.rows.append(&mut status.rows);
}

/// The leading cause alone.
pub fn leader(page: &mut Page, state: &State) {
    if let Some(first) = state.job.causes().first() {
        let title = &state.job.model().causes[first.event].title;
        page.text(&format!(
            "Top: {title}, {} of 100",
            of_100(first.probability)
        ));
    }
}

/// `Never set        21   +9  #####`: how many of 100, what the last entry moved, and a bar.
///
/// What has no room is left out from the right.
pub fn line(
    state: &State,
    title: &str,
    probability: f64,
    event: Option<usize>,
    columns: usize,
) -> String {
    let shown = share_words(probability);
    let change = match event.map_or(0, |event| state.change(event)) {
        0 => String::new(),
        moved => format!("{moved:+}"),
    };
    // The share and its change stand beside the title at any width; a bar has what is left.
    let title = pad(title, TITLE.min(columns.saturating_sub(9)));
    let line = format!("{title} {shown:>3} {change:>4}");
    let room = columns.saturating_sub(width(&line) + 2).min(BAR.0);
    let length = (of_100(probability) as usize * room).div_ceil(100);
    if room < BAR.1 || length == 0 {
        return line.trim_end().to_owned();
    }
    let bar = state.preferences.lines.glyphs().bar.to_string();
    format!("{line}  {}", bar.repeat(length))
}

/// Where the search stands against the rule, in a sentence.
pub fn standing(state: &State) -> String {
    let Some(standing) = state.job.standing() else {
        return String::new();
    };
    let share = of_100(standing.share);
    let Some(wanted) = standing.wanted.map(of_100) else {
        return format!("{share} of 100 for the first. This tree has no rule for stopping.");
    };
    let title = |check: usize| &state.job.model().checks[check].title;
    let proof = match standing.proof {
        Proof::Stands(_) => "confirmed".to_owned(),
        Proof::Contradicted(check) => format!("{} speaks against it", title(check)),
        Proof::Impossible(check) => format!("not confirmed: {} cannot be made", title(check)),
        Proof::Missing(check) => format!("still to confirm: {}", title(check)),
        Proof::NoneNamed => "no confirming check is named".to_owned(),
    };
    let reached = if share >= wanted {
        "reached"
    } else {
        "not reached"
    };
    format!("First: {share} of 100 (rule {wanted}, {reached}), {proof}.")
}
