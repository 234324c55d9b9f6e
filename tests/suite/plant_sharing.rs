//! Parkings that share solved steps read what they read alone, byte for byte.

use std::sync::Arc;

use stillwheel::authoring::{desk::Desk, document};
use stillwheel::plant::aircraft::Aircraft;
use stillwheel::plant::handle::Change;
use stillwheel::plant::observe::Rounds;
use stillwheel::plant::parking::Parking;
use stillwheel::plant::solver::known::KnownSteps;

/// The forty faults of the reference figures, a line each; two may be joined by `+`.
const FAULTS: &str = include_str!("../plant/reference.csv");

/// Positions of power, pumps and battery.
const STATES: [[&str; 3]; 5] = [
    ["external", "on", "connected-on"],
    ["external", "off", "connected-on"],
    ["none", "off", "connected-on"],
    ["none", "off", "connected-off"],
    ["none", "off", "disconnected"],
];

fn parking(faults: &str, state: [&str; 3]) -> Parking {
    let mut parking = Parking::usual();
    for fault in faults.split('+').filter(|fault| *fault != "none") {
        let (fault, severity) = fault.split_once('=').unwrap_or((fault, "1"));
        let (part, name) = fault.split_once('/').unwrap();
        let severity = severity.parse().unwrap();
        let change = Change::Fault(part.into(), name.into(), severity);
        parking.changes.push(change);
    }
    let switches = ["power", "pumps", "battery"].into_iter().zip(state);
    parking.switches = switches.map(|(a, b)| (a.into(), b.into())).collect();
    parking
}

/// Compares all states of the faults of one row and counts what was read.
fn compare(aircraft: &Arc<Aircraft>, row: &str) -> usize {
    let faults = row.split(',').next().unwrap();
    let steps = KnownSteps::default();
    let mut count = 0;
    for state in STATES {
        let parking = parking(faults, state);
        let alone = Rounds::play(aircraft, &parking, None).unwrap();
        let alone = alone.observe().unwrap();
        let shared = Rounds::play_sharing(aircraft, &parking, None, &steps).unwrap();
        let shared = shared.observe().unwrap();
        assert_eq!(format!("{alone:?}"), format!("{shared:?}"), "{parking:?}");
        count += shared.len();
    }
    count
}

#[test]
fn shared_steps_change_no_reading_of_any_fault_in_any_state() {
    let mut desk = Desk::default();
    let aircraft = Arc::new(document::aircraft(&mut desk, "demo-twin").unwrap());
    let rows: Vec<&str> = FAULTS.lines().skip(3).collect();
    let (first, second) = rows.split_at(rows.len() / 2);
    let all = |rows: &[&str]| -> usize { rows.iter().map(|row| compare(&aircraft, row)).sum() };
    let read = std::thread::scope(|scope| {
        let other = scope.spawn(|| all(second));
        all(first) + other.join().unwrap()
    });
    assert_eq!(read, 9000, "40 faults, 5 states, 45 readings");
}
