//! The same job line by line: for pipes, dumb terminals, speech and Braille.
//!
//! One new line an event, no escape byte, no line over 78 columns, SAVED in the line.

use std::io::{self, BufRead, Write};

use super::command::COMMANDS;
use super::commit::{Save, commit};
use super::effect::Effect;
use super::follow::look;
use super::keys::ANSWER_DIGITS;
use super::layout::Room;
use super::page::Role;
use super::prompt::{Pressed, Prompt, digit};
use super::screens;
use super::state::{Screen, State};
use super::update::{press, run as run_command, send};
use crate::base::stamp::Stamp;
use crate::base::text::{width, wrap};
use crate::diagnosis::contradiction::item_name;
use crate::diagnosis::ranking::of_100;
use crate::report::pause_card::pressure;
use crate::session::end_state::END_STATES;
use crate::session::job::Stage;

const COLUMNS: usize = 78;

/// What plain mode reads from and writes to.
pub struct Lines<'a> {
    /// Where lines come from.
    pub input: &'a mut dyn BufRead,
    /// Where lines go.
    pub out: &'a mut dyn Write,
    /// What time it is.
    pub clock: &'a dyn Fn() -> Stamp,
}

impl Lines<'_> {
    /// Writes a text, wrapped; control characters are left out.
    pub fn say(&mut self, text: &str) -> io::Result<()> {
        let visible: String = text.chars().filter(|c| !c.is_control()).collect();
        // What fits is kept as it is, blanks included; only longer texts are wrapped.
        if width(&visible) <= COLUMNS {
            writeln!(self.out, "{}", visible.trim_end())?;
            return self.out.flush();
        }
        for line in wrap(&visible, COLUMNS) {
            writeln!(self.out, "{line}")?;
        }
        self.out.flush()
    }

    /// Reads a line; `None` at the end of the input.
    pub fn read(&mut self) -> io::Result<Option<String>> {
        let mut bytes = Vec::new();
        if self.input.read_until(b'\n', &mut bytes)? == 0 {
            return Ok(None);
        }
        Ok(Some(String::from_utf8_lossy(&bytes).trim().to_owned()))
    }
}

/// Asks until the job is closed, the person leaves, or the input ends.
pub fn run(state: &mut State, lines: &mut Lines<'_>, save: &mut Save<'_>) -> io::Result<()> {
    lines.say(&format!("{}.", state.job.model().title))?;
    for message in &state.messages {
        lines.say(spoken(message))?;
    }
    loop {
        state.now = (lines.clock)();
        ask(state, lines)?;
        let Some(line) = lines.read()? else {
            return lines.say("End of input. What was SAVED is kept; resume goes on with it.");
        };
        let said = state.messages.len();
        state.now = (lines.clock)();
        if state.follow.is_some() {
            look(state, state.now, save);
        }
        let effect = take(state, &line);
        // Lines are typed whole here; what was refused is typed anew.
        state.input.clear();
        let now = (lines.clock)();
        match effect {
            Some(Effect::Leave) => return lines.say("Left. What was SAVED is kept."),
            Some(Effect::Enter(what)) => {
                commit(state, what, now, save);
            }
            Some(Effect::Look) => {
                look(state, now, save);
            }
            Some(Effect::Suspend) | None => {}
        }
        for message in state.messages.split_off(said) {
            lines.say(spoken(&message))?;
            state.messages.push(message);
        }
        show(state, lines)?;
    }
}

/// A message without the time in front of it; the line has it where it matters.
fn spoken(message: &str) -> &str {
    message.split_once(' ').map_or(message, |(_, words)| words)
}

/// What a line means now: a digit, a command, or words for a field.
fn take(state: &mut State, line: &str) -> Option<Effect> {
    if line.is_empty() && !state.typing() {
        return None;
    }
    if state.typing() {
        line.clone_into(&mut state.input);
        return send(state);
    }
    let first = line.chars().next()?;
    if first.is_ascii_digit() {
        let reason = line
            .get(1..)
            .map(str::trim)
            .filter(|reason| !reason.is_empty());
        return match (first, reason) {
            ('0', Some(reason)) => match digit(&state.job, state.wish, '0', Some(reason)) {
                Pressed::Entry(what) => Some(Effect::Enter(what)),
                _ => None,
            },
            (digit, None) => {
                let known = state
                    .prompt()
                    .is_some_and(|p| p.choices.iter().any(|c| c.digit == digit));
                if !known && digit != '0' {
                    state.say(&format!("{digit} does nothing here."));
                }
                press(state, digit)
            }
            _ => {
                state.say("One digit answers; a colon starts a command.");
                None
            }
        };
    }
    run_command(state, line)
}

