//! The same job line by line: for pipes, dumb terminals, speech and Braille.
//!
//! One new line an event, no escape byte, no line over 78 columns.

use std::io::{self, BufRead, Write};

use super::effect::Effect;
use super::event::{Event, Key};
use super::keys::{ANSWER_DIGITS, help_rows};
use super::state::State;
use super::update::update;
use crate::base::text::wrap;
use crate::diagnosis::ranking::of_100;
use crate::report::rank_text::why;
use crate::session::job::Stage;
use crate::session::safety::QUESTIONS;

const COLUMNS: usize = 78;

/// Asks until nothing is left, the person leaves, or the input ends.
pub fn run(state: &mut State, input: &mut dyn BufRead, out: &mut dyn Write) -> io::Result<()> {
    say(
        out,
        &format!("{}. {}", state.job.model().title, state.message),
    )?;
    loop {
        prompt(state, out)?;
        if !state.asks() {
            say(out, "u takes back the last answer, q leaves:")?;
        }
        let mut line = String::new();
        if input.read_line(&mut line)? == 0 {
            return say(out, "End of input.");
        }
        for c in line.trim().chars().take(1) {
            match c.to_ascii_lowercase() {
                '?' => help(out)?,
                'w' => causes(state, out, usize::MAX)?,
                c => {
                    let effect = update(state, &Event::Key(Key::Char(c)));
                    say(out, &state.message.clone())?;
                    if effect == Some(Effect::Leave) {
                        return Ok(());
                    }
                }
            }
        }
    }
}

fn say(out: &mut dyn Write, text: &str) -> io::Result<()> {
    for line in wrap(text, COLUMNS) {
        writeln!(out, "{line}")?;
    }
    out.flush()
}

fn prompt(state: &State, out: &mut dyn Write) -> io::Result<()> {
    let job = &state.job;
    let chocks = if job.chocked() {
        "Chocks IN."
    } else {
        "NOT CHOCKED."
    };
    match job.stage() {
        Stage::Safety(item) => {
            say(
                out,
                &format!("SAFETY {} of {}. {chocks}", item + 1, QUESTIONS.len()),
            )?;
            say(out, QUESTIONS[*item].how)?;
            say(out, QUESTIONS[*item].ask)?;
        }
        Stage::Question(proposal) => {
            let check = &job.model().checks[proposal.check];
            causes(state, out, 3)?;
            say(out, &format!("QUESTION. {chocks} {}", check.title))?;
            for caution in &check.cautions {
                say(out, &format!("CAUTION {}", caution.text))?;
            }
            if let Some(how) = &check.how {
                say(out, how)?;
            }
            say(out, &format!("Why: {}.", why(job.model(), proposal)))?;
            say(out, &check.ask)?;
        }
        Stage::RuleMet => {
            causes(state, out, 3)?;
            say(out, "The rule of this tree is met.")?;
        }
        Stage::NothingLeft => {
            causes(state, out, 3)?;
            say(
                out,
                "Nothing is left to ask. Leave it chocked, keep the report open.",
            )?;
        }
        Stage::Contradiction(_) => say(out, "The answers contradict each other.")?,
        Stage::Refused(reason) => say(out, &format!("No ranking: {reason}."))?,
    }
    for (digit, option) in ANSWER_DIGITS.iter().zip(state.options()) {
        writeln!(out, "  {digit} = {}", option.replace('-', " "))?;
    }
    if state.asks() {
        writeln!(out, "  0 = cannot check, or not known")?;
        writeln!(out, "Answer (u undo, r redo, w why, ? help, q quit):")?;
    }
    out.flush()
}

fn causes(state: &State, out: &mut dyn Write, most: usize) -> io::Result<()> {
    let model = state.job.model();
    let rows = state.job.causes();
    let rows = rows.iter().take(most).map(|row| {
        format!(
            "{} {} of 100",
            model.causes[row.event].title,
            of_100(row.probability)
        )
    });
    say(
        out,
        &format!("Likely causes: {}.", rows.collect::<Vec<_>>().join("; ")),
    )
}

fn help(out: &mut dyn Write) -> io::Result<()> {
    for (key, help) in help_rows() {
        say(out, &format!("  {key} = {help}"))?;
    }
    Ok(())
}
