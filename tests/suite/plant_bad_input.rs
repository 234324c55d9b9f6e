//! What the plant refuses, and that nothing it accepts ends in NaN, a hang or lost fluid. What a
//! document gets wrong at a line stands in `tests/bad-input`.

use std::sync::{Arc, OnceLock};

use proptest::prelude::*;

use crate::demo_plant::{aircraft, begun, parking, state};
use crate::run::{root, stillwheel_in};
use stillwheel::plant::aircraft::Aircraft;
use stillwheel::plant::error::PlantError;
use stillwheel::plant::handle::{Change, Handle};
use stillwheel::plant::kinds::KINDS;
use stillwheel::plant::observe::{Reading, Rounds};
use stillwheel::plant::parking::Parking;
use stillwheel::plant::solver::known::Given;
use stillwheel::plant::solver::law::{FluidNow, Law};
use stillwheel::plant::solver::network::{Element, Network, Pin};
use stillwheel::plant::solver::step::{Conditions, Solver};
use stillwheel::plant::solver::store::{Moment, Store};

fn shared() -> &'static Arc<Aircraft> {
    static AIRCRAFT: OnceLock<Arc<Aircraft>> = OnceLock::new();
    AIRCRAFT.get_or_init(aircraft)
}

#[test]
fn numbers_that_cannot_be_meant_are_refused_with_what_can_be() {
    let mut plant = begun(&parking("none"));
    let before = format!("{:?}", plant.sample());
    for (change, words) in [
        (Change::Slope(f64::NAN), "a slope of NaN %"),
        (Change::Slope(4.0), "a slope of 400 %"),
        (Change::Wind(f64::INFINITY), "a wind of inf m/s"),
        (Change::Thrust(f64::NAN), "a thrust of NaN kN"),
        (Change::BreakAway(-0.1), "a break-away coefficient of -0.1"),
        (Change::Wear(-1.0), "a wear of -1"),
        (
            Change::Feet("first-pedals".into(), f64::NAN, 1.0),
            "a pedal travel of NaN",
        ),
        (Change::Temperature(-1.0), "a temperature of -274.1 C"),
        (Change::Temperature(f64::NAN), "a temperature of NaN C"),
        (
            Change::Precharge(220e5, 293.15),
            "a precharge of 220 bar (3191 psi)",
        ),
        (
            Change::Precharge(-1e5, 293.15),
            "a precharge of -1 bar (-15 psi)",
        ),
        (Change::Precharge(76e5, 0.0), "a temperature of -273.1 C"),
        (
            Change::Weather(vec![(0.0, 288.15), (-1.0, 288.15)], 0.0),
            "a history of weather of 2 points",
        ),
        (
            Change::Fault("brake-l3".into(), "seal-leak".into(), f64::NAN),
            "a severity of NaN",
        ),
    ] {
        let error = plant.set(&change).expect_err(words);
        let text = error.to_string();
        assert!(text.starts_with(words), "{text}");
        assert!(matches!(error, PlantError::OutOfRange { .. }), "{text}");
    }
    assert_eq!(
        format!("{:?}", plant.sample()),
        before,
        "nothing was changed"
    );
    let mut above = parking("none");
    above.charge = Some(300e5);
    let text = above.begin(shared()).unwrap_err().to_string();
    assert!(text.starts_with("a charge of 300 bar (4351 psi)"), "{text}");
}

#[test]
fn names_that_are_not_there_are_refused_by_name() {
    let mut plant = begun(&parking("none"));
    let fault = |part: &str, fault: &str| Change::Fault(part.into(), fault.into(), 1.0);
    for (change, words) in [
        (
            fault("brake-l9", "seal-leak"),
            "there is no part `brake-l9`",
        ),
        (
            fault("brake-l3", "burst"),
            "part `brake-l3` has no fault `burst` in this aircraft",
        ),
        (
            Change::Switch("power".into(), "maybe".into()),
            "`power` has no position `maybe`",
        ),
        (
            Change::Hand("main-pump".into(), "up".into()),
            "`main-pump` has no position `up`",
        ),
    ] {
        assert_eq!(plant.set(&change).unwrap_err().to_string(), words);
    }
}

