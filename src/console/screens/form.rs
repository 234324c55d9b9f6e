//! The rest of the form that the open question belongs to: what is filled in, what is to come.

use crate::base::text::{pad, truncate};
use crate::console::page::Page;
use crate::console::state::State;
use crate::session::field::Section;
use crate::session::fields::{FIELDS, of};
use crate::session::job::Stage;

/// Columns of a name.
const NAME: usize = 24;

struct Line {
    name: String,
    value: Option<String>,
    open: bool,
}

/// Writes the lines of the form around the open one, as many as there are rows left.
pub fn write(page: &mut Page, state: &State, stage: &Stage, rows: usize) {
    let (title, lines) = match stage {
        Stage::Field(field) => section(state, *field),
        Stage::Condition(condition) => conditions(state, *condition),
        _ => return,
    };
    if rows < page.rows.len() + 4 {
        return;
    }
    page.rule();
    let open = lines.iter().position(|line| line.open).unwrap_or(0);
    page.row(&format!("{title}, {} of {}", open + 1, lines.len()));
    let room = rows - page.rows.len();
    // The open line keeps two filled ones above it where the form is longer than the room.
    let from = open.saturating_sub(2).min(lines.len().saturating_sub(room));
    for line in lines.iter().skip(from).take(room) {
        let value = match (&line.value, line.open) {
            (_, true) => "<- now",
            (Some(value), _) => value,
            (None, _) => "-",
        };
        let name = pad(&line.name, NAME);
        let text = format!("    {name}  {value}");
        page.row(&truncate(&text, page.columns));
    }
}

/// The fields of the section that a field belongs to.
fn section(state: &State, open: usize) -> (&'static str, Vec<Line>) {
    let section: Section = FIELDS[open].section;
    let line = |place: usize| {
        let asked = state.job.was_asked(place);
        let value = state.job.field(FIELDS[place].id).map(str::to_owned);
        Line {
            name: FIELDS[place].id.replace('-', " "),
            value: value.or(asked.then(|| "not known".to_owned())),
            open: place == open,
        }
    };
    (section.title(), of(section).map(line).collect())
}

/// The conditions of the tree, which belong to how it was parked.
fn conditions(state: &State, open: usize) -> (&'static str, Vec<Line>) {
    let conditions = state.job.model().tree.conditions.iter().enumerate();
    let line = |(place, condition): (usize, &crate::tree::fault_tree::Condition)| {
        let value = state.job.condition(place).map(str::to_owned);
        Line {
            name: condition.id.replace('-', " "),
            // They are asked in order, so those above the open one were answered.
            value: value.or((place < open).then(|| "not known".to_owned())),
            open: place == open,
        }
    };
    (Section::Details.title(), conditions.map(line).collect())
}
