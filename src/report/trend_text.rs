//! A watched gauge in words: its fall, what fits it, what it rules out.

use super::hold_text::trimmed;
use crate::base::text::listed;
use crate::base::unit::BAR;
use crate::base::unit::PSI;
use crate::diagnosis::falls::{Against, Drained};
use crate::diagnosis::fell::Fell;
use crate::diagnosis::inference::{Belief, Inference};
use crate::diagnosis::model::Model;
use crate::diagnosis::ranking::of_100;
use crate::plant::observe::{GAUGES, Side};

/// How many causes that are ruled out are named.
const NAMED: usize = 4;
const MINUTE: f64 = 60.0;
/// Cubic metres in a millilitre.
const MILLILITRE: f64 = 1e-6;

/// `Direct gauge at the gas valve fell 12.4 bar (180 psi) in 10 min`.
pub fn fall_words(fell: &Fell) -> String {
    format!("{} {}", GAUGES[fell.begin.gauge].title, moved_words(fell))
}

/// `fell 12.4 bar (180 psi) in 10 min`.
fn moved_words(fell: &Fell) -> String {
    let minutes = fell.seconds / MINUTE;
    let (moved, by) = if fell.fall < 0.0 {
        ("rose", -fell.fall)
    } else {
        ("fell", fell.fall)
    };
    format!(
        "{moved} {:.1} bar ({:.0} psi) in {} min",
        by / BAR,
        by / PSI,
        trimmed((minutes * 10.0).round() / 10.0)
    )
}

/// The fall and how many causes it rules out, in a sentence.
pub fn fall_sum(inference: &Inference, fell: &Fell) -> String {
    let events: Vec<usize> = (0..inference.model().causes.len()).collect();
    let all = inference.curves(fell, &events);
    let out = all.iter().filter(|against| against.is_ruled_out());
    let out = out.filter(|against| against.event.is_some()).count();
    let moved = moved_words(fell);
    format!("It {moved}, which rules out {out} causes.")
}

/// `1.24 bar/min (18 psi/min), 33 mL/min out of the store`.
pub fn rate_words(fell: &Fell, drained: Option<&Drained>) -> String {
    let (bar, psi) = (fell.rate() * MINUTE / BAR, fell.rate() * MINUTE / PSI);
    let volume = drained.and_then(|drained| drained.volume);
    let flow = volume.map_or(String::new(), |volume| {
        let flow = volume / MILLILITRE / (fell.seconds / MINUTE);
        format!(", {flow:.1} mL/min out of the store")
    });
    format!("{bar:.2} bar/min ({psi:.1} psi/min){flow}")
}

/// What the gauge reads when the store is empty, and why.
pub fn empty_words(fell: &Fell, drained: &Drained) -> String {
    let why = match GAUGES[fell.begin.gauge].side {
        Side::Gas => "the precharge: on the gas side a steady reading here is an empty store",
        Side::Fluid => "on the fluid side",
    };
    format!("Empty it reads {:.1} bar, {why}.", drained.empty / BAR)
}

/// `fits; falls 3.6 to 7.8 bar in this time`.
pub fn verdict(against: &Against) -> String {
    let (least, most) = against.range();
    format!(
        "{}; falls {:.1} to {:.1} bar in this time",
        against.word(),
        least / BAR,
        most / BAR
    )
}

/// What was ruled out, by how much it counted before and counts now.
///
/// `before` is the belief without the readings, `now` with them. Causes that were below one of 100
/// anyway are counted and not named.
pub fn ruled_out(model: &Model, all: &[Against], before: &Belief, now: &Belief) -> Option<String> {
    let mut out: Vec<usize> = all
        .iter()
        .filter(|against| against.is_ruled_out())
        .filter_map(|against| against.event)
        .collect();
    out.sort_by(|a, b| before.events[*b].total_cmp(&before.events[*a]));
    if out.is_empty() {
        return None;
    }
    let named = out.iter().take(NAMED);
    let mut words: Vec<String> = named
        .filter(|event| of_100(before.events[**event]) >= 1)
        .map(|event| {
            let (was, is) = (of_100(before.events[*event]), of_100(now.events[*event]));
            format!("{} ({was} -> {is})", model.causes[*event].title)
        })
        .collect();
    let more = out.len() - words.len();
    match (more, words.is_empty()) {
        (0, _) => {}
        (more, true) => words.push(format!("{more} causes that were below 1 of 100")),
        (more, false) => words.push(format!("{more} more")),
    }
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    Some(format!(
        "Ruled out, of 100 before and now: {}.",
        listed(&words, "and")
    ))
}

/// Causes with which it falls as a healthy one does: no reading of this gauge tells them apart.
pub fn as_healthy(model: &Model, all: &[Against], now: &Belief) -> Option<String> {
    let mut same: Vec<usize> = all
        .iter()
        .filter(|against| !against.differs)
        .filter_map(|against| against.event)
        .collect();
    same.sort_by(|a, b| now.events[*b].total_cmp(&now.events[*a]));
    let first = *same.first()?;
    let title = &model.causes[first].title;
    Some(match same.len() {
        1 => format!("With \"{title}\" it falls as a healthy one."),
        many => format!(
            "With \"{title}\" and {} more it falls as a healthy one.",
            many - 1
        ),
    })
}

/// Everything there is to say of a fall, line by line.
pub fn trend_lines(
    inference: &Inference,
    fell: &Fell,
    before: &Belief,
    now: &Belief,
) -> Vec<String> {
    let model = inference.model();
    let events: Vec<usize> = (0..model.causes.len()).collect();
    let all = inference.curves(fell, &events);
    let drained = inference.drained(fell);
    let mut lines = vec![
        format!("{}.", fall_words(fell)),
        format!("That is {}.", rate_words(fell, drained.as_ref())),
    ];
    lines.extend(drained.map(|drained| empty_words(fell, &drained)));
    if let Some(healthy) = all.iter().find(|against| against.event.is_none()) {
        lines.push(format!("A healthy aircraft: {}.", verdict(healthy)));
    }
    lines.extend(ruled_out(model, &all, before, now));
    lines.extend(as_healthy(model, &all, now));
    lines
}
