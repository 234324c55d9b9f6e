//! Every observable of one state, as text and as JSON. The JSON keys are a contract.

use serde_json::{Map, Value, json};

use super::hold_json::rounded;
use super::hold_text::trimmed;
use super::parking_text::{Described, NOT_APPROVED};
use crate::base::text::{decimal, wrap};
use crate::base::unit::PSI;
use crate::plant::aircraft::Aircraft;
use crate::plant::observe::{Observed, Reading};

/// The JSON of all readings; what cannot be read in this state is `null`.
pub fn readings_json(state: &str, faults: &[String], observed: &[Observed]) -> Value {
    let values: Map<String, Value> = observed
        .iter()
        .map(|row| (row.name.clone(), value(&row.reading)))
        .collect();
    json!({"state": state, "faults": faults, "observables": values})
}

fn value(reading: &Reading) -> Value {
    match reading {
        Reading::Number(number) => rounded(Some(*number), 3),
        Reading::Word(word) => json!(word),
        Reading::Dead => Value::Null,
    }
}

/// The text of all readings, with what a healthy aircraft shows beside what differs from it.
pub fn readings_text(
    aircraft: &Aircraft,
    about: &Described,
    hours: Option<f64>,
    observed: &[Observed],
    healthy: &[Observed],
) -> String {
    let mut text = about.heading();
    let when = hours.map_or("half an hour".to_owned(), |hours| {
        format!("{} h", trimmed(hours))
    });
    let read = format!(
        "Read {when} after the pumps stopped, or with them running, unless a line says when."
    );
    for line in wrap(&read, 80) {
        text.push_str(&format!("{line}\n"));
    }
    text.push('\n');
    let mut dead = Vec::new();
    for (row, good) in observed.iter().zip(healthy) {
        if row.reading == Reading::Dead && good.reading == Reading::Dead {
            dead.push(row.title.clone());
            continue;
        }
        let mut line = format!("{}: {}", row.title, shown(aircraft, row));
        if differs(row, good) {
            line.push_str(&format!("   (healthy: {})", shown(aircraft, good)));
        }
        for (at, piece) in wrap(&line, 78).into_iter().enumerate() {
            text.push_str(if at == 0 { "" } else { "    " });
            text.push_str(&piece);
            text.push('\n');
        }
    }
    if !dead.is_empty() {
        text.push_str("\nNot to be read in this state:\n");
        for line in wrap(&format!("{}.", dead.join("; ")), 78) {
            text.push_str(&format!("  {line}\n"));
        }
    }
    text.push('\n');
    for line in wrap(NOT_APPROVED, 80) {
        text.push_str(&format!("{line}\n"));
    }
    text
}

/// Whether a reading lies outside of what a healthy aircraft shows.
pub fn differs(row: &Observed, healthy: &Observed) -> bool {
    match (&row.reading, &healthy.reading) {
        (Reading::Number(found), Reading::Number(good)) => (found - good).abs() > row.edge,
        (found, good) => found != good,
    }
}

/// A reading in words, with its unit; pressures in both units.
pub fn shown(aircraft: &Aircraft, row: &Observed) -> String {
    match &row.reading {
        Reading::Dead => "no reading".to_owned(),
        Reading::Word(word) => in_words(aircraft, word),
        Reading::Number(number) if row.unit == "bar" => {
            let psi = decimal(number * 1e5 / PSI, 0);
            format!("{} bar ({psi} psi)", decimal(*number, 1))
        }
        Reading::Number(number) => {
            let decimals =
                usize::from(matches!(row.unit, "mm" | "mL/min")) + 2 * usize::from(row.unit == "L");
            format!("{} {}", decimal(*number, decimals), row.unit)
                .trim_end()
                .to_owned()
        }
    }
}

/// Parts by their titles, other words without hyphens.
fn in_words(aircraft: &Aircraft, words: &str) -> String {
    let one = |word: &str| {
        let part = aircraft.parts.iter().find(|part| part.id == word);
        part.map_or_else(|| word.replace('-', " "), |part| part.title.clone())
    };
    words.split(", ").map(one).collect::<Vec<_>>().join(", ")
}
