//! The schematic: what is drawn is what the plant and the ranking say.

use stillwheel::console::schematic::{Scene, Sheet};
use stillwheel::diagnosis::standing_of_parts::Standing;
use stillwheel::plant::handle::Change;
use stillwheel::plant::parking::Parking;

use crate::console_keys::{console, intake, press};
use crate::demo_plant::aircraft;

fn with(part: &str, fault: &str) -> Vec<(String, f64, bool)> {
    let demo = aircraft();
    let mut parking = Parking::usual();
    let change = Change::Fault(part.to_owned(), fault.to_owned(), 1.0);
    parking.changes.push(change);
    let mut plant = parking.begin(&demo).unwrap();
    plant.step(120.0).unwrap();
    let legs = plant.drain();
    legs.iter()
        .map(|leg| {
            (
                demo.parts[leg.part].id.clone(),
                leg.flow * 6e7,
                leg.overboard,
            )
        })
        .collect()
}

/// The charge check valve of the demo leaks 25 mL/min at the reference pressure (invented), back
/// to the pump side, so the store goes through it first and not through the brakes.
#[test]
fn the_store_goes_through_the_part_that_leaks() {
    let way = with("charge-check-valve", "reverse-leak");
    assert_eq!(way[0].0, "charge-check-valve", "{way:?}");
    assert!(way[0].1 > 10.0, "{way:?}");
    let wet = with("brake-l3", "seal-leak");
    let last = wet.last().unwrap();
    assert_eq!((last.0.as_str(), last.2), ("brake-l3", true), "{wet:?}");
    assert!(wet.len() > 3, "by metering valve and anti-skid: {wet:?}");
    let flows: Vec<bool> = wet.iter().map(|leg| leg.1 > 0.0).collect();
    assert!(flows.iter().all(|flows| *flows), "{wet:?}");
}

/// Under the valve that stands open the return drains: the way ends in no open air.
#[test]
fn an_open_park_valve_drains_to_the_main_reservoir() {
    let way = with("park-shut-off-valve", "jammed-open");
    let passed: Vec<&str> = way.iter().map(|leg| leg.0.as_str()).collect();
    assert!(passed.contains(&"park-shut-off-valve"), "{passed:?}");
    assert!(way.iter().all(|leg| !leg.2), "{way:?}");
}

/// A lever that drops when the pawl is worn leaks nothing, nor does a lamp: the in-limit leakage of
/// every aircraft is not theirs.
#[test]
fn a_cause_that_leaks_nothing_drains_nothing() {
    let mut state = console();
    intake(&mut state, true);
    let demo = state.job.model().aircraft.clone().unwrap();
    let drained = |id: &str| {
        let event = state.job.model().cause(id).unwrap();
        let scene = Scene::of(&state.job, Sheet::Fluid).unwrap();
        let scene = scene.draining(&state.job, Some(event));
        let pipes = scene.pipes.iter().filter(|pipe| pipe.drains).count();
        let legs = scene.drain.unwrap().1;
        let last = legs.last().map(|leg| demo.parts[leg.part].id.clone());
        (last, pipes)
    };
    assert_eq!(drained("pawl-worn"), (None, 0));
    assert_eq!(drained("gas-lost").0, None);
    let (last, pipes) = drained("brake-seal-leaks");
    assert_eq!(last.as_deref(), Some("brake-l3"));
    assert!(pipes >= 3, "{pipes}");
}

#[test]
fn answers_are_seen_on_the_parts() {
    let mut state = console();
    intake(&mut state, true);
    let standing = |state: &stillwheel::console::state::State, id: &str| {
        let scene = Scene::of(&state.job, Sheet::Fluid).unwrap();
        let demo = state.job.model().aircraft.as_ref().unwrap();
        let place = demo.parts.iter().position(|part| part.id == id).unwrap();
        scene.part(place).unwrap().standing
    };
    assert_ne!(standing(&state, "brake-l3"), Standing::Bad);
    // Fluid at a brake: the one that stands for all is the suspect.
    press(&mut state, ":check fluid-where\n3");
    let found = standing(&state, "brake-l3");
    assert_eq!(found, Standing::Bad, "{}", state.message);
}

#[test]
fn pressure_stands_where_a_healthy_aircraft_has_it() {
    let mut state = console();
    intake(&mut state, true);
    let scene = Scene::of(&state.job, Sheet::Fluid).unwrap();
    let demo = state.job.model().aircraft.clone().unwrap();
    let at = |id: &str| demo.parts.iter().position(|part| part.id == id).unwrap();
    let live = |one: &str, other: &str| {
        let pair = [at(one), at(other)];
        let pipe = scene.pipes.iter().find(|pipe| {
            let parts = [pipe.parts.0, pipe.parts.1];
            parts == pair || parts == [pair[1], pair[0]]
        });
        pipe.map(|pipe| pipe.live)
    };
    assert_eq!(live("shuttle-l1", "brake-l1"), Some(true));
    assert_eq!(live("main-reservoir", "main-pump"), Some(false));
    let signals = Scene::of(&state.job, Sheet::Signals).unwrap();
    assert!(
        signals
            .parts
            .iter()
            .any(|part| part.place == at("park-lever"))
    );
    assert!(
        signals
            .parts
            .iter()
            .all(|part| part.place != at("brake-l1"))
    );
}
