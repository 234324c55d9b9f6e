//! The one table of keys. Dispatch, the bottom line, the help screen and the README read it.

use super::action::{Action, Move};
use super::event::Key;
use super::screens::ranks;
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
    /// Two words for the bottom line; empty where it does not stand there.
    pub label: &'static str,
    /// Whether the label stays where the bottom line is short of room.
    pub first: bool,
    /// One sentence for help.
    pub help: &'static str,
    /// Whether they work now.
    pub works: fn(&State) -> bool,
}

/// Digits that answer. Even digits are dead, so that a finger one key off changes nothing.
pub const ANSWER_DIGITS: [char; 4] = ['1', '3', '5', '7'];

const fn row(
    (keys, shown): (&'static [Key], &'static str),
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
        first: false,
        help,
        works,
    }
}

/// A row whose label stays.
const fn first(
    keys: (&'static [Key], &'static str),
    action: Action,
    label: &'static str,
    help: &'static str,
    works: fn(&State) -> bool,
) -> Binding {
    Binding {
        first: true,
        ..row(keys, action, label, help, works)
    }
}

use Action as A;
use Key::{Back, Char, Down, End, Enter, Escape, F, Home, PageDown, PageUp, Up};

/// Every key there is. While something is typed, letters and digits belong to the text.
// A row of a table reads better on one line than on six.
#[rustfmt::skip]
pub const BINDINGS: &[Binding] = &[
    row((&[Char('1')], "1"), A::Digit('1'), "", "First answer.", |s| choice(s, '1')),
    row((&[Char('3')], "3"), A::Digit('3'), "", "Second answer.", |s| choice(s, '3')),
    row((&[Char('5')], "5"), A::Digit('5'), "", "Third answer.", |s| choice(s, '5')),
    row((&[Char('7')], "7"), A::Digit('7'), "", "Fourth answer, or the step that takes evidence away.", |s| choice(s, '7')),
    first((&[Char('0')], "0"), A::Digit('0'), "cannot", "It cannot be checked, or is not known.", |s| on_work(s) && s.prompt().is_some_and(|p| p.zero.is_some())),
    row((&[Up], "Up"), A::Move(Move::Up), "", "Mark the line above, or scroll up.", |_| true),
    row((&[Down], "Down"), A::Move(Move::Down), "", "Mark the line below, or scroll down.", |_| true),
    row((&[PageUp], "PgUp"), A::Move(Move::PageUp), "", "One screen up.", |_| true),
    row((&[PageDown], "PgDn"), A::Move(Move::PageDown), "", "One screen down.", |_| true),
    row((&[Home], "Home"), A::Move(Move::First), "", "To the first line.", |_| true),
    row((&[End], "End"), A::Move(Move::Last), "", "To the last line.", |_| true),
    first((&[Enter], "Enter"), A::Accept, "open", "Take what is marked, or what was typed.", |s| free(s) && (s.asks() && s.marked.is_some() || opens(s))),
    first((&[Char('u')], "u"), A::Undo, "undo", "Take back the last entry. Nothing is deleted.", |s| free(s) && s.job.can_undo()),
    row((&[Char('r')], "r"), A::Redo, "redo", "Put back what was taken back.", |s| free(s) && s.job.can_redo()),
    first((&[Char('w'), F(4)], "w"), A::Show(Screen::Why), "why", "Causes, and what speaks for and against each; Enter opens one.", |s| ranks(s) && can_show(s, Screen::Why)),
    first((&[Char('o'), F(3)], "o"), A::Show(Screen::Checks), "other checks", "Every check; Enter makes another one than the proposed one.", |s| ranks(s) && can_show(s, Screen::Checks)),
    row((&[Char('i'), F(5)], "i"), A::Show(Screen::WhatIf), "what if", "What each answer would do, and what another answer would have done.", |s| ranks(s) && can_show(s, Screen::WhatIf)),
    row((&[Char('s'), F(10)], "s"), A::Show(Screen::Schematic), "schematic", "The aircraft drawn: what holds pressure, what is suspect, where it drains.", |s| ranks(s) && can_show(s, Screen::Schematic)),
    row((&[Char('t'), F(11)], "t"), A::Show(Screen::Trend), "trend", "A watched gauge over time; what is typed there is a reading.", |s| ranks(s) && can_show(s, Screen::Trend)),
    row((&[Char('k')], "k"), A::Heard, "alarm heard", "A timer that is over was heard; it ends.", |s| free(s) && s.alarm().is_some()),
    row((&[Char('n')], "n"), A::Sheet, "other sheet", "On the schematic: fluid and gas, or power, signals and linkage.", on_schematic),
    row((&[Char('z')], "z"), A::Zoom, "zoom", "On the schematic: closer, or further away; on the trend: with the empty value.", |s| on_schematic(s) || free(s) && s.screen == Screen::Trend),
    row((&[Char('l'), F(6)], "l"), A::Show(Screen::Log), "log", "Every entry; Enter changes one.", |s| can_show(s, Screen::Log)),
    row((&[Char('h'), F(7)], "h"), A::Show(Screen::HandOver), "hand over", "What the next person has to know; Enter hands over.", |s| can_show(s, Screen::HandOver)),
    row((&[Char('e'), F(8)], "e"), A::Show(Screen::Ends), "end", "The ways to end the job; Enter takes one.", |s| can_show(s, Screen::Ends)),
    row((&[Char('p'), F(9)], "p"), A::Show(Screen::Pause), "pause", "Where you were, what is open, what is old.", |s| can_show(s, Screen::Pause)),
    row((&[Char('m')], "m"), A::Show(Screen::Messages), "", "What was said since the start.", |s| can_show(s, Screen::Messages)),
    row((&[Char('/')], "/"), A::Show(Screen::Search), "search", "Search checks, causes, parts, entries and keys, words in any order.", |s| can_show(s, Screen::Search)),
    row((&[Char(':')], ":"), A::Command, "", "A typed command, such as :note or :change.", |s| s.input.is_empty() && s.screen != Screen::Search),
    row((&[Char('d')], "d"), A::Look, "", "The terminal's colours, day, night, no colour.", free),
    row((&[Char('g')], "g"), A::Lines, "", "Lines and bars in ASCII or box drawing.", free),
    row((&[Char('f')], "f"), A::Focus, "", "The question alone, or with panels beside it where there is room.", free),
    first((&[Escape, Back, F(2)], "Esc"), A::Back, "back", "Back to the question, or clear what is being typed.", |s| s.screen != Screen::Work && free(s) || s.wish_is_open() && free(s)),
    first((&[Char('?'), F(1)], "?"), A::Show(Screen::Help), "help", "The keys.", |s| can_show(s, Screen::Help)),
    row((&[Char('q')], "q"), A::Quit, "quit", "Leave. Control-C leaves from everywhere, Control-Z gives the terminal to the shell.", free),
];