/// Whatever a kind pins must be in its list, or the loader would let two supplies meet.
#[test]
fn the_demo_aircraft_pins_what_its_kinds_say_they_hold() {
    let holding: Vec<&str> = KINDS
        .iter()
        .filter(|kind| !kind.behaviour.holds().is_empty())
        .map(|kind| kind.name)
        .collect();
    assert_eq!(holding, ["pump", "reservoir"]);
    for kind in KINDS {
        for port in kind.behaviour.holds() {
            assert!(kind.port(port).is_some(), "{}.{port}", kind.name);
        }
        let source = kind.name.replace('-', "_");
        let path = root().join(format!("src/plant/kinds/{source}.rs"));
        let text = std::fs::read_to_string(path).unwrap();
        assert_eq!(
            text.contains("stamp.pin("),
            !kind.behaviour.holds().is_empty(),
            "{}",
            kind.name
        );
    }
}

fn still(network: &Network) -> Result<f64, usize> {
    let conditions = [0.0, 0.5, 1.0].map(|seconds| Conditions {
        fluid: FluidNow {
            density: 1000.0,
            thinness: 1.0,
            temperature: 288.15,
        },
        moment: Moment {
            fluid: 288.15,
            gas: 288.15,
            seconds,
        },
    });
    let pressures = vec![100e5, 0.0, 50e5];
    let stepped = Solver::default().step(&Given {
        network,
        pressures: &pressures,
        left_over: &[0.0; 3],
        conditions: &conditions,
        seconds: 1.0,
    })?;
    Ok(stepped.pressures[2])
}

/// A network of three nodes, the first two pinned; the law joins the first to the third.
fn three(law: Law, store: Store) -> Network {
    let pin = |pressure| {
        Some(Pin {
            pressure,
            run_down: None,
            account: 0,
        })
    };
    let element = |from, to, law| Element {
        from,
        to,
        law,
        part: 0,
        way: "way",
        serves: true,
    };
    Network {
        pins: vec![pin(100e5), pin(0.0), None],
        elements: vec![element(0, 2, law), element(2, 1, Law::leak(1e-12))],
        stores: vec![(2, 0, store)],
    }
}

#[test]
fn a_network_that_does_not_converge_gives_the_node_and_comes_back() {
    let line = |volume: f64| Store::Line {
        volume,
        bulk_modulus: 1.45e9,
        expansion: 0.0,
        swelling: 0.0,
    };
    let found = still(&three(Law::leak(1e-12), line(1e-3))).unwrap();
    assert!((0.0..100e5).contains(&found), "{found}");
    assert_eq!(still(&three(Law::leak(f64::NAN), line(1e-3))), Err(2));
    assert_eq!(still(&three(Law::leak(f64::INFINITY), line(1e-3))), Err(2));
    assert_eq!(still(&three(Law::leak(1e-12), line(f64::NAN))), Err(2));
    // A leak that takes the more the lower the pressure: no balance to be found.
    assert_eq!(still(&three(Law::leak(-1e3), line(1e-3))), Err(2));
}

#[test]
fn a_document_that_cannot_be_solved_names_the_net_and_when() {
    let text = std::fs::read_to_string(root().join("demo-data/demo-twin.yaml")).unwrap();
    let folder = tempfile::tempdir().unwrap();
    let absurd = text.replace("nozzle-area: 5e-3 mm2", "nozzle-area: 1e300 m2");
    assert_ne!(absurd, text);
    std::fs::write(folder.path().join("absurd.yaml"), absurd).unwrap();
    let run = stillwheel_in(folder.path(), &["hold", "absurd.yaml"], "");
    assert_eq!((run.code, run.out.as_str()), (1, ""), "{}", run.err);
    assert_eq!(
        run.err,
        "error: no pressure was found for the net of `left-anti-skid.return`, 0.000 h after the start\n"
    );
}

#[test]
fn a_document_without_what_a_plant_needs_says_so() {
    let folder = root().join("tests/bad-input");
    // Its port that was left open is joined, so that nothing but the fluid is missing.
    let text = std::fs::read_to_string(folder.join("aircraft-negative-volume.yaml")).unwrap();
    let temporary = tempfile::tempdir().unwrap();
    std::fs::write(
        temporary.path().join("small.yaml"),
        text.replace("-5.2 L", "5.2 L"),
    )
    .unwrap();
    let run = stillwheel_in(temporary.path(), &["readings", "small.yaml"], "");
    assert_eq!(run.code, 1);
    assert_eq!(
        run.err,
        "error: aircraft `small` cannot be solved: it has no `fluid`\n"
    );
}

