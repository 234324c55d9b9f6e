//! What a cause does inside the aircraft, in sentences made from what the plant shows.

use super::hold_text::trimmed;
use crate::base::text::listed;
use crate::base::unit::BAR;
use crate::diagnosis::mechanism::{Beside, Held, Lasts, Mechanism, Way};
use crate::plant::aircraft::Aircraft;
use crate::plant::kind::PortType;

/// How many ways and leaks are named, and how many signals.
const NAMED: usize = 3;
const SIGNALS: usize = 2;
/// Millilitres a minute in one m3/s.
const ML_MIN: f64 = 6e7;
/// Pressures closer than this are called alike, Pa.
const ALIKE: f64 = 3e5;
/// A mass of gas that differs by less than this share is the same.
const SAME_GAS: f64 = 0.02;
/// Gas this much above the brakes has no way to them, Pa.
const CUT_OFF: f64 = 20e5;

/// What a mechanism is, for the sentence that explains it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Sort {
    /// Fluid runs out into the open.
    Outside,
    /// Fluid passes where it should stay.
    Inside,
    /// The store holds another charge of gas from the beginning.
    OtherGas,
    /// Gas is lost on the way.
    GasLost,
    /// The brakes never had the pressure, or lose it at once.
    Brakes,
    /// The gas has pressure and the brakes lose theirs.
    CutOff,
    /// Something lets go later.
    Later,
    /// It falls slower than a healthy one.
    Keeps,
    /// Volts, travel or a signal alone.
    Shown,
    /// Nothing that the plant knows.
    Nothing,
}

/// The sentences for a cause.
pub fn mechanism_lines(aircraft: &Aircraft, mechanism: &Mechanism, moves: bool) -> Vec<String> {
    let mut lines = Vec::new();
    let sort = sort(mechanism);
    if let Some(hours) = mechanism.hours {
        lines.extend(signals_words(aircraft, mechanism, hours));
        let ways = mechanism.ways.iter().filter(|way| tells(sort, way));
        for way in ways.take(NAMED) {
            lines.push(format!("{}.", way_words(aircraft, way)));
        }
        lines.extend(store_words(mechanism));
    }
    lines.push(teacher(sort, mechanism));
    lines.push(lasts_words(mechanism, moves));
    lines
}

/// Why a healthy aircraft holds as long as it does.
pub fn healthy_lines(aircraft: &Aircraft, mechanism: &Mechanism, moves: bool) -> Vec<String> {
    let sum: f64 = mechanism.leaks.iter().map(|way| way.with).sum();
    let named: Vec<String> = mechanism
        .leaks
        .iter()
        .take(NAMED)
        .map(|way| format!("{} {}", part(aircraft, way.part), flow(way.with)))
        .collect();
    let named: Vec<&str> = named.iter().map(String::as_str).collect();
    let lasts = mechanism.lasts.0;
    let gas = mechanism
        .first
        .0
        .gas
        .map_or(String::new(), |gas| format!(" from {}", bar(gas)));
    let mut lines = Vec::new();
    if !named.is_empty() {
        lines.push(format!(
            "A healthy aircraft loses {} by its in-limit leaks, most of it by {}.",
            flow(sum),
            listed(&named, "and")
        ));
    }
    let until = match (moves, lasts.to_movement, lasts.brake_then, lasts.to_empty) {
        (true, Some(hours), Some(brake), _) => format!(
            "The gas follows the fluid down{gas}, and the brakes follow the gas. On {} slope {} in the lowest brake is too little, and that is so after {}: until then it would have held.",
            slope(mechanism),
            bar(brake),
            time(hours)
        ),
        (true, None, ..) => format!(
            "The gas follows the fluid down{gas}; on {} slope that does not let it move within two days.",
            slope(mechanism)
        ),
        (false, _, _, Some(hours)) => format!(
            "The gas follows the fluid down{gas}, until after {} no fluid is left and the gas side stands at its precharge.",
            time(hours)
        ),
        _ => {
            format!("The gas follows the fluid down{gas}, and there is fluid left after two days.")
        }
    };
    lines.push(until);
    lines
}

