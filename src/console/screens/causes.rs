//! The likely causes, most probable first, with what the last answer did.

use crate::base::text::{listed, pad, width};
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
    let all = state.job.causes();
    let mut room = rows.saturating_sub(page.rows.len() + 2 + status.rows.len());
    if all.len() > room {
        room = room.saturating_sub(1);
    }
    page.row_of(Role::Strong, HEADING);
    for row in all.iter().take(room) {
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
    if let Some(next) = all.get(room) {
        let most = share_words(next.probability);
        page.row(&format!(
            "  and {} more, none above {most}: w",
            all.len() - room
        ));
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
            "First: {} of 100, {title}",
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
    let beside = if columns >= TITLE { 9 + BAR.1 + 2 } else { 9 };
    let title = pad(title, TITLE.min(columns.saturating_sub(beside)));
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
    let model = state.job.model();
    let names: Vec<&str> = standing
        .group
        .iter()
        .map(|event| model.causes[*event].title.as_str())
        .collect();
    let share = of_100(standing.share);
    // Why the number is more than that of the first: said where it is so.
    let whose = match names.len() {
        0 | 1 => format!("First {share} of 100"),
        _ => format!(
            "{share} of 100 together for {}, which no check left tells apart",
            listed(&names, "and")
        ),
    };
    let Some(wanted) = standing.wanted.map(of_100) else {
        return format!("{whose}. This tree has no rule for stopping.");
    };
    let reached = if share >= wanted {
        format!("enough ({wanted}) to stop if confirmed")
    } else {
        format!("{wanted} is enough to stop")
    };
    format!("{whose}; {reached}. {}", proof_words(state, standing.proof))
}

/// Where the proof of the leading cause stands, in a sentence.
pub fn proof_words(state: &State, proof: Proof) -> String {
    let model = state.job.model();
    let title = |check: usize| &model.checks[check].title;
    match proof {
        Proof::Stands(check) => format!("Confirmed by: {}.", title(check)),
        Proof::Contradicted { cause, check } => format!(
            "Not confirmed: {} speaks against {}.",
            title(check),
            model.causes[cause].title
        ),
        Proof::Impossible(check) => {
            format!("Not confirmed: {} cannot be made.", title(check))
        }
        Proof::Missing(check) => format!("Still to confirm: {}.", title(check)),
        Proof::NoneNamed => "No confirming check is named.".to_owned(),
    }
}
