//! The one table of the bench: a row is a key, a typed word, or both.
//!
//! Dispatch of keys and of typed lines, the bottom line, the help pane, plain mode and the README
//! read it.

use super::state::{Pane, State};
use crate::base::suggestion::nearest;
use crate::base::text::width;
use crate::console::action::Move;
use crate::console::event::Key;

/// What the person wants.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Act {
    /// Let time pass or stop; typed, for a time or until something is seen.
    Run,
    /// One step of time.
    Step,
    /// Faster.
    Faster,
    /// Slower.
    Slower,
    /// A typed speed.
    Speed,
    /// Back to the beginning of the course.
    Start,
    /// Begin another course with everything as it is set.
    Park,
    /// Take back what was set last.
    Undo,
    /// Take all faults out.
    Clear,
    /// Try the checks that move something or take time.
    Try,
    /// Read one thing by its name.
    Read,
    /// Everything, or only what differs from the healthy twin.
    Differ,
    /// Go to a pane, or print it.
    Show(Pane),
    /// Go to the next pane.
    Next,
    /// Go back to the controls.
    Back,
    /// Print readings and account.
    ShowAll,
    /// Mark another line.
    Mark(Move),
    /// Less of what is marked.
    Less,
    /// More of what is marked.
    More,
    /// Take what is marked.
    Take,
    /// Set a control by its name.
    Set,
    /// Put a fault in.
    Fault,
    /// Save the course.
    Save,
    /// Load a course.
    Load,
    /// Start a typed command.
    Command,
    /// The other sheet of the schematic.
    Sheet,
    /// The schematic closer or from further away.
    Zoom,
    /// The next look.
    Look,
    /// The next characters for lines.
    Lines,
    /// Leave.
    Quit,
}

/// One row.
#[derive(Debug)]
pub struct Row {
    /// Keys, the first one is shown; none where it is only typed.
    pub keys: &'static [Key],
    /// How the keys are written.
    pub shown: &'static str,
    /// The typed word; empty where it is only a key.
    pub word: &'static str,
    /// What follows the word.
    pub argument: &'static str,
    /// What it means.
    pub act: Act,
    /// A word or two for the bottom line; empty where it does not stand there.
    pub label: &'static str,
    /// One sentence.
    pub help: &'static str,
}

const fn row(
    (keys, shown): (&'static [Key], &'static str),
    (word, argument): (&'static str, &'static str),
    act: Act,
    label: &'static str,
    help: &'static str,
) -> Row {
    Row {
        keys,
        shown,
        word,
        argument,
        act,
        label,
        help,
    }
}

use Act as A;
use Key::{Back, Char, Down, End, Enter, Escape, F, Home, Left, PageDown, PageUp, Right, Tab, Up};

/// No key.
const NONE: (&[Key], &str) = (&[], "");
/// No typed word.
const MUTE: (&str, &str) = ("", "");