fn sort(mechanism: &Mechanism) -> Sort {
    let lets_go = |way: &Way| !way.serves && way.with > way.healthy;
    let (first, later) = (mechanism.first, mechanism.later);
    let gas = |pair: (Held, Held)| {
        let both = pair.0.gas_mass.zip(pair.1.gas_mass);
        both.is_some_and(|(a, b)| (b / a - 1.0).abs() > SAME_GAS)
    };
    let cut_off = |held: Held| {
        held.gas
            .zip(held.brake)
            .is_some_and(|(gas, brake)| gas - brake > CUT_OFF)
    };
    match mechanism.hours {
        None => Sort::Nothing,
        _ if mechanism
            .ways
            .iter()
            .any(|way| way.overboard && lets_go(way)) =>
        {
            Sort::Outside
        }
        _ if apart(first.0.brake, first.1.brake) => Sort::Brakes,
        _ if gas(first) => Sort::OtherGas,
        Some(hours) if hours > 0.1 && !mechanism.signals.is_empty() => Sort::Later,
        _ if mechanism.ways.iter().any(lets_go) => Sort::Inside,
        _ if cut_off(later.1) && !cut_off(later.0) => Sort::CutOff,
        _ if gas(later) => Sort::GasLost,
        _ if !mechanism.ways.is_empty() => Sort::Keeps,
        _ if apart(later.0.brake, later.1.brake) => Sort::Later,
        _ => Sort::Shown,
    }
}

/// Whether a way says something about a mechanism.
fn tells(sort: Sort, way: &Way) -> bool {
    match sort {
        Sort::Outside => way.overboard && way.with > way.healthy,
        Sort::Inside | Sort::Brakes | Sort::Later => !way.serves && way.with > way.healthy,
        Sort::CutOff | Sort::Keeps => way.with < way.healthy.abs(),
        _ => false,
    }
}

/// The sentence that puts it together, for each sort of mechanism.
fn teacher(sort: Sort, mechanism: &Mechanism) -> String {
    let falls = match (mechanism.later.0.brake, mechanism.later.1.brake) {
        (Some(healthy), Some(with)) if with < healthy - ALIKE => "and the brakes with it",
        _ => "while the brakes still hold",
    };
    match sort {
        Sort::Outside => format!(
            "Fluid that leaves the aircraft no longer pushes against the gas: the gas spreads into its place and loses pressure, {falls}. There is something wet to find."
        ),
        Sort::Inside => format!(
            "The fluid goes back to the return instead of staying shut in: the gas spreads into its place and loses pressure, {falls}. Nothing is wet outside, so it has to be listened for or measured."
        ),
        Sort::OtherGas => "The store has another charge of gas from the beginning, so the same in-limit leaks take more or less pressure from it than they should. A full gauge just after the pumps stop does not show it; how it falls does.".to_owned(),
        Sort::GasLost => "Gas is lost, not fluid: the fluid is still there, and what pushes it gets less. Nothing is wet; leak fluid on the gas side shows it.".to_owned(),
        Sort::CutOff => "The gas still shows pressure and the brakes lose theirs: what is stored does not reach them. A gauge on the gas side says nothing about the brakes here.".to_owned(),
        Sort::Brakes => "The brakes do not get, or lose at once, the pressure that the lever promises: look at what moves and feeds them before you look for a leak.".to_owned(),
        Sort::Later => "At first everything stands as on a healthy aircraft; then something lets go by itself, and what held until then holds no more.".to_owned(),
        Sort::Keeps => "Less goes on its way than on a healthy aircraft: what is shut in stays, and what should be fed is not.".to_owned(),
        Sort::Shown => "Pressures and flows are those of a healthy aircraft; only what is switched or shown differs. It lets nothing go; compare what is shown with what is measured.".to_owned(),
        Sort::Nothing => "Volts, travel, pressures and flows stay those of a healthy aircraft for eight hours: it holds no less, and only a check of its own finds it.".to_owned(),
    }
}

fn store_words(mechanism: &Mechanism) -> Option<String> {
    let (healthy, with) = mechanism.later;
    let both = |what: &str, a: Option<f64>, b: Option<f64>| {
        let (a, b) = a.zip(b)?;
        ((a - b).abs() > ALIKE).then(|| format!("{what} {}, healthy {}", bar(b), bar(a)))
    };
    let gas = both("gas of the store", healthy.gas, with.gas);
    let brake = both("lowest brake", healthy.brake, with.brake);
    let words: Vec<String> = gas.into_iter().chain(brake).collect();
    (!words.is_empty()).then(|| format!("After {}: {}.", time(with.hours), words.join("; ")))
}

