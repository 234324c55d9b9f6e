//! A ranking as text for people: counts of 100, bars, what speaks for and against, what next.

use std::fmt::Write as _;

use super::hold_text::trimmed;
use super::ranking::{Outcome, Ranking};
use super::trend_text::fall_words;
use crate::base::text::{listed, pad, truncate, width, wrap};
use crate::diagnosis::contradiction::item_name;
use crate::diagnosis::evidence::{Evidence, Item, Reply};
use crate::diagnosis::explain::Moved;
use crate::diagnosis::inference::Inference;
use crate::diagnosis::model::Model;
use crate::diagnosis::next_check::Proposal;
use crate::diagnosis::ranking::{Ranked, of_100};
use crate::diagnosis::stop::Proof;

/// Lines are at most this wide.
const COLUMNS: usize = 78;
/// Columns of a title in the list of causes.
const TITLE: usize = 46;
/// Below this many of 100 no reasons are printed.
const WORTH_A_REASON: f64 = 0.05;
/// A move smaller than this is not worth a word.
const WORTH_A_WORD: f64 = 0.01;

/// The text of a ranking.
pub fn rank_text(inference: &Inference, evidence: &Evidence, outcome: &Outcome) -> String {
    let model = inference.model();
    let mut text = String::new();
    let aircraft = model.aircraft.as_ref();
    let aircraft = aircraft.map_or("no aircraft", |aircraft| aircraft.title.as_str());
    line(&mut text, &format!("{}, on: {aircraft}", model.title));
    for part in wrap(&format!("Report: {}", model.report), COLUMNS) {
        line(&mut text, &part);
    }
    for known in known(model, evidence) {
        line(&mut text, &truncate(&known, COLUMNS));
    }
    line(&mut text, "");
    match outcome {
        Outcome::Ranked(ranking) => body(&mut text, inference, evidence, ranking),
        Outcome::Contradiction(items) => {
            let names: Vec<String> = items
                .iter()
                .map(|item| item_name(inference, *item))
                .collect();
            line(
                &mut text,
                "These cannot all be true; no ranking is possible:",
            );
            for name in names {
                line(&mut text, &format!("  {name}"));
            }
            line(&mut text, "Look at each of them again.");
        }
        Outcome::Refused(certificate) => {
            let reason = certificate.reason().unwrap_or_default();
            line(&mut text, &format!("No ranking: {reason}."));
        }
    }
    text
}

fn line(text: &mut String, line: &str) {
    // Writing to a string cannot fail.
    let _ = writeln!(text, "{}", line.trim_end());
}

/// What is known, one line a fact.
fn known(model: &Model, evidence: &Evidence) -> Vec<String> {
    let mut facts = Vec::new();
    for (place, condition) in model.tree.conditions.iter().enumerate() {
        if evidence.known[place].is_some() {
            let words = condition_words(model, evidence, place);
            facts.push(format!("Known: {} {words}", condition.id));
        }
    }
    for (check, reply) in model.checks.iter().zip(&evidence.replies) {
        match reply {
            Reply::Open => {}
            Reply::Cannot => facts.push(format!("Cannot: {}", check.title)),
            Reply::Answered(answers) => {
                let words: Vec<&str> = answers.iter().map(|a| check.answers[*a].as_str()).collect();
                facts.push(format!(
                    "Answer: {}: {}",
                    check.title,
                    words.join(", then ")
                ));
            }
        }
    }
    facts
}

fn body(text: &mut String, inference: &Inference, evidence: &Evidence, ranking: &Ranking) {
    let model = inference.model();
    line(text, "Likely causes, exact, of 100 jobs like this:");
    for row in &ranking.causes {
        line(
            text,
            &cause_row(&model.causes[row.event].title, row.probability, COLUMNS),
        );
        for reason in reasons(inference, evidence, row, &ranking.moved[row.event]) {
            line(text, &reason);
        }
    }
    line(
        text,
        &cause_row("Cause not in this list", ranking.belief.unlisted, COLUMNS),
    );
    line(
        text,
        "  Two causes can be there at once, so these may add to more than 100.",
    );
    if ranking
        .bystanders
        .iter()
        .any(|row| row.probability >= 0.005)
    {
        line(text, "");
        line(text, "Beside the report, without causing it:");
        for row in &ranking.bystanders {
            line(
                text,
                &cause_row(&model.causes[row.event].title, row.probability, COLUMNS),
            );
        }
    }
    if let Some(check) = ranking.look_again {
        line(text, "");
        let title = &model.checks[check].title;
        line(
            text,
            &format!("The answers do not fit together well. Look again at: {title}."),
        );
    }
    line(text, "");
    for part in wrap(&rule_line(model, ranking), COLUMNS) {
        line(text, &part);
    }
    next(text, model, ranking);
    line(text, "");
    line(
        text,
        "An aid only. The approved maintenance data of the aircraft in hand govern.",
    );
}