/// Every fault of the demo aircraft, part and name.
fn all_faults() -> Vec<(String, String)> {
    let parts = shared().parts.iter();
    parts
        .flat_map(|part| part.faults.iter().map(|f| (part.id.clone(), f.id.clone())))
        .collect()
}

fn any_parking() -> impl Strategy<Value = Parking> {
    let fault = (
        prop::sample::select(all_faults()),
        prop_oneof![0.0..3.0_f64, Just(0.0), Just(1.0), Just(100.0)],
    );
    let ground = (-0.5..0.5_f64, -60.0..60.0_f64, 0.0..5.0_f64);
    let charge = prop_oneof![Just(206e5), Just(0.0), 0.0..206e5_f64];
    (
        prop::collection::vec(fault, 0..4),
        charge,
        203.2..373.1_f64,
        prop::sample::select(vec!["C1", "C2", "C3", "C4", "C5"]),
        prop::sample::select(vec!["up", "down"]),
        ground,
    )
        .prop_map(
            |(faults, charge, kelvin, name, lever, (slope, wind, wear))| {
                let mut parking = Parking::usual();
                parking.switches = state(name);
                parking.switches.push(("lever".into(), lever.into()));
                parking.charge = Some(charge);
                parking.changes = vec![
                    Change::Wear(wear),
                    Change::Temperature(kelvin),
                    Change::Slope(slope),
                    Change::Wind(wind),
                ];
                parking.changes.extend(
                    faults
                        .into_iter()
                        .map(|((part, fault), severity)| Change::Fault(part, fault, severity)),
                );
                parking
            },
        )
}

/// Steps of the solver for a parking of ten hours; the healthy one takes some two hundred.
const MOST_STEPS: u64 = 40_000;

/// Plays ten hours with a warm spell in them, looks at every number on the way, and gives all of
/// them in the bits they have.
fn played(parking: &Parking) -> Result<String, TestCaseError> {
    let mut plant = parking.begin(shared()).unwrap();
    let mut text = String::new();
    for hours in [0.01, 0.5, 2.0, 7.5] {
        plant.step(hours * 3600.0).unwrap();
        if (hours - 2.0).abs() < 1e-9 {
            plant.set(&Change::Temperature(300.0)).unwrap();
            let worn = Change::Fault("brake-l3".into(), "adjuster-let-go".into(), 1.0);
            plant.set(&worn).unwrap();
        }
        text.push_str(&looked_at(&plant)?);
    }
    prop_assert!(plant.steps() < MOST_STEPS, "{} steps", plant.steps());
    Ok(text)
}

fn looked_at(plant: &Handle) -> Result<String, TestCaseError> {
    let sample = plant.sample();
    let mut numbers = vec![plant.hours(), plant.excess(), plant.motion().metres];
    numbers.extend(
        sample
            .gas
            .into_iter()
            .chain(sample.fluid)
            .chain(sample.shut_return),
    );
    numbers.extend(sample.brakes.iter().map(|(_, pressure)| *pressure));
    numbers.extend(
        plant
            .pressures()
            .iter()
            .map(|(_, pressure)| pressure.pascals()),
    );
    numbers.extend(plant.flows().iter().map(|passing| passing.flow));
    let gas = plant.gas("brake-accumulator").unwrap();
    numbers.extend([gas.mass, gas.volume, gas.temperature]);
    prop_assert!(
        numbers.iter().all(|number| number.is_finite()),
        "{numbers:?}"
    );
    prop_assert!(
        gas.mass >= 0.0 && gas.volume > 0.0 && gas.temperature > 150.0,
        "{gas:?}"
    );
    let amiss = plant.balance().amiss;
    prop_assert!(amiss.abs() < 1e-9, "{amiss:e} m3 amiss");
    let bits: Vec<String> = numbers
        .iter()
        .map(|n| format!("{:x}", n.to_bits()))
        .collect();
    Ok(bits.join(" "))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

    #[test]
    fn any_parking_stays_finite_keeps_its_fluid_and_comes_out_the_same(parking in any_parking()) {
        let first = played(&parking)?;
        let second = played(&parking)?;
        prop_assert_eq!(first, second);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 12, ..ProptestConfig::default() })]

    #[test]
    fn any_parking_can_be_read(parking in any_parking()) {
        let rounds = Rounds::play(shared(), &parking, None).unwrap();
        for observed in rounds.observe().unwrap() {
            if let Reading::Number(number) = observed.reading {
                prop_assert!(number.is_finite(), "{} is {number}", observed.name);
            }
        }
    }
}
