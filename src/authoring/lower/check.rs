//! Checks: answers, lines that share them out, what the check needs and takes away.

use super::around::Around;
use super::condition::{SUM_SLACK, shown};
use super::located::Located;
use super::{derived, setting, shows, words};
use crate::authoring::shape::check::{Check as Shape, Line};
use crate::diagnosis::check::{AnswerLine, Check};
use crate::plant::practice::hazard::Hazard;
use crate::plant::state::Needs;
use crate::source::codes::checks as code;
use crate::source::problem::Problem;

/// Answers that have a meaning of their own.
const RESERVED: [&str; 3] = ["yes", "no", "cannot"];
/// Most answers a check may have: one key each, odd digits only.
const MOST_ANSWERS: usize = 4;

/// Lowers one check. Adds what is wrong with it and returns what could be understood.
pub fn lower(
    entry: &Located<'_>,
    shape: Shape,
    around: &Around<'_>,
    problems: &mut Vec<Problem>,
) -> Check {
    let (answers, lines) = answers_and_lines(entry, &shape, around, problems);
    let needs = around.aircraft.map_or_else(Needs::default, |aircraft| {
        let switches = &aircraft.switches;
        setting::needs(entry, &shape.needs, switches, code::UNKNOWN_STATE, problems)
    });
    let access = access(entry, shape.access.as_deref(), around, problems);
    let shows = shows::lower(entry, &shape, &answers, around, problems);
    Check {
        id: entry.key.to_owned(),
        title: shape.title.unwrap_or_else(|| entry.key.replace('-', " ")),
        ask: shape.ask,
        how: shape.how,
        asks: shape.asks,
        answers,
        lines,
        reads: shape.reads,
        shows,
        minutes: shape.minutes.unwrap_or(1.0),
        people: shape.people.unwrap_or(1),
        access,
        tools: shape.tools,
        needs,
        locks: words::locks(&shape.locks),
        needs_evidence: words::evidences(&shape.needs_evidence),
        takes_away: words::evidences(&shape.takes_away),
        hazard: shape
            .hazard
            .as_deref()
            .and_then(Hazard::from_word)
            .unwrap_or(Hazard::Look),
        repeatable: shape.repeatable,
        cautions: words::cautions(&shape.cautions),
        reference: shape.reference,
        limit: shape.limit,
        source: shape.source.or_else(|| around.source.map(str::to_owned)),
    }
}

fn answers_and_lines(
    entry: &Located<'_>,
    shape: &Shape,
    around: &Around<'_>,
    problems: &mut Vec<Problem>,
) -> (Vec<String>, Vec<AnswerLine>) {
    let yes_no = || vec!["yes".to_owned(), "no".to_owned()];
    match (&shape.yes, &shape.answers, &shape.lines) {
        (Some(yes), None, None) => {
            let lines = lines(entry, "yes", yes, 2, around, problems);
            (yes_no(), lines)
        }
        (None, Some(answers), Some(rows)) => {
            check_answers(entry, answers, problems);
            let lines = lines(entry, "lines", rows, answers.len(), around, problems);
            (answers.clone(), lines)
        }
        (None, answers, None) if entry.field("shows").is_some() => {
            if let Some(answers) = answers {
                check_answers(entry, answers, problems);
            }
            let answers = answers.clone().unwrap_or_else(yes_no);
            problems.extend(derived::without_aircraft(entry, around, problems));
            let lines = derived::stand_in(answers.len());
            (answers, lines)
        }
        (None, None, None) if shape.reads.is_some() => {
            let message = format!("`{}` takes a reading and has no lines", entry.key);
            let problem = Problem::new(code::READS_ALONE, entry.place_of("reads"), message);
            problems.push(problem.hint("add `yes:`, or `answers:` with `lines:`"));
            (yes_no(), Vec::new())
        }
        _ => {
            let message = format!(
                "`{}` has neither `yes` alone nor `answers` with `lines`",
                entry.key
            );
            let problem = Problem::new(code::YES_OR_LINES, entry.place(), message);
            problems.push(problem.hint("write `yes:`, or `answers:` together with `lines:`"));
            (yes_no(), Vec::new())
        }
    }
}

fn check_answers(entry: &Located<'_>, answers: &[String], problems: &mut Vec<Problem>) {
    let mut refuse = |item: Option<usize>, message: String| {
        let place = item.map_or_else(
            || entry.place_of("answers"),
            |i| entry.place_of_item("answers", i),
        );
        let problem = Problem::new(code::ANSWERS, place, message);
        problems.push(problem.hint("give two to four different answers, none of them reserved"));
    };
    if !(2..=MOST_ANSWERS).contains(&answers.len()) {
        refuse(
            None,
            format!(
                "a check has two to {MOST_ANSWERS} answers, and this has {}",
                answers.len()
            ),
        );
    }
    for (item, answer) in answers.iter().enumerate() {
        if RESERVED.contains(&answer.as_str()) {
            refuse(Some(item), format!("the answer `{answer}` is reserved"));
        }
        if answers[..item].contains(answer) {
            refuse(
                Some(item),
                format!("the answer `{answer}` stands here a second time"),
            );
        }
    }
}

