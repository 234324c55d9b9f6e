//! Typed commands, after a colon. One table feeds parsing and help.

use super::prompt::{clean, end_typed};
use crate::report::log_text::reword;
use crate::session::entry::What;
use crate::session::job::Job;

/// What a typed command wants.
#[derive(Debug, Clone, PartialEq)]
pub enum Command {
    /// Make an entry.
    Enter(What),
    /// Show the log.
    Log,
    /// Show the causes and their reasons.
    Why,
    /// Show the pause card.
    Pause,
    /// Show the ways to end.
    Ends,
    /// Show what was said since the start.
    Messages,
    /// Show help.
    Help,
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
pub const COMMANDS: &[Row] = &[
    row(
        "undo",
        Some('u'),
        "",
        "Take back the last entry. Nothing is deleted.",
    ),
    row("redo", Some('r'), "", "Put back what was taken back."),
    row("log", Some('l'), "", "Every entry with its number."),
    row(
        "why",
        Some('w'),
        "",
        "Causes, and what speaks for and against them.",
    ),
    row(
        "change",
        Some('c'),
        "NUMBER ANSWER",
        "Change an old entry; later ones are kept.",
    ),
    row("note", Some('a'), "WORDS", "Write words into the log."),
    row(
        "timer",
        Some('t'),
        "MINUTES WORDS",
        "Start a timer; it runs on if you leave.",
    ),
    row(
        "end",
        Some('e'),
        "NUMBER",
        "Choose how the job ends; without a number, the list.",
    ),
    row("pause", Some('p'), "", "Where you were, what is open."),
    row("messages", Some('m'), "", "What was said since the start."),
    row("help", Some('?'), "", "Keys and commands."),
    row("quit", Some('q'), "", "Leave; nothing is to be saved."),
];

/// Reads a command, with or without its colon; the error is for people.
pub fn parse(job: &Job, line: &str) -> Result<Command, String> {
    let line = clean(line.trim().trim_start_matches(':'));
    let (word, rest) = line.split_once(' ').unwrap_or((&line, ""));
    let rest = rest.trim();
    let lower = word.to_lowercase();
    let found = COMMANDS.iter().find(|row| {
        row.name == lower || row.letter.is_some_and(|letter| lower == letter.to_string())
    });
    let Some(found) = found else {
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
        "log" => Command::Log,
        "why" => Command::Why,
        "pause" => Command::Pause,
        "messages" => Command::Messages,
        "help" => Command::Help,
        "quit" => Command::Quit,
        "note" if rest.is_empty() => return Err(need("and the words")),
        "note" => Command::Enter(What::Note(rest.to_owned())),
        "timer" => {
            let (minutes, label) = rest.split_once(' ').unwrap_or((rest, "timer"));
            let minutes = minutes
                .parse::<u32>()
                .ok()
                .filter(|m| (1..=6000).contains(m));
            Command::Enter(What::Timer {
                label: label.trim().to_owned(),
                minutes: minutes
                    .ok_or("Write timer, its minutes from 1 to 6000, and what it is for.")?,
            })
        }
        "end" if rest.is_empty() => Command::Ends,
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
