//! The one table of keys. Dispatch, the bottom line, the help screen and the README read it.

use super::action::Action;
use super::event::Key;
use super::state::{Screen, State};
use crate::base::text::width;

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

/// Every key there is. While something is typed, letters and digits belong to the text.
pub const BINDINGS: &[Binding] = &[
    row(
        &[Key::Char('1')],
        "1",
        Action::Digit('1'),
        "",
        "First answer.",
        |s| choice(s, '1'),
    ),
    row(
        &[Key::Char('3')],
        "3",
        Action::Digit('3'),
        "",
        "Second answer.",
        |s| choice(s, '3'),
    ),
    row(
        &[Key::Char('5')],
        "5",
        Action::Digit('5'),
        "",
        "Third answer.",
        |s| choice(s, '5'),
    ),
    row(
        &[Key::Char('7')],
        "7",
        Action::Digit('7'),
        "",
        "Fourth answer, or the step that takes evidence away.",
        |s| choice(s, '7'),
    ),
    row(
        &[Key::Char('0')],
        "0",
        Action::Digit('0'),
        "cannot",
        "It cannot be checked, or is not known.",
        |s| free(s) && s.screen == Screen::Work && s.prompt().is_some_and(|p| p.zero.is_some()),
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
        "",
        "Take the marked answer, or what was typed.",
        |s| free(s) && s.asks(),
    ),
    row(
        &[Key::Char('u')],
        "u",
        Action::Undo,
        "undo",
        "Take back the last entry. Nothing is deleted.",
        |s| free(s) && s.job.can_undo(),
    ),
    row(
        &[Key::Char('r')],
        "r",
        Action::Redo,
        "redo",
        "Put back what was taken back.",
        |s| free(s) && s.job.can_redo(),
    ),
    row(
        &[Key::Char('w')],
        "w",
        Action::Why,
        "why",
        "What speaks for and against each cause.",
        |s| free(s) && s.screen != Screen::Why,
    ),
    row(
        &[Key::Char('l')],
        "l",
        Action::Log,
        "log",
        "Every entry.",
        |s| free(s) && s.screen != Screen::Log,
    ),
    row(
        &[Key::Char('e')],
        "e",
        Action::Ends,
        "end",
        "The ways to end the job; :end NUMBER takes one.",
        |s| free(s) && s.screen != Screen::Ends,
    ),
    row(
        &[Key::Char('p')],
        "p",
        Action::Pause,
        "pause",
        "Where you were, what is open.",
        |s| free(s) && s.screen != Screen::Pause,
    ),
    row(
        &[Key::Char('m')],
        "m",
        Action::Messages,
        "",
        "What was said since the start.",
        |s| free(s) && s.screen != Screen::Messages,
    ),
    row(
        &[Key::Char(':')],
        ":",
        Action::Command,
        "",
        "A typed command, such as :note or :change.",
        |s| s.screen == Screen::Work && s.input.is_empty(),
    ),
    row(
        &[Key::Char('d')],
        "d",
        Action::Look,
        "",
        "The terminal's colours, day, night, no colour.",
        free,
    ),
    row(
        &[Key::Back, Key::Escape],
        "Esc",
        Action::Back,
        "back",
        "Back to the question, or clear what is being typed.",
        |s| s.screen != Screen::Work,
    ),
    row(
        &[Key::Char('?'), Key::F(1)],
        "?",
        Action::Help,
        "help",
        "The keys.",
        |s| free(s) && s.screen != Screen::Help,
    ),
    row(
        &[Key::Char('q')],
        "q",
        Action::Quit,
        "quit",
        "Leave. Control-C leaves from everywhere, Control-Z gives the terminal to the shell.",
        free,
    ),
];

/// Whether letters are free to be keys.
fn free(state: &State) -> bool {
    !state.typing()
}

fn on_work(state: &State) -> bool {
    free(state) && state.screen == Screen::Work
}

fn choice(state: &State, digit: char) -> bool {
    let has = |p: super::prompt::Prompt| p.choices.iter().any(|c| c.digit == digit);
    on_work(state) && state.prompt().is_some_and(has)
}

/// What a key means now.
pub fn resolve(state: &State, key: Key) -> Option<Action> {
    // These two work from everywhere, whatever is being typed.
    match key {
        Key::Control('c') => return Some(Action::Quit),
        Key::Control('z') if cfg!(unix) => return Some(Action::Suspend),
        _ => {}
    }
    // Gloves hit Caps Lock: a capital is its small letter unless it is part of a text.
    if let (Key::Typed(c), false) = (key, state.typing()) {
        return resolve(state, Key::Char(c.to_ascii_lowercase()));
    }
    let bound = BINDINGS
        .iter()
        .find(|binding| binding.keys.contains(&key) && (binding.works)(state))
        .map(|binding| binding.action);
    if bound.is_some() || !state.typing() {
        return bound;
    }
    match key {
        Key::Char(c) | Key::Typed(c) => Some(Action::Type(c)),
        Key::Back => Some(Action::Erase),
        Key::Escape => Some(Action::Clear),
        Key::Enter => Some(Action::Send),
        _ => None,
    }
}

/// The bottom line: keys that work now, answers first; without labels where there is no room.
pub fn footer(state: &State, columns: usize) -> String {
    let prompt = state.prompt().filter(|_| state.screen == Screen::Work);
    let zero = prompt.as_ref().and_then(|prompt| prompt.zero);
    if state.typing() {
        let not_known = zero.map_or(String::new(), |zero| format!("  0 Enter {zero}"));
        let keep = if state.input.starts_with(':') {
            "Enter do it"
        } else {
            "Enter keep"
        };
        let long = format!("{keep}{not_known}  : command (:undo :log :help)  Ctrl-C quit");
        let short = format!("{keep}  :undo  :help  Ctrl-C quit");
        return if width(&long) <= columns { long } else { short };
    }
    let (mut long, mut short) = (Vec::new(), Vec::new());
    if let Some(prompt) = prompt
        && !prompt.choices.is_empty()
    {
        let digits: Vec<String> = prompt.choices.iter().map(|c| c.digit.to_string()).collect();
        long.push(format!("{} answer", digits.join(" ")));
        short.push(digits.join(" "));
    }
    for binding in BINDINGS {
        if binding.label.is_empty() || !(binding.works)(state) {
            continue;
        }
        let label = if binding.shown == "0" {
            zero.unwrap_or(binding.label)
        } else {
            binding.label
        };
        long.push(format!("{} {label}", binding.shown));
        short.push(binding.shown.to_owned());
    }
    let long = long.join("  ");
    if width(&long) <= columns {
        long
    } else {
        format!("{}  (? help)", short.join(" "))
    }
}

/// The rows of the help screen and of the README.
pub fn help_rows() -> Vec<(&'static str, &'static str)> {
    BINDINGS
        .iter()
        .map(|binding| (binding.shown, binding.help))
        .collect()
}
