//! The plant: a whole day, and everything that can be read under every fault.

use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::Instant;

use crate::measure::time;
use stillwheel::authoring::{desk::Desk, document};
use stillwheel::diagnosis::agreement::agree;
use stillwheel::diagnosis::inference::Inference;
use stillwheel::plant::aircraft::Aircraft;
use stillwheel::plant::band;
use stillwheel::plant::handle::Change;
use stillwheel::plant::observe::{Rounds, readings_of};
use stillwheel::plant::parking::Parking;
use stillwheel::plant::solver::known::KnownSteps;

/// The forty faults of the reference figures, a line each; two may be joined by `+`.
const FAULTS: &str = include_str!("../plant/reference.csv");

const STATES: [(&str, &str, &str); 5] = [
    ("external", "on", "connected-on"),
    ("external", "off", "connected-on"),
    ("none", "off", "connected-on"),
    ("none", "off", "connected-off"),
    ("none", "off", "disconnected"),
];

fn parking(faults: &str, state: (&str, &str, &str)) -> Parking {
    let mut parking = Parking::usual();
    for fault in faults.split('+').filter(|fault| *fault != "none") {
        let (fault, severity) = fault.split_once('=').unwrap_or((fault, "1"));
        let (part, name) = fault.split_once('/').expect("PART/FAULT");
        let severity = severity.parse().expect("a number");
        parking
            .changes
            .push(Change::Fault(part.into(), name.into(), severity));
    }
    let (power, pumps, battery) = state;
    parking.switches = [("power", power), ("pumps", pumps), ("battery", battery)]
        .map(|(switch, position)| (switch.to_owned(), position.to_owned()))
        .to_vec();
    parking
}

/// Readings that came later than the 35 checks of the goal; none of those needs them.
const LATER: [&str; 4] = [
    "gas-at-30-min-bar",
    "indicator-at-8-h-bar",
    "gauges-apart-bar",
    "position-at-8-h",
];

fn everything(aircraft: &Arc<Aircraft>, wanted: fn(&str) -> bool) -> (usize, usize) {
    let rows: Vec<&str> = FAULTS.lines().skip(3).collect();
    let threads = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
    // Each core takes the next row that nobody has taken: some faults cost more than others.
    let next = AtomicUsize::new(0);
    let rows_left = || {
        let taken = || rows.get(next.fetch_add(1, Ordering::Relaxed));
        std::iter::from_fn(taken)
            .map(|row| under(aircraft, row, wanted))
            .sum::<usize>()
    };
    let read = std::thread::scope(|scope| {
        let started: Vec<_> = (0..threads).map(|_| scope.spawn(rows_left)).collect();
        let done = started.into_iter();
        done.map(|part| part.join().unwrap_or(0)).sum::<usize>()
    });
    (rows.len(), read)
}

/// What is wanted read in all states under the faults of one row.
fn under(aircraft: &Arc<Aircraft>, row: &str, wanted: fn(&str) -> bool) -> usize {
    let faults = row.split(',').next().unwrap_or_default();
    // The states of one fault share what they have in common.
    let steps = KnownSteps::default();
    let names = readings_of(aircraft).map(|(name, ..)| name);
    let names: Vec<String> = names.filter(|name| wanted(name)).collect();
    let read = |state| {
        let parking = parking(faults, state);
        let rounds = Rounds::play_sharing(aircraft, &parking, None, &steps).expect("played");
        let one = |name: &String| rounds.observe_one(name).expect("read").is_some();
        names.iter().filter(|name| one(name)).count()
    };
    STATES.into_iter().map(read).sum()
}

/// Prints how long it takes to read everything under every fault in every state.
pub fn readings() {
    let mut desk = Desk::default();
    let aircraft = Arc::new(document::aircraft(&mut desk, "demo-twin").expect("the demo aircraft"));
    let needed: fn(&str) -> bool = |name| !LATER.contains(&name);
    let all: fn(&str) -> bool = |_| true;
    for (words, wanted) in [("what the 35 checks need", needed), ("everything", all)] {
        let begin = Instant::now();
        let (faults, read) = everything(&aircraft, wanted);
        println!(
            "  {faults} faults x {} states, {words}, {read} readings, on every core: {:.3} s",
            STATES.len(),
            begin.elapsed().as_secs_f64()
        );
    }
}

/// Prints the figures.
pub fn run() {
    println!("Plant (goals: a day with eight brakes 20 ms; 40 faults x 5 states x 35 checks 1 s)");
    let mut desk = Desk::default();
    let aircraft = Arc::new(document::aircraft(&mut desk, "demo-twin").expect("the demo aircraft"));
    let healthy = parking("none", STATES[3]);
    time("  the beginning of a parking", || {
        healthy.begin(&aircraft).expect("it begins").hours()
    });
    time("  24 h with eight brakes", || {
        let mut plant = healthy.begin(&aircraft).expect("it begins");
        plant.step(24.0 * 3600.0).expect("played");
        plant.steps()
    });
    time("  hold with its band, as the command plays it", || {
        band::play(&aircraft, &healthy, 24.0).expect("played").1
    });
    time("  everything read in one state", || {
        let rounds = Rounds::play(&aircraft, &healthy, None).expect("played");
        rounds.observe().expect("read").len()
    });
    let tree = document::tree(&mut desk, "crept-while-parked", None).expect("the shipped tree");
    let inference = Inference::new(Arc::new(tree));
    time(
        "  the shipped tree held against the plant (goal 5 s)",
        || agree(&inference).expect("compared").len(),
    );
    readings();
}