/// One row in so many columns: title, count of 100, bar where there is room for it.
pub fn cause_row(title: &str, probability: f64, columns: usize) -> String {
    let bar = "#".repeat(of_100(probability).div_ceil(5) as usize);
    let count = share_words(probability);
    let title_columns = TITLE.min(columns.saturating_sub(6));
    let row = format!("  {} {count:>3}", pad(title, title_columns));
    let with_bar = format!("{row}  {bar}");
    if width(&with_bar) <= columns {
        with_bar
    } else {
        row
    }
}

fn reasons(
    inference: &Inference,
    evidence: &Evidence,
    row: &Ranked,
    moved: &[Moved],
) -> Vec<String> {
    if row.probability < WORTH_A_REASON {
        return Vec::new();
    }
    let words = |speaks_for: bool| -> Vec<String> {
        moved
            .iter()
            .filter(|m| m.speaks_for() == speaks_for && m.distance() >= WORTH_A_WORD)
            .take(2)
            .map(|m| item_words(inference, evidence, m.item))
            .collect()
    };
    let [for_it, against] = [true, false].map(words);
    let mut lines = Vec::new();
    for (word, list) in [("for", for_it), ("against", against)] {
        if !list.is_empty() {
            lines.push(truncate(
                &format!("      {word}: {}", list.join("; ")),
                COLUMNS,
            ));
        }
    }
    lines
}

/// `Lever and latch as found: no`, `supply-used`.
pub fn item_words(inference: &Inference, evidence: &Evidence, item: Item) -> String {
    let model = inference.model();
    match (item, evidence) {
        (Item::Check(check), evidence) => {
            let about = &model.checks[check];
            match &evidence.replies[check] {
                Reply::Answered(answers) => {
                    let last = answers.last().map_or("", |a| about.answers[*a].as_str());
                    format!("{}: {last}", about.title)
                }
                _ => about.title.clone(),
            }
        }
        (Item::Condition(condition), evidence) => {
            let id = model.tree.conditions[condition].id.replace('-', " ");
            format!("{id}: {}", condition_words(model, evidence, condition))
        }
        (Item::Fall, evidence) => evidence
            .fell
            .as_deref()
            .map_or_else(String::new, fall_words),
        (Item::Report, _) => item_name(inference, item),
    }
}

/// What is known of a condition: its values, or the number of a fact in the unit it is asked in.
fn condition_words(model: &Model, evidence: &Evidence, condition: usize) -> String {
    let question = &model.questions[condition];
    let fact = question.fact.and(question.quantity.as_ref());
    if let (Some(scale), Some((from, to))) = (fact, evidence.spans[condition]) {
        let number = |si: f64| trimmed(scale.unit.from_si(si));
        let unit = scale.unit.symbol;
        return if (from - to).abs() < f64::EPSILON {
            format!("{} {unit}", number(from))
        } else {
            format!("{} to {} {unit}", number(from), number(to))
        };
    }
    let weights = evidence.known[condition].iter().flatten();
    let values = model.tree.conditions[condition].values.iter().zip(weights);
    let words = values.filter(|(_, weight)| **weight > 0.0);
    let words: Vec<&str> = words.map(|((word, _), _)| word.as_str()).collect();
    listed(&words, "or")
}