/// Whether letters are free to be keys.
fn free(state: &State) -> bool {
    !state.typing()
}

fn on_work(state: &State) -> bool {
    free(state) && state.screen == Screen::Work
}

fn on_schematic(state: &State) -> bool {
    free(state) && state.screen == Screen::Schematic
}

fn can_show(state: &State, screen: Screen) -> bool {
    free(state) && state.screen != screen
}

fn choice(state: &State, digit: char) -> bool {
    let has = |p: super::prompt::Prompt| p.choices.iter().any(|c| c.digit == digit);
    on_work(state) && state.prompt().is_some_and(has)
}

/// Whether Enter opens something on this screen.
fn opens(state: &State) -> bool {
    matches!(
        state.screen,
        Screen::Why
            | Screen::Schematic
            | Screen::Cause(_)
            | Screen::Checks
            | Screen::Log
            | Screen::Ends
            | Screen::HandOver
    )
}

/// What a key means now.
pub fn resolve(state: &State, key: Key) -> Option<Action> {
    // These two work from everywhere, whatever is being typed.
    match key {
        Key::Control('c') => return Some(Action::Quit),
        Key::Control('z') if cfg!(unix) => return Some(Action::Suspend),
        _ => {}
    }
    let typing = state.typing();
    // Gloves hit Caps Lock: a capital is its small letter unless it is part of a text.
    if let (Key::Typed(c), false) = (key, typing) {
        return resolve(state, Key::Char(c.to_ascii_lowercase()));
    }
    let switched_off = matches!(key, Key::Char(c) if c.is_alphabetic());
    if switched_off && !state.preferences.letters && !typing {
        return None;
    }
    let bound = BINDINGS
        .iter()
        .find(|binding| binding.keys.contains(&key) && (binding.works)(state))
        .map(|binding| binding.action);
    // On the trend a digit begins a reading.
    let begins = |c: char| c.is_ascii_digit() || c == '+';
    if let (Key::Char(c), None, Screen::Trend) = (key, bound, state.screen)
        && (typing || begins(c))
    {
        return Some(Action::Type(c));
    }
    if bound.is_some() || !typing {
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

/// The bottom line: keys that work now, answers first; with fewer labels where room is short.
pub fn footer(state: &State, columns: usize) -> String {
    if state.typing() {
        return while_typing(state, columns);
    }
    let prompt = state.prompt().filter(|_| state.screen == Screen::Work);
    let zero = prompt.as_ref().and_then(|prompt| prompt.zero);
    let digits: Vec<String> = prompt
        .iter()
        .flat_map(|prompt| prompt.choices.iter())
        .map(|choice| choice.digit.to_string())
        .collect();
    let working = BINDINGS
        .iter()
        .filter(|b| !b.label.is_empty() && (b.works)(state));
    let label = |binding: &Binding| match (binding.action, zero) {
        (Action::Digit('0'), Some(zero)) => zero,
        (Action::Accept, _) => match state.screen {
            Screen::Work => "take marked",
            Screen::Log => "change",
            Screen::HandOver => "hand over",
            Screen::Ends => "choose",
            _ => binding.label,
        },
        _ => binding.label,
    };
    let mut parts = Vec::new();
    if !digits.is_empty() {
        parts.push(Part {
            key: digits.join(" "),
            label: "answer",
            first: true,
        });
    }
    parts.extend(working.map(|binding| Part {
        key: binding.shown.to_owned(),
        label: label(binding),
        first: binding.first,
    }));
    fitted(&parts, columns)
}

/// A key of the bottom line with its label.
struct Part<'a> {
    key: String,
    label: &'a str,
    first: bool,
}

/// The parts in one line: labels are left out from the right, those that stay last, until it fits.
fn fitted(parts: &[Part<'_>], columns: usize) -> String {
    let of = |first: bool| {
        (0..parts.len())
            .rev()
            .filter(move |at| parts[*at].first == first)
    };
    let mut bare = vec![false; parts.len()];
    for next in of(false).chain(of(true)).map(Some).chain([None]) {
        let line = joined(parts, &bare);
        if width(&line) <= columns {
            return line;
        }
        if let Some(next) = next {
            bare[next] = true;
        }
    }
    "? help".to_owned()
}

fn joined(parts: &[Part<'_>], bare: &[bool]) -> String {
    let mut line = String::new();
    for (at, part) in parts.iter().enumerate() {
        if at > 0 {
            line.push_str(if bare[at] && bare[at - 1] { " " } else { "  " });
        }
        line.push_str(&part.key);
        if !bare[at] {
            line.push(' ');
            line.push_str(part.label);
        }
    }
    line
}

fn while_typing(state: &State, columns: usize) -> String {
    if state.screen == Screen::Search {
        return "Up Down mark  Enter go there  Esc back  Ctrl-C quit".to_owned();
    }
    if state.screen == Screen::Trend {
        return "Enter keep the reading  Esc leave it  Ctrl-C quit".to_owned();
    }
    let zero = state.prompt().and_then(|prompt| prompt.zero);
    if state.input.starts_with(':') {
        return "Enter do it  Esc leave it  Ctrl-C quit".to_owned();
    }
    let not_known = zero.map_or(String::new(), |zero| format!("  0 Enter {zero}"));
    let keep = "Enter keep";
    let long = format!("{keep}{not_known}  : command (:undo :log :help)  Ctrl-C quit");
    let short = format!("{keep}  :undo  :help  Ctrl-C quit");
    if width(&long) <= columns { long } else { short }
}

/// The rows of the help screen and of the README.
pub fn help_rows() -> Vec<(&'static str, &'static str)> {
    BINDINGS
        .iter()
        .map(|binding| (binding.shown, binding.help))
        .collect()
}
