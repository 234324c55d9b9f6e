//! Answer lines worked out from the plant, as text that can stand in a tree.

use serde_json::{Value, json};

use crate::diagnosis::derivation::{Derived, DerivedLine, FALSE_ALARM, MISSED};
use crate::diagnosis::model::Model;

/// The lines as YAML, each with its reading behind it.
pub fn derived_text(model: &Model, derived: &[Derived]) -> String {
    let mut text = format!(
        "# Worked out from the plant; {MISSED} missed and {FALSE_ALARM} false alarms are judgement.\n"
    );
    for one in derived {
        let check = &model.checks[one.check];
        let yes = is_yes_no(&check.answers);
        let key = if yes { "yes" } else { "lines" };
        text.push_str(&format!("  {}:\n    {key}:\n", check.id));
        for line in &one.lines {
            text.push_str(&format!("      - {}\n", row(model, line, yes)));
        }
        let (reading, shares) = &one.otherwise;
        let shares = numbers(shares, yes);
        text.push_str(&format!(
            "      - {{otherwise: {shares}}}  # healthy reads {reading}\n"
        ));
        for (events, reading) in &one.silent {
            let names = match names(model, events).join(" with ") {
                names if names.is_empty() => "a healthy aircraft".to_owned(),
                names => names,
            };
            text.push_str(&format!("    # no answer for {names}: {reading}\n"));
        }
    }
    text
}

/// The same for other programs.
pub fn derived_json(model: &Model, derived: &[Derived]) -> Value {
    let line = |line: &DerivedLine| json!({"when": names(model, &line.when), "reading": line.reading, "shares": line.shares});
    let one = |one: &Derived| {
        let lines: Vec<Value> = one.lines.iter().map(line).collect();
        let silent: Vec<Value> = one
            .silent
            .iter()
            .map(|(events, reading)| json!({"when": names(model, events), "reading": reading}))
            .collect();
        json!({
            "check": model.checks[one.check].id,
            "answers": model.checks[one.check].answers,
            "lines": lines,
            "otherwise": {"reading": one.otherwise.0, "shares": one.otherwise.1},
            "silent": silent,
        })
    };
    derived.iter().map(one).collect()
}

fn row(model: &Model, line: &DerivedLine, yes: bool) -> String {
    let names = names(model, &line.when);
    let when = match names.as_slice() {
        [one] => (*one).to_owned(),
        several => format!("[{}]", several.join(", ")),
    };
    let word = if yes { "chance" } else { "shares" };
    let shares = numbers(&line.shares, yes);
    format!("{{when: {when}, {word}: {shares}}}  # {}", line.reading)
}

fn names<'a>(model: &'a Model, events: &[usize]) -> Vec<&'a str> {
    let name = |event: &usize| model.causes[*event].id.as_str();
    events.iter().map(name).collect()
}

fn is_yes_no(answers: &[String]) -> bool {
    answers == ["yes", "no"]
}

fn numbers(shares: &[f64], yes: bool) -> String {
    let number = |share: &f64| {
        let text = format!("{share:.4}");
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    };
    if yes {
        return shares.first().map_or(String::new(), number);
    }
    let all: Vec<String> = shares.iter().map(number).collect();
    format!("[{}]", all.join(", "))
}