/// Everything there is.
// A row of a table reads better on one line than on six.
#[rustfmt::skip]
pub const ROWS: &[Row] = &[
    row((&[Char(' ')], "Space"), ("run", "TIME"), A::Run, "run/stop", "Let time pass, or stop; typed: for a time such as 8 h, or `until moves`, `until empty`, `until drops`."),
    row((&[Char('.')], "."), ("step", "TIME"), A::Step, "step", "One step of time on; typed with a time, that is the step from now on."),
    row((&[Char('+'), Char('=')], "+"), ("faster", ""), A::Faster, "", "Faster, up to 1000 times real time."),
    row((&[Char('-')], "-"), ("slower", ""), A::Slower, "", "Slower, down to real time."),
    row(NONE, ("speed", "NUMBER"), A::Speed, "", "So many times real time: 1 to 1000."),
    row(NONE, ("set", "THING VALUE"), A::Set, "", "Set a control by its name, such as `set lever set` or `set temperature -15 C`."),
    row(NONE, ("fault", "PART/FAULT SEVERITY"), A::Fault, "", "Put a fault in; 1 is the usual severity, 0 takes it out."),
    row((&[Char('x')], "x"), ("clear", ""), A::Clear, "", "Take all faults out."),
    row((&[Left], "Left"), MUTE, A::Less, "", "Less of what is marked: the position before, a lower figure, a milder fault."),
    row((&[Right], "Right"), MUTE, A::More, "", "More of what is marked: the next position, a higher figure, a worse fault."),
    row((&[Enter], "Enter"), MUTE, A::Take, "change", "Change what is marked: the other position, a typed value, the fault in or out."),
    row((&[Tab], "Tab"), MUTE, A::Next, "pane", "To the next pane."),
    row((&[Char('p')], "p"), ("park", "PRESSURE"), A::Park, "park", "Begin anew: parked with everything as it is set now, the store at this pressure or as before."),
    row((&[Char('b')], "b"), ("start", ""), A::Start, "back", "Back to the beginning of the course; what was set since is taken back."),
    row((&[Char('u')], "u"), ("undo", ""), A::Undo, "undo", "Take back what was set last, and play the rest anew."),
    row((&[Char('t')], "t"), ("try", ""), A::Try, "try", "Try the checks that move something or take time, on a copy; nothing here changes by it."),
    row(NONE, ("read", "NAME"), A::Read, "", "One reading in full, such as `read heard`; where it has to be tried, it is tried on a copy."),
    row((&[Char('v')], "v"), ("differ", ""), A::Differ, "", "Only readings that differ from the healthy twin, or all of them; typed, only those that differ."),
    row((&[Char('1')], "1"), ("controls", ""), A::Show(Pane::Controls), "", "What can be set, and what is set."),
    row((&[Char('2')], "2"), ("faults", "WORDS"), A::Show(Pane::Faults), "", "Every fault of the aircraft; with words, those that hold them."),
    row((&[Char('3')], "3"), ("readings", ""), A::Show(Pane::Readings), "", "Every gauge, light, caption and hand check, beside the healthy twin."),
    row((&[Char('4')], "4"), ("schematic", ""), A::Show(Pane::Schematic), "", "The aircraft drawn: what is under pressure, and where the store drains."),
    row((&[Char('5')], "5"), ("plot", ""), A::Show(Pane::Plot), "", "Pressures over time, of the aircraft and of its twin."),
    row((&[Char('6')], "6"), ("account", ""), A::Show(Pane::Account), "", "Where the fluid is and where it went, and what holds the aircraft."),
    row(NONE, ("show", ""), A::ShowAll, "", "Readings, then the account."),
    row((&[Up], "Up"), MUTE, A::Mark(Move::Up), "", "Mark the line above, or scroll up."),
    row((&[Down], "Down"), MUTE, A::Mark(Move::Down), "", "Mark the line below, or scroll down."),
    row((&[PageUp], "PgUp"), MUTE, A::Mark(Move::PageUp), "", "One screen up."),
    row((&[PageDown], "PgDn"), MUTE, A::Mark(Move::PageDown), "", "One screen down."),
    row((&[Home], "Home"), MUTE, A::Mark(Move::First), "", "To the first line."),
    row((&[End], "End"), MUTE, A::Mark(Move::Last), "", "To the last line."),
    row((&[Char('w')], "w"), ("save", "FILE"), A::Save, "", "Write the course into a file: beginning, everything set since, and how far it was played."),
    row((&[Char('o')], "o"), ("load", "FILE"), A::Load, "", "Read a course from a file and play it; a file with mistakes changes nothing here."),
    row((&[Char('n')], "n"), ("sheet", ""), A::Sheet, "", "The other sheet of the schematic: fluid and gas, or power, signals and linkage."),
    row((&[Char('z')], "z"), ("zoom", ""), A::Zoom, "", "The schematic closer, or from further away."),
    row((&[Char(':')], ":"), MUTE, A::Command, "", "Type a command: the words of this table."),
    row((&[Char('d')], "d"), MUTE, A::Look, "", "The terminal's colours, day, night, no colour."),
    row((&[Char('g')], "g"), ("lines", ""), A::Lines, "", "Lines and plots in ASCII or box drawing."),
    row((&[Char('?'), F(1)], "?"), ("help", ""), A::Show(Pane::Help), "help", "Keys and commands; again, back."),
    row((&[Escape, Back], "Esc"), MUTE, A::Back, "", "Back to the controls; in the faults, first back to all of them."),
    row((&[Char('q')], "q"), ("quit", ""), A::Quit, "quit", "Leave. What was not saved is gone; the bench says so once."),
];

/// What a key means.
pub fn by_key(key: Key) -> Option<Act> {
    let key = match key {
        Key::Typed(c) => Char(c.to_ascii_lowercase()),
        other => other,
    };
    let found = ROWS.iter().find(|row| row.keys.contains(&key));
    found.map(|row| row.act)
}

/// What a typed line means, with what follows its word; the error is for people.
pub fn by_word(line: &str) -> Result<(Act, String), String> {
    let line = line.trim().trim_start_matches(':').trim_start();
    let (word, rest) = line.split_once(char::is_whitespace).unwrap_or((line, ""));
    let lower = word.to_lowercase();
    let mut typed = ROWS.iter().filter(|row| !row.word.is_empty());
    if let Some(row) = typed.clone().find(|row| row.word == lower) {
        return Ok((row.act, rest.trim().to_owned()));
    }
    // A key is understood as a line of its own too.
    let mut letters = lower.chars();
    if let (Some(letter), None) = (letters.next(), letters.next())
        && let Some(row) = typed.find(|row| row.keys.contains(&Char(letter)))
    {
        return Ok((row.act, rest.trim().to_owned()));
    }
    let words = ROWS
        .iter()
        .map(|row| row.word)
        .filter(|word| !word.is_empty());
    let hint = nearest(&lower, words).map_or("help lists them".to_owned(), |near| {
        format!("did you mean {near}?")
    });
    Err(format!("There is no command {word}; {hint}."))
}

/// The rows as help and README write them: key, typed form, sentence.
pub fn help_rows() -> Vec<(&'static str, String, &'static str)> {
    let typed = |row: &Row| format!("{} {}", row.word, row.argument).trim().to_owned();
    ROWS.iter()
        .map(|row| (row.shown, typed(row), row.help))
        .collect()
}

/// The bottom line: labelled keys, as many as fit.
pub fn footer(state: &State, columns: usize) -> String {
    if state.input.is_some() {
        return "Enter do it  Esc leave it  Ctrl-C quit".to_owned();
    }
    let mut line = String::new();
    let labelled = ROWS.iter().filter(|row| !row.label.is_empty());
    let (last, first): (Vec<&Row>, Vec<&Row>) =
        labelled.partition(|row| matches!(row.act, A::Quit | A::Show(_)));
    let tail: Vec<String> = last.iter().map(|row| label(row)).collect();
    let tail = tail.join("  ");
    for row in first {
        let longer = format!("{line}{}  ", label(row));
        if width(&longer) + width(&tail) <= columns {
            line = longer;
        }
    }
    format!("{line}{tail}")
}

fn label(row: &Row) -> String {
    format!("{} {}", row.shown, row.label)
}
