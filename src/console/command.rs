//! Typed commands, after a colon. One table feeds parsing and help.

use super::prompt::{clean, end_typed};
use super::state::Screen;
use crate::report::log_text::reword;
use crate::session::entry::What;
use crate::session::job::Job;
use crate::session::watch::gauge_behind;

/// What a typed command wants.
#[derive(Debug, Clone, PartialEq)]
pub enum Command {
    /// Make an entry.
    Enter(What),
    /// Show a screen.
    Show(Screen),
    /// Put this check on the screen.
    Check(usize),
    /// Answer the check on the screen with a reading.
    Read(String),
    /// Keep a reading of a watched gauge.
    Watch(String),
    /// Follow a file, with the gauge it reads; nothing ends that.
    Follow(Option<(String, Option<usize>)>),
    /// Begin a hand-over.
    HandOver,
    /// Search for these words.
    Search(String),
    /// Leave.
    Quit,
}

/// One row of the table.
#[derive(Debug)]
pub struct Row {
    /// The word, and the letter that means the same where nothing is typed.
    pub name: &'static str,
    /// The letter.
    pub letter: Option<char>,
    /// What follows the word.
    pub argument: &'static str,
    /// One sentence.
    pub help: &'static str,
}

const fn row(
    name: &'static str,
    letter: Option<char>,
    argument: &'static str,
    help: &'static str,
) -> Row {
    Row {
        name,
        letter,
        argument,
        help,
    }
}

/// Every typed command.
// A row of a table reads better on one line than on six.
#[rustfmt::skip]
pub const COMMANDS: &[Row] = &[
    row("undo", Some('u'), "", "Take back the last entry. Nothing is deleted."),
    row("redo", Some('r'), "", "Put back what was taken back."),
    row("why", Some('w'), "", "Causes, and what speaks for and against them."),
    row("cause", None, "NUMBER", "One cause by its number: reasons, proof, remedy, source."),
    row("checks", Some('o'), "", "Every check, and which can be made now."),
    row("check", None, "NAME", "Make this check in place of the proposed one."),
    row("read", None, "READING", "Answer the check on the screen with a reading and its unit."),
    row("what-if", Some('i'), "", "What each answer would do, or would have done."),
    row("schematic", Some('s'), "", "Every part as it stands, suspects first, and where the store drains."),
    row("trend", Some('t'), "", "A watched gauge over time, and what its fall rules out."),
    row("watch", None, "TIME READING GAUGE", "Keep a reading of a watched gauge; `new` begins another watch."),
    row("follow", None, "FILE GAUGE", "Take readings that another program writes; `off` ends that."),
    row("log", Some('l'), "", "Every entry with its number."),
    row("change", Some('c'), "NUMBER ANSWER", "Change an old entry; later ones are kept."),
    row("note", Some('a'), "WORDS", "Write words into the log."),
    row("timer", None, "MINUTES WORDS", "Start a timer; it runs on if you leave. `heard` ends those that are over."),
    row("sheet", Some('h'), "", "What the next person has to know."),
    row("hand-over", None, "", "Hand over now: the sheet, then the read-back."),
    row("end", Some('e'), "NUMBER", "Choose how the job ends; without a number, the list."),
    row("search", Some('/'), "WORDS", "Search checks, causes, parts, entries and keys."),
    row("pause", Some('p'), "", "Where you were, what is open."),
    row("messages", Some('m'), "", "What was said since the start."),
    row("help", Some('?'), "", "Keys and commands."),
    row("quit", Some('q'), "", "Leave; nothing is to be saved."),
];

/// The row that a small-letter word or its letter means.
pub fn row_of(word: &str) -> Option<&'static Row> {
    COMMANDS
        .iter()
        .find(|row| row.name == word || row.letter.is_some_and(|letter| word == letter.to_string()))
}

