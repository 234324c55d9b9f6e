//! An old entry on its way to new words: its own question, what it says, what it takes.

use crate::console::command::row_of;
use crate::console::page::Page;
use crate::console::state::State;
use crate::diagnosis::reading::takes_readings;
use crate::report::log_text::words;
use crate::session::entry::What;
use crate::session::fields::FIELDS;
use crate::session::job::Job;
use crate::session::standing::standing;

/// The entry that the typed words are about to change: its place, and what stands there now.
pub fn target(state: &State) -> Option<(usize, What)> {
    let typed = state.input.strip_prefix(':')?;
    let (word, rest) = typed.split_once(' ')?;
    row_of(&word.to_lowercase()).filter(|row| row.name == "change")?;
    let number: usize = rest.split_whitespace().next()?.parse().ok()?;
    let place = number.checked_sub(1)?;
    let stands = standing(state.job.entries()).entries;
    stands.into_iter().find(|(at, _)| *at == place)
}

/// Writes its question, what it says and what it takes, above the words that are typed.
pub fn write(page: &mut Page, state: &State, place: usize, what: &What) {
    page.strong(&format!(
        "Change entry {}: {}",
        place + 1,
        ask(&state.job, what)
    ));
    page.text(&format!("It says: {}.", words(&state.job, what)));
    let takes = takes(&state.job, what);
    if !takes.is_empty() {
        page.text(&format!("It takes: {}.", takes.join(", ")));
    }
    page.input(&state.input);
    page.text("Later entries are kept; the log shows both. Esc leaves it.");
}

fn ask(job: &Job, what: &What) -> String {
    let model = job.model();
    match what {
        What::Field { field, .. } => FIELDS[*field].ask.to_owned(),
        What::Condition { condition, .. } => model.questions[*condition].ask.clone(),
        What::Answer { check, .. } | What::Cannot { check, .. } => model.checks[*check].ask.clone(),
        What::Note(_) => "a note".to_owned(),
        _ => "it cannot be changed; undo takes it back".to_owned(),
    }
}

/// The words it takes, where there are only so many.
fn takes(job: &Job, what: &What) -> Vec<String> {
    let model = job.model();
    let mut words: Vec<String> = match what {
        What::Condition { condition, .. } if model.questions[*condition].quantity.is_none() => {
            let values = model.tree.conditions[*condition].values.iter();
            values.map(|(word, _)| word.clone()).collect()
        }
        What::Answer { check, .. } | What::Cannot { check, .. } => {
            let about = &model.checks[*check];
            let reading = takes_readings(about).then(|| "a reading with its unit".to_owned());
            about.answers.iter().cloned().chain(reading).collect()
        }
        _ => return Vec::new(),
    };
    words.push("cannot".to_owned());
    words
}