fn ask(state: &State, lines: &mut Lines<'_>) -> io::Result<()> {
    let job = &state.job;
    for timer in job.timers() {
        lines.say(&timer.line(state.now))?;
    }
    let Some(prompt) = state.prompt() else {
        return stopped(state, lines);
    };
    let chocks = if job.chocked() {
        "Chocks IN."
    } else {
        "NOT CHOCKED."
    };
    lines.say("")?;
    if matches!(
        job.stage(),
        Stage::Question(_) | Stage::RuleMet | Stage::NothingLeft
    ) {
        leading(state, lines)?;
        let pressure = pressure(job, state.now);
        lines.say(&format!(
            "{}. {chocks} Pressure {pressure}. {}",
            prompt.place.to_uppercase(),
            prompt.title
        ))?;
    } else {
        lines.say(&format!("{}. {chocks}", prompt.place.to_uppercase()))?;
    }
    question(&prompt, lines)?;
    if matches!(job.stage(), Stage::RuleMet | Stage::NothingLeft) {
        ends(lines)?;
    }
    let zero = prompt
        .zero
        .map_or(String::new(), |zero| format!("; 0 {zero}"));
    let line = match prompt.typed {
        Some(what) => format!("Type {what}{zero} (:help lists commands):"),
        None => "Answer (u undo, l log, e end, p pause, ? help, q quit):".to_owned(),
    };
    lines.say(&line)
}

fn question(prompt: &Prompt, lines: &mut Lines<'_>) -> io::Result<()> {
    for caution in &prompt.cautions {
        lines.say(&format!("CAUTION {caution}"))?;
    }
    if !prompt.how.is_empty() {
        lines.say(&prompt.how)?;
    }
    if let Some(why) = &prompt.why {
        lines.say(&format!("Why: {why}."))?;
    }
    lines.say(&prompt.ask)?;
    for choice in &prompt.choices {
        lines.say(&format!("  {} = {}", choice.digit, choice.label))?;
    }
    match (prompt.zero, prompt.choices.is_empty()) {
        (Some(zero), false) => lines.say(&format!("  0 = {zero}")),
        _ => Ok(()),
    }
}

/// Nothing is asked: a contradiction, a refusal, or the end.
fn stopped(state: &State, lines: &mut Lines<'_>) -> io::Result<()> {
    let job = &state.job;
    match job.stage() {
        Stage::Contradiction(items) => {
            let names: Vec<String> = items
                .iter()
                .map(|i| item_name(job.inference(), *i))
                .collect();
            lines.say(&format!(
                "These cannot all be true: {}. Look at them again; c NUMBER ANSWER changes one, u takes the last back.",
                names.join(", ")
            ))?;
        }
        Stage::Refused(reason) => lines.say(&format!("No ranking: {reason}."))?,
        Stage::Closed(end) => {
            lines.say(&format!(
                "CLOSED: {}. {}",
                END_STATES[*end].title, END_STATES[*end].text
            ))?;
            lines.say("It releases nothing. `report` writes it up. q leaves.")?;
        }
        _ => {}
    }
    lines.say("Command (u undo, l log, e end, a note, ? help, q quit):")
}

fn leading(state: &State, lines: &mut Lines<'_>) -> io::Result<()> {
    let model = state.job.model();
    let rows = state.job.causes();
    let rows: Vec<String> = rows
        .iter()
        .take(3)
        .map(|row| {
            let title = &model.causes[row.event].title;
            format!("{title} {} of 100", of_100(row.probability))
        })
        .collect();
    if rows.is_empty() {
        return Ok(());
    }
    lines.say(&format!("Likely causes, exact: {}.", rows.join("; ")))
}

fn ends(lines: &mut Lines<'_>) -> io::Result<()> {
    for (place, end) in END_STATES.iter().enumerate() {
        lines.say(&format!("  {} = {}", place + 1, end.title))?;
    }
    Ok(())
}

/// Prints a screen that was asked for and goes back to the question.
fn show(state: &mut State, lines: &mut Lines<'_>) -> io::Result<()> {
    if state.screen == Screen::Work {
        return Ok(());
    }
    if state.screen == Screen::Help {
        for text in help() {
            lines.say(&text)?;
        }
    } else {
        let page = screens::page(state, Room::One, COLUMNS, usize::MAX);
        for row in page.rows.iter().filter(|row| row.role != Role::Rule) {
            lines.say(&row.text)?;
        }
    }
    state.screen = Screen::Work;
    state.input.clear();
    Ok(())
}

fn help() -> Vec<String> {
    let digits: Vec<String> = ANSWER_DIGITS.iter().map(char::to_string).collect();
    let mut rows = vec![
        format!(
            "Digits {} answer, 0 is not known or cannot check (0 and a reason).",
            digits.join(" ")
        ),
        "Commands, by word or letter; with a colon where something is typed:".to_owned(),
    ];
    for row in COMMANDS {
        let letter = row
            .letter
            .map_or(String::new(), |letter| format!("{letter} "));
        rows.push(format!(
            "  {letter}:{} {} = {}",
            row.name, row.argument, row.help
        ));
    }
    rows
}