/// Reads a command, with or without its colon; the error is for people.
pub fn parse(job: &Job, line: &str) -> Result<Command, String> {
    let line = clean(line.trim().trim_start_matches(':'));
    let (word, rest) = line.split_once(' ').unwrap_or((&line, ""));
    let rest = rest.trim();
    let lower = word.to_lowercase();
    let Some(found) = row_of(&lower) else {
        let names = COMMANDS.iter().map(|row| row.name);
        let near = crate::base::suggestion::nearest(&lower, names);
        let hint = near.map_or("? lists them".to_owned(), |near| {
            format!("did you mean {near}?")
        });
        return Err(format!("There is no command {word}; {hint}."));
    };
    let need = |what: &str| format!("Write {} {what}.", found.name);
    Ok(match found.name {
        "undo" => Command::Enter(What::Undo),
        "redo" => Command::Enter(What::Redo),
        "why" => Command::Show(Screen::Why),
        "cause" => Command::Show(Screen::Cause(numbered_cause(job, rest)?)),
        "checks" => Command::Show(Screen::Checks),
        "check" => Command::Check(named_check(job, rest)?),
        "read" if rest.is_empty() => {
            return Err(need("and the reading, such as read 76 bar at 4 C"));
        }
        "read" => Command::Read(rest.to_owned()),
        "what-if" => Command::Show(Screen::WhatIf),
        "schematic" => Command::Show(Screen::Schematic),
        "trend" => Command::Show(Screen::Trend),
        "watch" => watch(rest)?,
        "follow" => follow(rest)?,
        "log" => Command::Show(Screen::Log),
        "sheet" => Command::Show(Screen::HandOver),
        "hand-over" => Command::HandOver,
        "search" => Command::Search(rest.to_owned()),
        "pause" => Command::Show(Screen::Pause),
        "messages" => Command::Show(Screen::Messages),
        "help" => Command::Show(Screen::Help),
        "quit" => Command::Quit,
        "note" if rest.is_empty() => return Err(need("and the words")),
        "note" => Command::Enter(What::Note(rest.to_owned())),
        "timer" => Command::Enter(timer(rest)?),
        "end" if rest.is_empty() => Command::Show(Screen::Ends),
        "end" => Command::Enter(end_typed(rest)?),
        _ => {
            let (number, answer) = rest.split_once(' ').ok_or_else(|| need("NUMBER ANSWER"))?;
            let line = number.parse::<usize>().ok().and_then(|n| n.checked_sub(1));
            let line = line.ok_or_else(|| need("with a number from the log"))?;
            let to = Box::new(reword(job, line, answer.trim())?);
            Command::Enter(What::Change { line, to })
        }
    })
}

/// The cause with this number in the present order.
fn numbered_cause(job: &Job, number: &str) -> Result<usize, String> {
    let causes = job.causes();
    let place = number.parse::<usize>().ok().and_then(|n| n.checked_sub(1));
    let row = place.and_then(|place| causes.get(place));
    row.map(|row| row.event)
        .ok_or_else(|| format!("Write cause and a number from 1 to {}.", causes.len()))
}

/// The check with this name; its title will do, in either case.
fn named_check(job: &Job, name: &str) -> Result<usize, String> {
    let checks = &job.model().checks;
    let wanted = name.to_lowercase();
    let found = checks
        .iter()
        .position(|check| check.id == wanted || check.title.to_lowercase() == wanted);
    let names = checks.iter().map(|check| check.id.as_str());
    let near = crate::base::suggestion::nearest(&wanted, names);
    found.ok_or_else(|| match near {
        Some(near) => format!("There is no check {name}; did you mean {near}?"),
        None => format!("There is no check {name}; o lists them."),
    })
}

/// A reading, or `new` for another watch.
fn watch(rest: &str) -> Result<Command, String> {
    match rest {
        "" => Err("Write watch and the reading, such as watch 02:31 184.5 bar.".to_owned()),
        "new" => Ok(Command::Enter(What::NewWatch)),
        words => Ok(Command::Watch(words.to_owned())),
    }
}

/// A file, perhaps with the gauge it reads, or `off`.
fn follow(rest: &str) -> Result<Command, String> {
    match rest {
        "" => Err("Write follow and the file, or follow off.".to_owned()),
        "off" => Ok(Command::Follow(None)),
        words => {
            let (path, gauge) = gauge_behind(words);
            Ok(Command::Follow(Some((path.to_owned(), gauge))))
        }
    }
}

/// `30 leak-down`: minutes and what they are for.
fn timer(rest: &str) -> Result<What, String> {
    if rest == "heard" {
        return Ok(What::Heard);
    }
    let (minutes, label) = rest.split_once(' ').unwrap_or((rest, "timer"));
    let known = minutes
        .parse::<u32>()
        .ok()
        .filter(|m| (1..=6000).contains(m));
    Ok(What::Timer {
        label: label.trim().to_owned(),
        minutes: known.ok_or("Write timer, its minutes from 1 to 6000, and what it is for.")?,
    })
}