fn lines(
    entry: &Located<'_>,
    key: &str,
    rows: &[Line],
    answers: usize,
    around: &Around<'_>,
    problems: &mut Vec<Problem>,
) -> Vec<AnswerLine> {
    let mut found = Vec::new();
    let nodes = entry.field(key).map_or(&[][..], |field| field.node.items());
    for (at, (row, node)) in rows.iter().zip(nodes).enumerate() {
        let place = crate::source::place::Place::new(entry.file, node.bytes.clone());
        let line = LineEntry {
            entry,
            node,
            place,
            last: at + 1 == rows.len(),
            yes: key == "yes",
        };
        match line.lower(row, answers, around, problems) {
            Ok(line) => found.push(line),
            Err(problem) => problems.push(problem),
        }
    }
    if rows.is_empty() {
        let message = format!("`{}` has no answer lines", entry.key);
        let problem = Problem::new(code::LINE_FORM, entry.place_of(key), message);
        problems.push(problem.hint("write at least `- {otherwise: 0.5}`"));
    }
    found
}

/// One line while it is read.
struct LineEntry<'a> {
    entry: &'a Located<'a>,
    node: &'a crate::authoring::yaml::Node,
    place: crate::source::place::Place,
    last: bool,
    yes: bool,
}

impl LineEntry<'_> {
    fn lower(
        &self,
        row: &Line,
        answers: usize,
        around: &Around<'_>,
        problems: &mut Vec<Problem>,
    ) -> Result<AnswerLine, Problem> {
        let form = |message: &str| {
            let hint = if self.yes {
                "write `{when: NODE, chance: P}`, and `{otherwise: P}` last"
            } else {
                "write `{when: NODE, shares: [..]}`, and `{otherwise: [..]}` last"
            };
            Problem::new(code::LINE_FORM, self.place.clone(), message).hint(hint)
        };
        let given = match (&row.when, &row.otherwise) {
            (Some(_), Some(_)) => return Err(form("a line has both `when` and `otherwise`")),
            (None, None) => return Err(form("a line has neither `when` nor `otherwise`")),
            (None, Some(_)) if !self.last => return Err(form("`otherwise` is not the last line")),
            (Some(_), None) if self.last => return Err(form("the last line is not `otherwise`")),
            (None, Some(otherwise)) => {
                if row.chance.is_some() || row.shares.is_some() {
                    return Err(form("`otherwise` carries its shares itself"));
                }
                otherwise.0.clone()
            }
            (Some(_), None) => match (self.yes, row.chance, &row.shares) {
                (true, Some(chance), None) => vec![chance],
                (false, None, Some(shares)) => shares.clone(),
                (true, ..) => return Err(form("a line under `yes` takes `chance`")),
                (false, ..) => return Err(form("a line under `lines` takes `shares`")),
            },
        };
        let shares = self.shares(given, answers)?;
        let mut when = Vec::new();
        for (item, text) in row.when.iter().flat_map(|when| when.0.iter().enumerate()) {
            let place = self.when_place(item);
            match around.names.node(text, around.conditions, place) {
                Ok(node) => when.push(node),
                Err(problem) => problems.push(problem),
            }
        }
        Ok(AnswerLine { when, shares })
    }

    fn shares(&self, given: Vec<f64>, answers: usize) -> Result<Vec<f64>, Problem> {
        if self.yes {
            return match given[..] {
                [yes] => Ok(vec![yes, 1.0 - yes]),
                _ => Err(Problem::new(
                    code::LINE_SHARES,
                    self.place.clone(),
                    "a line under `yes` takes one chance",
                )
                .hint("write the chance of yes alone")),
            };
        }
        if given.len() != answers {
            let message = format!("{} shares for {answers} answers", given.len());
            return Err(Problem::new(code::LINE_SHARES, self.place.clone(), message)
                .hint("give one share for each answer, in their order"));
        }
        let sum: f64 = given.iter().sum();
        if (sum - 1.0).abs() > SUM_SLACK {
            let message = format!("the shares add up to {}", shown(sum));
            return Err(Problem::new(code::LINE_SUM, self.place.clone(), message)
                .hint("make them add up to 1"));
        }
        Ok(given.into_iter().map(|share| share / sum).collect())
    }

    fn when_place(&self, item: usize) -> crate::source::place::Place {
        let when = self.node.get("when");
        let node = when.map(|when| when.items().get(item).unwrap_or(when));
        node.map_or_else(
            || self.place.clone(),
            |node| crate::source::place::Place::new(self.entry.file, node.bytes.clone()),
        )
    }
}

fn access(
    entry: &Located<'_>,
    name: Option<&str>,
    around: &Around<'_>,
    problems: &mut Vec<Problem>,
) -> Option<usize> {
    let name = name.filter(|name| *name != "none")?;
    let aircraft = around.aircraft?;
    let found = aircraft
        .accesses
        .iter()
        .position(|access| access.id == name);
    if found.is_none() {
        let mut known: Vec<&str> = aircraft.accesses.iter().map(|a| a.id.as_str()).collect();
        known.push("none");
        let message = format!("the aircraft has no access `{name}`");
        let problem = Problem::new(code::UNKNOWN_ACCESS, entry.place_of("access"), message);
        problems.push(problem.suggest(name, &known));
    }
    found
}
