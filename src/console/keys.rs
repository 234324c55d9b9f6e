//! The one table of keys. Dispatch, the bottom line, the help screen and the README read it.

use super::action::Action;
use super::event::Key;
use super::state::{Screen, State};

/// One row: keys, what they mean, and when they work.
pub struct Binding {
    /// Keys, the first one is shown.
    pub keys: &'static [Key],
    /// How the keys are written.
    pub shown: &'static str,
    /// What they mean.
    pub action: Action,
    /// Two words for the bottom line.
    pub label: &'static str,
    /// One sentence for help.
    pub help: &'static str,
    /// Whether they work now.
    pub works: fn(&State) -> bool,
}

/// Digits that answer. Even digits are dead, so that a finger one key off changes nothing.
pub const ANSWER_DIGITS: [char; 4] = ['1', '3', '5', '7'];

const fn row(
    keys: &'static [Key],
    shown: &'static str,
    action: Action,
    label: &'static str,
    help: &'static str,
    works: fn(&State) -> bool,
) -> Binding {
    Binding {
        keys,
        shown,
        action,
        label,
        help,
        works,
    }
}

/// Every key there is.
pub const BINDINGS: &[Binding] = &[
    row(
        &[Key::Char('1')],
        "1",
        Action::Answer(0),
        "",
        "First answer.",
        |s| option(s, 0),
    ),
    row(
        &[Key::Char('3')],
        "3",
        Action::Answer(1),
        "",
        "Second answer.",
        |s| option(s, 1),
    ),
    row(
        &[Key::Char('5')],
        "5",
        Action::Answer(2),
        "",
        "Third answer.",
        |s| option(s, 2),
    ),
    row(
        &[Key::Char('7')],
        "7",
        Action::Answer(3),
        "",
        "Fourth answer.",
        |s| option(s, 3),
    ),
    row(
        &[Key::Char('0')],
        "0",
        Action::Cannot,
        "cannot",
        "It cannot be checked, or is not known.",
        State::asks,
    ),
    row(
        &[Key::Up],
        "Up",
        Action::Up,
        "",
        "Mark the answer above, or scroll up.",
        |_| true,
    ),
    row(
        &[Key::Down],
        "Down",
        Action::Down,
        "",
        "Mark the answer below, or scroll down.",
        |_| true,
    ),
    row(
        &[Key::Enter],
        "Enter",
        Action::Accept,
        "take marked",
        "Take the marked answer.",
        State::asks,
    ),
    row(
        &[Key::Char('u')],
        "u",
        Action::Undo,
        "undo",
        "Take back the last answer. Nothing is deleted.",
        |s| s.job.can_undo(),
    ),
    row(
        &[Key::Char('r')],
        "r",
        Action::Redo,
        "redo",
        "Put back what was taken back.",
        |s| s.job.can_redo(),
    ),
    row(
        &[Key::Char('w')],
        "w",
        Action::Why,
        "why",
        "What speaks for and against each cause.",
        |s| s.screen == Screen::Work,
    ),
    row(
        &[Key::Back],
        "Esc",
        Action::Back,
        "back",
        "Back to the question. Backspace does the same.",
        |s| s.screen != Screen::Work,
    ),
    row(
        &[Key::Char('?'), Key::F(1)],
        "?",
        Action::Help,
        "help",
        "The keys.",
        |s| s.screen != Screen::Help,
    ),
    row(
        &[Key::Char('q'), Key::Control('c')],
        "q",
        Action::Quit,
        "quit",
        "Leave.",
        |_| true,
    ),
];

fn option(state: &State, place: usize) -> bool {
    state.screen == Screen::Work && place < state.options().len()
}

/// What a key means now.
pub fn resolve(state: &State, key: Key) -> Option<Action> {
    BINDINGS
        .iter()
        .find(|binding| binding.keys.contains(&key) && (binding.works)(state))
        .map(|binding| binding.action)
}

/// The bottom line: keys that work now, answers first.
pub fn footer(state: &State) -> String {
    let answers: Vec<String> = ANSWER_DIGITS
        .iter()
        .take(if state.screen == Screen::Work {
            state.options().len()
        } else {
            0
        })
        .map(char::to_string)
        .collect();
    let mut parts = Vec::new();
    if !answers.is_empty() {
        parts.push(format!("{} answer", answers.join(" ")));
    }
    for binding in BINDINGS {
        if !binding.label.is_empty() && (binding.works)(state) {
            parts.push(format!("{} {}", binding.shown, binding.label));
        }
    }
    parts.join("  ")
}

/// The rows of the help screen and of the README.
pub fn help_rows() -> Vec<(&'static str, &'static str)> {
    BINDINGS
        .iter()
        .map(|binding| (binding.shown, binding.help))
        .collect()
}
