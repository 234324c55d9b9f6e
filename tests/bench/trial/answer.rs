//! The answer that one job gives to one check, the same whenever and by whomever it is asked.

use stillwheel::base::unit::Unit;
use stillwheel::diagnosis::agreement::readings::answer as shown;
use stillwheel::diagnosis::check::Check;
use stillwheel::diagnosis::reading::{judge, takes_readings};
use stillwheel::plant::observe::{Observed, Reading};

use super::draw::{Random, number_of};
use super::truth;
use super::yard::Visit;

/// Share of checks that cannot be made.
const IMPOSSIBLE: f64 = 0.1;
/// Share of readings that are plain wrong.
const WRONG: f64 = 0.02;

/// What people miss, and what they report where nothing is, by what is read: judgement. The answer
/// that stands for "nothing wrong" is named with it.
const SURVEYED: [(&str, &str, f64, f64); 8] = [
    ("fluid-where", "none", 0.1, 0.05),
    ("wet-at-valves", "none", 0.1, 0.05),
    ("listen", "nothing", 0.15, 0.1),
    ("brakes-clamped", "all-clamped", 0.08, 0.03),
    ("position-indicator", "shut", 0.03, 0.02),
    ("witness-mark", "yes", 0.03, 0.02),
    ("motor-heard", "runs", 0.05, 0.05),
    ("gas-bubbles", "no", 0.1, 0.02),
];

/// Readings that need a lever that stays up while they are taken.
const LEVER_HOLDS: [&str; 4] = ["leak-down", "brakes-clamped", "listen", "return-flow"];

/// The place of the answer; `None` where it cannot be checked.
pub fn answer(visit: &Visit<'_>, check: usize) -> Option<usize> {
    let about = &visit.yard.model.checks[check];
    let [seed, job] = visit.parked.key;
    let mut random = Random::of(&[seed, job, number_of(&about.id)]);
    if random.chance(IMPOSSIBLE) {
        return None;
    }
    if about.shows.is_empty() {
        let word = truth::answer(visit, check, &mut random)?;
        let place = about.answer(word);
        return Some(place.unwrap_or_else(|| panic!("`{}` has no answer `{word}`", about.id)));
    }
    let read = read(visit, check, &mut random)?;
    Some(mistaken(about, read, &mut random))
}

/// The reading of the plant as an answer.
fn read(visit: &Visit<'_>, check: usize, random: &mut Random) -> Option<usize> {
    let model = &visit.yard.model;
    let about = &model.checks[check];
    let name = about.reads.as_deref()?;
    let observed = if as_found(about) {
        let needs = |wanted: &str, position: &str| {
            about.needs.0.iter().any(|(switch, positions)| {
                let switch = &visit.yard.aircraft.switches[*switch];
                let at = switch.positions.iter().position(|p| p == position);
                switch.id == wanted && at.is_some_and(|at| positions.contains(&at))
            })
        };
        visit.as_found(name, needs("battery", "connected-on"), needs("lever", "up"))
    } else {
        if LEVER_HOLDS.contains(&about.id.as_str()) && !visit.rounds(check).fresh.latched() {
            return None;
        }
        visit.made(check, name)
    }?;
    match observed.reading {
        Reading::Number(number) if takes_readings(about) => {
            number_judged(visit, check, &observed, number, random)
        }
        _ => shown(about, &observed),
    }
}

/// Whether a check looks at what was left behind, and not at a state it makes itself.
fn as_found(about: &Check) -> bool {
    about.id == "lever-position" || !about.needs_evidence.is_empty()
}

/// A number as it is read off a gauge, typed with its unit and temperature, and judged as the
/// console judges what is typed. The edge of an observable is taken as two deviations.
fn number_judged(
    visit: &Visit<'_>,
    check: usize,
    observed: &Observed,
    number: f64,
    random: &mut Random,
) -> Option<usize> {
    let read = (number + random.normal() * observed.edge / 2.0).max(0.0);
    let unit = Unit::find(observed.unit)?.symbol;
    let celsius = visit.parked.kelvin - 273.15;
    let typed = format!("{read:.1} {unit} at {celsius:.0} C");
    let judged = judge(&visit.yard.model, check, &typed, None);
    judged.ok().map(|judged| judged.answer)
}

/// The answer after what people miss, imagine and mix up.
fn mistaken(about: &Check, read: usize, random: &mut Random) -> usize {
    let others: Vec<usize> = (0..about.answers.len()).filter(|at| *at != read).collect();
    let row = SURVEYED.iter().find(|row| row.0 == about.id);
    if let Some((_, nothing, missed, imagined)) = row {
        let nothing = about.answer(nothing).expect("an answer of the check");
        if read != nothing {
            return if random.chance(*missed) {
                nothing
            } else {
                read
            };
        }
        return if random.chance(*imagined) {
            random.pick(&others)
        } else {
            read
        };
    }
    if random.chance(WRONG) {
        random.pick(&others)
    } else {
        read
    }
}
