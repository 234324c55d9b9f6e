//! The demo aircraft as a plant, for the tests that play it.

use std::sync::Arc;

use stillwheel::authoring::{desk::Desk, document};
use stillwheel::plant::aircraft::Aircraft;
use stillwheel::plant::handle::{Change, Handle};
use stillwheel::plant::observe::{Observed, Reading, Rounds};
use stillwheel::plant::parking::Parking;

/// The embedded demo aircraft.
pub fn aircraft() -> Arc<Aircraft> {
    let mut desk = Desk::default();
    Arc::new(document::aircraft(&mut desk, "demo-twin").expect("the demo aircraft"))
}

/// The demo aircraft with pieces of its text replaced; each piece stands there exactly once.
pub fn variant(replacements: &[(&str, &str)]) -> Arc<Aircraft> {
    let mut text = include_str!("../../demo-data/demo-twin.yaml").to_owned();
    for (old, new) in replacements {
        assert_eq!(text.matches(old).count(), 1, "once in the document: {old}");
        text = text.replace(old, new);
    }
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("variant.yaml");
    std::fs::write(&path, text).unwrap();
    let mut desk = Desk::default();
    let read = document::aircraft(&mut desk, path.to_str().unwrap());
    assert!(!desk.has_errors(), "{:?}", desk.problems);
    Arc::new(read.expect("the variant is an aircraft"))
}

/// Changes for faults joined with `+`, each at the usual severity; `none` is none.
pub fn faults(text: &str) -> Vec<Change> {
    text.split('+')
        .filter(|fault| !matches!(*fault, "" | "none"))
        .map(|fault| {
            let (fault, severity) = fault.split_once('=').unwrap_or((fault, "1"));
            let (part, name) = fault.split_once('/').expect("PART/FAULT");
            Change::Fault(part.into(), name.into(), severity.parse().unwrap())
        })
        .collect()
}

/// A parking with faults, lever up, pumps just stopped.
pub fn parking(text: &str) -> Parking {
    let mut parking = Parking::usual();
    parking.changes = faults(text);
    parking
}

/// The states C1 to C4 as positions of switches.
pub fn state(name: &str) -> Vec<(String, String)> {
    let (power, pumps, battery) = match name {
        "C1" => ("external", "on", "connected-on"),
        "C2" => ("external", "off", "connected-on"),
        "C3" => ("none", "off", "connected-on"),
        "C4" => ("none", "off", "connected-off"),
        "C5" => ("none", "off", "disconnected"),
        _ => panic!("no state {name}"),
    };
    [("power", power), ("pumps", pumps), ("battery", battery)]
        .map(|(switch, position)| (switch.to_owned(), position.to_owned()))
        .to_vec()
}

/// The plant at the beginning of a parking.
pub fn begun(parking: &Parking) -> Handle {
    parking.begin(&aircraft()).expect("it begins")
}

/// Hours until it can move on a slope, within a horizon.
pub fn hours_to_creep(parking: &Parking, slope: f64, horizon: f64) -> Option<f64> {
    hours_to_creep_of(&aircraft(), parking, slope, horizon)
}

/// The same for any aircraft.
pub fn hours_to_creep_of(
    aircraft: &Arc<Aircraft>,
    parking: &Parking,
    slope: f64,
    horizon: f64,
) -> Option<f64> {
    let mut parking = parking.clone();
    parking.changes.push(Change::Slope(slope));
    let mut plant = parking.begin(aircraft).expect("it begins");
    plant.hold(0.0, horizon).unwrap().hours_to_creep
}

/// Everything read in a state with faults put in.
pub fn readings(aircraft: &Arc<Aircraft>, text: &str, name: &str) -> Vec<Observed> {
    let mut parking = parking(text);
    parking.switches = state(name);
    let rounds = Rounds::play(aircraft, &parking, None).unwrap();
    rounds.observe().unwrap()
}

/// One reading of the plant as it stands.
pub fn look(plant: &Handle, name: &str) -> Reading {
    let observed = Rounds::standing(plant).observe_one(name).unwrap();
    observed
        .unwrap_or_else(|| panic!("no observable {name}"))
        .reading
}

/// Whether the plant as it stands shows a word.
pub fn shows(plant: &Handle, name: &str, word: &str) -> bool {
    look(plant, name) == Reading::word(word)
}

/// A part moved by hand.
pub fn hand(part: &str, position: &str) -> Change {
    Change::Hand(part.into(), position.into())
}

/// One reading by its name.
pub fn read<'a>(readings: &'a [Observed], name: &str) -> &'a Reading {
    let found = readings.iter().find(|observed| observed.name == name);
    &found.unwrap_or_else(|| panic!("no reading {name}")).reading
}

/// A number by its name.
pub fn number(readings: &[Observed], name: &str) -> f64 {
    match read(readings, name) {
        Reading::Number(number) => *number,
        other => panic!("{name} is {other:?}"),
    }
}

/// A word by its name.
pub fn word<'a>(readings: &'a [Observed], name: &str) -> &'a str {
    match read(readings, name) {
        Reading::Word(word) => word,
        other => panic!("{name} is {other:?}"),
    }
}