fn lasts_words(mechanism: &Mechanism, moves: bool) -> String {
    let (healthy, with) = mechanism.lasts;
    if !moves {
        let empty = |lasts: Lasts| {
            lasts
                .to_empty
                .map_or("not within two days".to_owned(), time)
        };
        return format!(
            "The store is empty: {}; healthy: {}.",
            empty(with),
            empty(healthy)
        );
    }
    let on = slope(mechanism);
    match (with.to_movement, healthy.to_movement) {
        (Some(with), Some(healthy)) if (with - healthy).abs() < 0.05 * healthy => format!(
            "On {on} slope it moves after {}, as a healthy one does.",
            time(with)
        ),
        (Some(with), healthy) => format!(
            "On {on} slope it moves {}; a healthy one would have held {}.",
            after(with),
            healthy.map_or("for more than two days".to_owned(), time)
        ),
        (None, healthy) => format!(
            "On {on} slope it stands for more than two days; a healthy one {}.",
            healthy.map_or("too".to_owned(), time)
        ),
    }
}

/// The first signals that differ, and how many more.
fn signals_words(aircraft: &Aircraft, mechanism: &Mechanism, hours: f64) -> Option<String> {
    let signals = mechanism.signals.iter().take(SIGNALS);
    let mut words: Vec<String> = signals
        .map(|beside| signal_words(aircraft, beside))
        .collect();
    let more = mechanism.signals.len() - words.len();
    if more > 0 {
        words.push(format!("{more} more behind it"));
    }
    (!words.is_empty()).then(|| format!("After {}: {}.", time(hours), words.join("; ")))
}

/// `Wire to the close pin 0.0 V, healthy 24.0 V`.
fn signal_words(aircraft: &Aircraft, beside: &Beside) -> String {
    let name = net(aircraft, beside.net);
    let value = |level: f64| match beside.carries {
        PortType::Electrical => format!("{level:.1} V"),
        PortType::Signal if (beside.with > 0.5) == (beside.healthy > 0.5) => {
            format!("at {level:.0}")
        }
        PortType::Signal if level > 0.5 => "on".to_owned(),
        PortType::Signal => "off".to_owned(),
        _ => format!("{:.0} % of its travel", 100.0 * level),
    };
    format!(
        "{name} {}, healthy {}",
        value(beside.with),
        value(beside.healthy)
    )
}

/// `L3 brake, seal: 7.9 mL/min into the open from 180 bar, healthy 0.0 mL/min`.
fn way_words(aircraft: &Aircraft, way: &Way) -> String {
    let to = if way.overboard {
        "into the open".to_owned()
    } else {
        format!("to {}", bar(way.pressures.1))
    };
    let back = if way.healthy * ML_MIN < -0.05 {
        " the other way"
    } else {
        ""
    };
    format!(
        "{}, {}: {} from {} {to}, healthy {}{back}",
        part(aircraft, way.part),
        way.way,
        flow(way.with),
        bar(way.pressures.0),
        flow(way.healthy.abs())
    )
}

fn apart(one: Option<f64>, other: Option<f64>) -> bool {
    one.zip(other).is_some_and(|(a, b)| (a - b).abs() > ALIKE)
}

fn part(aircraft: &Aircraft, place: usize) -> &str {
    aircraft
        .parts
        .get(place)
        .map_or("?", |part| part.title.as_str())
}

/// A net by the parts that it joins, two of them.
fn net(aircraft: &Aircraft, net: usize) -> String {
    let joined = aircraft.graph.nets().get(net);
    let ports = joined.iter().flat_map(|net| &net.ports);
    let mut titles: Vec<&str> = ports.map(|port| part(aircraft, port.part)).collect();
    titles.dedup();
    titles.truncate(2);
    titles.join(" to ")
}

fn slope(mechanism: &Mechanism) -> String {
    format!("{} %", trimmed(100.0 * mechanism.slope))
}

fn bar(pascals: f64) -> String {
    let bar = pascals / BAR;
    // Zero has no sign, whatever rounding made of it.
    format!("{:.0} bar", if bar.abs() < 0.5 { 0.0 } else { bar })
}

fn flow(cubic_metres: f64) -> String {
    let flow = cubic_metres * ML_MIN;
    format!("{:.1} mL/min", if flow.abs() < 0.05 { 0.0 } else { flow })
}

fn after(hours: f64) -> String {
    if hours <= 0.0 {
        return "at once".to_owned();
    }
    format!("after {}", time(hours))
}

fn time(hours: f64) -> String {
    if hours < 1.0 {
        format!("{:.0} min", hours * 60.0)
    } else {
        format!("{hours:.1} h")
    }
}
