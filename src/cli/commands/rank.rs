//! `rank TREE`: ranking and next checks without the console.

use std::sync::Arc;

use crate::authoring::desk::Desk;
use crate::authoring::document;
use crate::cli::args::RankArguments;
use crate::cli::{exit, output};
use crate::diagnosis::evidence::Evidence;
use crate::diagnosis::given;
use crate::diagnosis::inference::Inference;
use crate::diagnosis::model::Model;
use crate::diagnosis::situation::Situation;
use crate::report::rank_json::rank_json;
use crate::report::rank_text::rank_text;
use crate::report::ranking::{Outcome, outcome};
use crate::source::{problem, render};

/// Ranks and prints.
pub fn run(arguments: &RankArguments) -> anyhow::Result<u8> {
    let mut desk = Desk::default();
    let found = document::tree(&mut desk, &arguments.tree, arguments.aircraft.as_deref());
    let Some(model) = found else {
        return Ok(complain_of(&mut desk));
    };
    let model = Arc::new(model);
    let typed = evidence(&model, arguments).and_then(|e| Ok((e, situation(&model, arguments)?)));
    let (evidence, situation) = match typed {
        Ok(typed) => typed,
        Err(message) => {
            output::complain(&format!("error: {message}\n"));
            return Ok(exit::COMMAND_LINE);
        }
    };
    let inference = Inference::new(model);
    let outcome = outcome(&inference, &evidence, &situation);
    if arguments.json {
        output::print_json(&rank_json(&inference, &outcome))?;
    } else {
        output::print(&rank_text(&inference, &evidence, &outcome))?;
    }
    Ok(match outcome {
        Outcome::Ranked(_) => exit::FINE,
        Outcome::Contradiction(_) | Outcome::Refused(_) => exit::PROBLEMS,
    })
}

/// Prints why a document could not be used, and gives the exit code.
pub fn complain_of(desk: &mut Desk) -> u8 {
    problem::sort(&mut desk.problems);
    for problem in desk.problems.iter().filter(|problem| problem.is_error()) {
        output::complain(&format!("{}\n\n", render::snippet(problem, &desk.files)));
    }
    if !desk.has_errors() {
        output::complain("error: the tree names no aircraft; add --aircraft\n");
        return exit::COMMAND_LINE;
    }
    output::complain(&format!("{}\n", render::count_line(&desk.problems)));
    if desk.unreadable {
        exit::FILE
    } else {
        exit::PROBLEMS
    }
}

fn evidence(model: &Model, arguments: &RankArguments) -> Result<Evidence, String> {
    let mut evidence = Evidence::report_only(model);
    evidence.report = !arguments.no_report;
    for typed in &arguments.given {
        let (name, word) = halves(typed, "--given")?;
        let told = given::condition(model, name, word).map_err(|e| {
            let known = model.tree.conditions.iter().map(|c| c.id.as_str());
            with_suggestion(&e.to_string(), name, known)
        })?;
        if evidence.known[told.condition].is_some() {
            return Err(format!("condition `{name}` is given twice"));
        }
        evidence.tell(told);
    }
    let mut seen: Vec<usize> = Vec::new();
    for typed in &arguments.answer {
        let (name, word) = halves(typed, "--answer")?;
        let (check, answer) = given::reply(model, name, word).map_err(|e| {
            with_suggestion(
                &e.to_string(),
                name,
                model.checks.iter().map(|c| c.id.as_str()),
            )
        })?;
        if seen.contains(&check) && !model.checks[check].repeatable {
            return Err(format!(
                "check `{name}` is answered twice, and is not repeatable"
            ));
        }
        seen.push(check);
        match answer {
            Some(answer) => evidence.answer(model, check, answer),
            None => evidence.cannot(check),
        }
    }
    Ok(evidence)
}

fn with_suggestion<'a>(message: &str, name: &str, known: impl Iterator<Item = &'a str>) -> String {
    let known: Vec<&str> = known.collect();
    if known.contains(&name) {
        return message.to_owned();
    }
    match crate::base::suggestion::nearest(name, known.iter().copied()) {
        Some(near) => format!("{message}; did you mean `{near}`?"),
        None => format!("{message}; there are: {}", known.join(", ")),
    }
}

pub(super) fn halves<'a>(typed: &'a str, option: &str) -> Result<(&'a str, &'a str), String> {
    let halves = typed
        .split_once('=')
        .map(|(name, word)| (name.trim(), word.trim()));
    halves.ok_or_else(|| format!("`{option} {typed}` has no `=`; write NAME=VALUE"))
}

/// The five usual combinations, as positions of the switches they name.
pub(super) const SHORT_STATES: [(&str, &str); 5] = [
    ("C1", "power=external,pumps=on,battery=connected-on"),
    ("C2", "power=external,pumps=off,battery=connected-on"),
    ("C3", "power=none,pumps=off,battery=connected-on"),
    ("C4", "power=none,pumps=off,battery=connected-off"),
    ("C5", "power=none,pumps=off,battery=disconnected"),
];

fn situation(model: &Model, arguments: &RankArguments) -> Result<Situation, String> {
    let mut situation = Situation::as_found(model);
    let Some(typed) = &arguments.state else {
        return Ok(situation);
    };
    let Some(aircraft) = &model.aircraft else {
        return Err("--state needs an aircraft".to_owned());
    };
    let short = SHORT_STATES
        .iter()
        .find(|(name, _)| name.eq_ignore_ascii_case(typed));
    let positions = short.map_or(typed.as_str(), |(_, positions)| *positions);
    for part in positions.split(',') {
        let (switch, position) = halves(part, "--state")?;
        let setting = aircraft.setting(switch, position).ok_or_else(|| {
            let known: Vec<String> = aircraft
                .switches
                .iter()
                .map(|s| format!("{}={}", s.id, s.positions.join("|")))
                .collect();
            format!(
                "the aircraft has no position `{part}`; there are: {}",
                known.join(", ")
            )
        })?;
        situation.state.0[setting.switch] = setting.position;
    }
    Ok(situation)
}
