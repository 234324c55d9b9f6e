//! Search over checks, causes, parts, entries and keys: words in any order, case and accents
//! ignored.

use super::action::Action;
use super::keys::BINDINGS;
use super::state::{Screen, State};
use crate::base::text::folded;
use crate::diagnosis::cause::Cause;
use crate::diagnosis::model::Model;
use crate::plant::aircraft::Part;
use crate::report::log_text::log_lines;

/// Where a result leads.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Target {
    /// To this check.
    Check(usize),
    /// To the page of this cause.
    Cause(usize),
    /// To this entry of the log.
    Entry(usize),
    /// To this screen.
    Screen(Screen),
    /// Nowhere: these words say it all.
    Words(String),
}

/// One thing that was found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Found {
    /// What kind of thing it is.
    pub kind: &'static str,
    /// Its words.
    pub words: String,
    /// Where it leads.
    pub target: Target,
}

/// Everything that holds all the words; nothing where none is typed.
pub fn found(state: &State, typed: &str) -> Vec<Found> {
    let wanted = folded(typed);
    let wanted: Vec<&str> = wanted.split_whitespace().collect();
    if wanted.is_empty() {
        return Vec::new();
    }
    let holds = |text: &str| {
        let text = folded(text);
        wanted.iter().all(|word| text.contains(word))
    };
    let mut all = Vec::new();
    for (text, found) in everything(state) {
        if holds(&format!("{} {text}", found.kind)) {
            all.push(found);
        }
    }
    all
}

/// All there is to find, each with the text that is searched.
fn everything(state: &State) -> Vec<(String, Found)> {
    let mut all = Vec::new();
    let mut add = |text: String, kind, words: String, target| {
        all.push((
            text,
            Found {
                kind,
                words,
                target,
            },
        ));
    };
    let model = state.job.model();
    for (place, check) in model.checks.iter().enumerate() {
        let text = format!("{} {} {}", check.id, check.title, check.ask);
        add(text, "check", check.title.clone(), Target::Check(place));
    }
    for (place, cause) in model.causes.iter().enumerate() {
        let looks = cause.looks_like.as_deref().unwrap_or_default();
        let text = format!("{} {} {looks}", cause.id, cause.title);
        add(text, "cause", cause.title.clone(), Target::Cause(place));
    }
    for (words, text, target) in parts(model) {
        add(text, "part", words, target);
    }
    for (place, line) in log_lines(&state.job).into_iter().enumerate() {
        add(line.clone(), "entry", line, Target::Entry(place));
    }
    for binding in BINDINGS {
        let words = format!("{}: {}", binding.shown, binding.help);
        let target = match binding.action {
            Action::Show(screen) => Target::Screen(screen),
            _ => Target::Words(words.clone()),
        };
        add(words.clone(), "key", words, target);
    }
    all
}

/// The parts of the aircraft: title, searched text, and the first cause that is in each.
fn parts(model: &Model) -> Vec<(String, String, Target)> {
    let Some(aircraft) = model.aircraft.as_deref() else {
        return Vec::new();
    };
    let about = |part: &Part| {
        let inside = |cause: &Cause| {
            let role = cause.fault.as_ref().map(|(role, _)| role.as_str());
            role.and_then(|role| aircraft.part_for(role))
                .is_some_and(|found| found.id == part.id)
        };
        let target = model.causes.iter().position(inside).map_or_else(
            || {
                let words = format!("{}: no cause of this tree is in it.", part.title);
                Target::Words(format!("{words} {}", part.kind.doc))
            },
            Target::Cause,
        );
        let text = format!("{} {} {}", part.id, part.title, part.kind.name);
        (part.title.clone(), text, target)
    };
    aircraft.parts.iter().map(about).collect()
}