/// What the rule of the tree says now.
pub fn rule_line(model: &Model, ranking: &Ranking) -> String {
    let standing = &ranking.standing;
    let names: Vec<&str> = standing
        .group
        .iter()
        .map(|event| model.causes[*event].title.as_str())
        .collect();
    let share = of_100(standing.share);
    let Some(wanted) = standing.wanted else {
        return format!(
            "{share} in 100 for {}. This tree has no rule for stopping.",
            listed(&names, "or")
        );
    };
    let wanted = of_100(wanted);
    let proof = match standing.proof {
        Proof::NoneNamed => "no confirming check is named".to_owned(),
        Proof::Missing(check) => format!(
            "confirming check still to do: {}",
            model.checks[check].title
        ),
        Proof::Impossible(check) => {
            format!(
                "not confirmed, the check cannot be made: {}",
                model.checks[check].title
            )
        }
        Proof::Stands(check) => format!("confirmed by: {}", model.checks[check].title),
        Proof::Contradicted { cause, check } => {
            format!(
                "{} speaks against {}",
                model.checks[check].title, model.causes[cause].title
            )
        }
    };
    let verdict = if standing.met {
        "The rule is met"
    } else {
        "No part to remove yet"
    };
    format!(
        "{verdict}: {share} in 100 for {}; the rule asks for {wanted} and a proof; {proof}.",
        listed(&names, "or")
    )
}

fn next(text: &mut String, model: &Model, ranking: &Ranking) {
    line(text, "");
    if ranking.next.is_empty() {
        line(text, "No check is left that would tell causes apart.");
        return;
    }
    line(text, "Next check:");
    for (at, proposal) in ranking.next.iter().take(3).enumerate() {
        let check = &model.checks[proposal.check];
        for part in wrap(&format!("{}. {}", at + 1, check.ask), COLUMNS - 2) {
            line(text, &format!("  {part}"));
        }
        for part in wrap(&why(model, proposal), COLUMNS - 5) {
            line(text, &format!("     {part}"));
        }
        for effect in ranking.effects.get(at).into_iter().flatten() {
            let then = effect
                .leader
                .map_or("cannot be".to_owned(), |(event, share)| {
                    format!("{}, {} of 100", model.causes[event].title, of_100(share))
                });
            let answer = &check.answers[effect.answer];
            let words = format!(
                "     if {answer} ({} of 100): {then}",
                of_100(effect.chance)
            );
            line(text, &truncate(&words, COLUMNS));
        }
    }
}

/// Why a check is proposed, in words.
pub fn why(model: &Model, proposal: &Proposal) -> String {
    let check = &model.checks[proposal.check];
    let mut words = vec![
        worth(proposal.gain).to_owned(),
        minutes(proposal.cost.minutes),
        people(check.people),
    ];
    if let Some(aircraft) = &model.aircraft {
        for action in &proposal.cost.way {
            words.push(format!(
                "first {}",
                aircraft.actions[*action].id.replace('-', " ")
            ));
        }
    }
    if proposal.cost.takes_away.is_empty() {
        words.push("takes no evidence away".to_owned());
    } else {
        let gone: Vec<&str> = proposal.cost.takes_away.iter().map(|w| w.name).collect();
        words.push(format!("TAKES AWAY {}", listed(&gone, "and")));
    }
    words.join(", ")
}

/// How many of 100; a chance that is possible is never shown as plainly nothing.
pub fn share_words(chance: f64) -> String {
    match of_100(chance) {
        0 if chance > 0.0 => "<1".to_owned(),
        count => count.to_string(),
    }
}

/// `1 person`, `2 people`.
pub fn people(count: u32) -> String {
    match count {
        1 => "1 person".to_owned(),
        count => format!("{count} people"),
    }
}

/// What a gain means at the aircraft; a check of one bit halves what is still open.
fn worth(gain: f64) -> &'static str {
    match gain {
        g if g >= 0.6 => "about halves the list",
        g if g >= 0.25 => "shortens the list",
        g if g >= 0.05 => "tells a little",
        _ => "tells very little",
    }
}

/// `4 min`, `1 h 12 min`.
pub fn minutes(minutes: f64) -> String {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "minutes of work are small and not negative"
    )]
    let whole = minutes.round() as u64;
    match (whole / 60, whole % 60) {
        (0, minutes) => format!("{minutes} min"),
        (hours, 0) => format!("{hours} h"),
        (hours, minutes) => format!("{hours} h {minutes} min"),
    }
}
