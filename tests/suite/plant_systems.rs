//! Every system of the chain from the pedals to the brakes, played part by part.
//!
//! All figures of the aircraft are invented; a figure from elsewhere is named where it stands.

use stillwheel::base::pressure::GaugePressure;
use stillwheel::plant::handle::{Change, Handle};
use stillwheel::plant::observe::Reading;
use stillwheel::plant::parking::Parking;

use crate::demo_plant::{aircraft, begun, hand, look, parking, readings, shows, state, variant};

/// Lever down, brakes free, in a state, with faults.
fn released(text: &str, name: &str) -> Handle {
    let mut parking = parking(text);
    parking.switches = state(name);
    parking.switches.push(("lever".into(), "down".into()));
    begun(&parking)
}

/// Lever up in a state, with faults, at the moment the pumps stop.
fn set(text: &str, name: &str) -> Handle {
    let mut parking = parking(text);
    parking.switches = state(name);
    begun(&parking)
}

fn feet(plant: &mut Handle, seat: &str, left: f64, right: f64) {
    plant
        .set(&Change::Feet(format!("{seat}-pedals"), left, right))
        .unwrap();
    plant.step(3.0).unwrap();
}

fn bar(plant: &Handle, part: &str, port: &str) -> f64 {
    plant.pressure(part, port).unwrap().pascals() / 1e5
}

/// Pressure of the metered lines, left and right.
fn metered(plant: &Handle) -> (f64, f64) {
    (
        bar(plant, "left-metered-line", "fluid"),
        bar(plant, "right-metered-line", "fluid"),
    )
}

fn near(found: f64, wanted: f64, within: f64) -> bool {
    (found - wanted).abs() <= within
}

/// mL/min through a way of a part.
fn flow(plant: &Handle, part: &str, way: &str) -> f64 {
    let flows = plant.flows_of(part);
    let through = flows.iter().filter(|passing| passing.way == way);
    through.map(|passing| passing.flow).sum::<f64>() * 60e6
}

fn number(reading: &Reading) -> f64 {
    match reading {
        Reading::Number(number) => *number,
        other => panic!("{other:?}"),
    }
}

fn gas_bar(plant: &Handle) -> f64 {
    plant.sample().gas.unwrap() / 1e5
}

#[test]
fn either_seat_brakes_each_side_through_rod_crank_cable_and_quadrant() {
    for seat in ["first", "second"] {
        let mut plant = released("none", "C1");
        for (left, right) in [(1.0, 0.0), (0.0, 1.0), (1.0, 1.0)] {
            feet(&mut plant, seat, left, right);
            let (l, r) = metered(&plant);
            assert!(near(l, 206.0 * left, 1.0), "{seat} {left} {right}: {l}");
            assert!(near(r, 206.0 * right, 1.0), "{seat} {left} {right}: {r}");
        }
        feet(&mut plant, seat, 0.0, 0.0);
        let (l, r) = metered(&plant);
        assert!(
            l < 1.0 && r < 1.0,
            "the springs take the pedals back: {l} {r}"
        );
    }
}

/// The cranks hang on the left pedal of the first seat and the right pedal of the second.
#[test]
fn what_breaks_between_seat_and_valve_takes_away_what_hangs_behind_it() {
    let full = |on: bool| if on { 206.0 } else { 0.0 };
    for (fault, seat, left, right) in [
        ("left-cross-rod/detached", "first", true, true),
        ("left-cross-rod/detached", "second", false, true),
        ("right-cross-rod/detached", "first", true, false),
        ("right-cross-rod/detached", "second", true, true),
        ("left-bell-crank/bolt-lost", "first", false, true),
        ("right-bell-crank/bolt-lost", "second", true, false),
        ("left-cable/off-pulley", "first", false, true),
        ("first-pedals/pivot-seized", "first", false, false),
        ("first-pedals/pivot-seized", "second", true, true),
    ] {
        let mut plant = released(fault, "C1");
        feet(&mut plant, seat, 1.0, 1.0);
        let (l, r) = metered(&plant);
        assert!(near(l, full(left), 1.0), "{fault}, {seat} seat: left {l}");
        assert!(near(r, full(right), 1.0), "{fault}, {seat} seat: right {r}");
    }
}

/// 15 % of the travel is dead, the rest asks for 212 bar.
#[test]
fn a_stretched_cable_and_a_quadrant_out_of_rig_take_travel_from_the_command() {
    for (fault, left, right) in [
        ("left-cable/stretched", 62.4, 206.0),
        ("right-cable/stretched", 206.0, 62.4),
        ("quadrant/out-of-rig", 12.5, 12.5),
    ] {
        let mut plant = released(fault, "C1");
        feet(&mut plant, "first", 1.0, 1.0);
        let (l, r) = metered(&plant);
        assert!(near(l, left, 3.0), "{fault}: left {l}");
        assert!(near(r, right, 3.0), "{fault}: right {r}");
    }
}

#[test]
fn the_effort_on_a_pedal_is_its_spring_and_what_the_valve_gives_back() {
    let effort = |text: &str, name: &str| number(&look(&set(text, "C2"), name));
    let both = ["pedal-effort-left-n", "pedal-effort-right-n"];
    for name in both {
        let healthy = effort("none", name);
        assert!(near(healthy, 60.0 + 1.15 * 212.0, 0.5), "{healthy}");
        let unsprung = effort("first-pedals/return-spring-broken", name);
        assert!(near(unsprung, 1.15 * 212.0, 0.5), "{unsprung}");
    }
    let slack = effort("left-cable/stretched", both[0]);
    assert!(near(slack, 60.0 + 1.15 * 62.4, 0.5), "{slack}");
    let untouched = number(&look(&released("none", "C2"), both[0]));
    assert!(near(untouched, 60.0, 0.5), "{untouched}");
}

#[test]
fn either_seat_sets_the_brake_and_either_seat_lets_it_go() {
    for setter in ["first", "second"] {
        for releaser in ["first", "second"] {
            let mut plant = released("none", "C1");
            feet(&mut plant, setter, 1.0, 1.0);
            plant.set(&hand("park-lever", "up")).unwrap();
            plant.step(2.0).unwrap();
            feet(&mut plant, setter, 0.0, 0.0);
            plant.step(10.0).unwrap();
            assert!(plant.latched(), "set by the {setter} seat");
            assert_eq!(plant.clamped(), (8, 8));
            // A press to the stop leaves it on; a press past it takes the load off the pawl.
            feet(&mut plant, releaser, 1.0, 1.0);
            feet(&mut plant, releaser, 0.0, 0.0);
            assert!(plant.latched(), "{releaser} seat pressed to the stop only");
            feet(&mut plant, releaser, 1.05, 1.05);
            feet(&mut plant, releaser, 0.0, 0.0);
            plant.step(20.0).unwrap();
            assert!(!plant.latched(), "{releaser} seat pressed past the stop");
            assert_eq!(plant.clamped(), (0, 8));
        }
    }
}

#[test]
fn the_pawl_catches_only_with_the_lever_up_and_both_pedals_at_the_stop() {
    for (text, left, right, lever, catches) in [
        ("none", 1.0, 1.0, "up", true),
        ("none", 1.0, 0.5, "up", false),
        ("none", 0.0, 0.0, "up", false),
        ("none", 1.0, 1.0, "down", false),
        ("park-lever/rod-broken", 1.0, 1.0, "up", false),
        ("park-latch/dirty", 1.0, 1.0, "up", false),
    ] {
        let mut plant = released(text, "C1");
        feet(&mut plant, "first", left, right);
        plant.set(&hand("park-lever", lever)).unwrap();
        plant.step(2.0).unwrap();
        feet(&mut plant, "first", 0.0, 0.0);
        plant.step(10.0).unwrap();
        assert_eq!(plant.latched(), catches, "{text}, {left} {right}, {lever}");
        let wanted = if catches { 8 } else { 0 };
        assert_eq!(plant.clamped().0, wanted, "{text}, {left} {right}, {lever}");
    }
}

#[test]
fn a_worn_pawl_and_a_weak_spring_let_go_by_themselves() {
    for (text, hours) in [
        ("park-latch/pawl-worn", 0.7),
        ("park-latch/spring-weak", 5.0),
    ] {
        let mut plant = set(text, "C4");
        plant.step(hours * 3600.0 - 60.0).unwrap();
        assert!(plant.latched() && plant.clamped().0 == 8, "{text}");
        plant.step(120.0).unwrap();
        assert!(!plant.latched() && plant.clamped().0 == 0, "{text}");
    }
}

#[test]
fn the_valve_takes_three_seconds_and_the_light_comes_with_its_end() {
    let mut plant = released("none", "C3");
    plant.feet(1.0).unwrap();
    plant.step(2.0).unwrap();
    assert!(shows(&plant, "position-indicator", "open"));
    plant.set(&hand("park-lever", "up")).unwrap();
    // The pawl catches in the first moment; from then on the motor runs.
    plant.step(0.1).unwrap();
    assert!(plant.latched());
    plant.step(2.6).unwrap();
    assert!(shows(&plant, "position-indicator", "short-of-shut"));
    assert!(shows(&plant, "park-light", "dark"));
    assert!(shows(&plant, "held-caption", "not-shown"));
    plant.step(0.6).unwrap();
    assert!(shows(&plant, "position-indicator", "shut"));
    assert!(shows(&plant, "park-light", "lit"));
    assert!(shows(&plant, "held-caption", "shown"));
    assert!(shows(&plant, "park-relay", "in"));
    // The limit switch has taken the motor off, with volts still on its pin.
    assert!(near(number(&look(&plant, "close-volts")), 24.0, 0.1));
    assert!(shows(&plant, "valve-motor-on-release", "runs"));
    plant.feet(0.0).unwrap();
    plant.release_park_brake().unwrap();
    assert!(shows(&plant, "position-indicator", "open"));
    assert!(shows(&plant, "park-light", "dark"));
}

#[test]
fn the_valve_stays_put_without_power_and_moves_on_when_it_returns() {
    let breaker = |position| hand("valve-breaker", position);
    let mut plant = released("none", "C3");
    plant.feet(1.0).unwrap();
    plant.step(2.0).unwrap();
    plant.set(&hand("park-lever", "up")).unwrap();
    plant.step(1.5).unwrap();
    plant.set(&breaker("out")).unwrap();
    plant.step(60.0).unwrap();
    assert!(shows(&plant, "position-indicator", "short-of-shut"));
    assert!(shows(&plant, "valve-breaker", "out"));
    plant.set(&breaker("in")).unwrap();
    plant.step(1.0).unwrap();
    assert!(shows(&plant, "position-indicator", "short-of-shut"));
    plant.step(1.0).unwrap();
    assert!(shows(&plant, "position-indicator", "shut"));
    plant.feet(0.0).unwrap();
    // Disconnected while it is shut: it stays shut as the lever goes down, and opens afterwards.
    plant
        .set(&Change::Switch("battery".into(), "disconnected".into()))
        .unwrap();
    plant.release_park_brake().unwrap();
    plant.step(60.0).unwrap();
    assert!(shows(&plant, "position-indicator", "shut"));
    assert_eq!(
        plant.clamped().0,
        0,
        "the metering valves let the brakes go"
    );
    plant
        .set(&Change::Switch("battery".into(), "connected-off".into()))
        .unwrap();
    plant.step(4.0).unwrap();
    assert!(shows(&plant, "position-indicator", "open"));
}

#[test]
fn the_latch_switch_is_fed_from_the_hot_battery_bus() {
    // The battery switch is off all the while.
    let plant = set("none", "C4");
    assert!(near(number(&look(&plant, "close-volts")), 24.0, 0.1));
    assert!(shows(&plant, "position-indicator", "shut"));
    for text in [
        "hot-battery-bus/flat",
        "valve-breaker/open",
        "valve-breaker/will-not-latch",
        "latch-switch/open-in-set",
        "latch-switch/mis-set",
        "close-wire/open",
    ] {
        let plant = set(text, "C4");
        assert!(number(&look(&plant, "close-volts")) < 1.0, "{text}");
        assert!(shows(&plant, "position-indicator", "open"), "{text}");
    }
    // Fourteen volts do not turn the motor.
    let weak = set("close-wire/high-resistance", "C4");
    assert!(near(number(&look(&weak, "close-volts")), 14.0, 0.1));
    assert!(shows(&weak, "position-indicator", "open"));
}

#[test]
fn relay_light_and_caption_tell_of_the_cam_and_each_fails_alone() {
    let row = |plant: &Handle| {
        let word = |name: &str| match look(plant, name) {
            Reading::Word(word) => word,
            _ => "dead".to_owned(),
        };
        ["park-relay", "park-light", "held-caption"].map(word)
    };
    for (text, relay, light, caption) in [
        ("none", "in", "lit", "shown"),
        ("park-light/open", "in", "dark", "shown"),
        ("held-caption/input-dead", "in", "lit", "not-shown"),
        ("park-relay/one-contact-open", "in", "dark", "shown"),
        ("park-relay/does-not-pull-in", "out", "dark", "not-shown"),
        (
            "park-valve-switches/closed-does-not-make",
            "out",
            "dark",
            "not-shown",
        ),
        // The cam goes round and the valve does not: both say held.
        ("park-valve-motor/gearbox-slips", "in", "lit", "shown"),
    ] {
        assert_eq!(row(&set(text, "C3")), [relay, light, caption], "{text}");
    }
    let mut plant = set("none", "C3");
    plant.set(&hand("held-caption", "display-off")).unwrap();
    assert_eq!(row(&plant), ["in", "lit", "not-shown"]);
    let slipped = set("park-valve-motor/gearbox-slips", "C3");
    assert!(shows(&slipped, "position-indicator", "open"));
}

#[test]
fn the_metering_valve_regulates_stands_wide_open_or_lets_go() {
    let lap = |plant: &Handle| flow(plant, "left-metering-valve", "brake to return");
    // Half way: 87 bar asked for, held within the 3 bar of its opening.
    let mut plant = released("none", "C1");
    feet(&mut plant, "first", 0.5, 0.5);
    plant.step(60.0).unwrap();
    let asked = (0.5 - 0.15) / 0.85 * 212.0;
    let (left, _) = metered(&plant);
    assert!(near(left, asked, 3.0), "{left} for {asked}");
    assert!(
        lap(&plant) > 1.3 * left / 200.0 * 1.5,
        "near its null it leaks more"
    );
    // Parked, the supply is below the command: wide open, and the lap leaks its small figure.
    let mut plant = set("none", "C2");
    plant.step(1800.0).unwrap();
    let (left, _) = metered(&plant);
    let supply = bar(&plant, "left-metering-valve", "supply");
    assert!(near(left, supply, 0.1), "{left} from {supply}");
    assert!(
        near(lap(&plant), 1.3 * left / 200.0, 0.02),
        "{}",
        lap(&plant)
    );
    // Released: open to return, and the supply leaks its small figure.
    let plant = released("none", "C1");
    let (left, _) = metered(&plant);
    let land = flow(&plant, "left-metering-valve", "supply to brake");
    assert!(left < 0.1, "{left}");
    assert!(near(land, 1.3 * 206.0 / 200.0, 0.02), "{land}");
}

#[test]
fn a_valve_that_sticks_drags_one_side_and_a_worn_spool_leaks() {
    let mut plant = released("right-metering-valve/sticks-applied", "C1");
    feet(&mut plant, "first", 1.0, 1.0);
    feet(&mut plant, "first", 0.0, 0.0);
    plant.step(20.0).unwrap();
    let (left, right) = metered(&plant);
    assert!(left < 1.0 && near(right, 25.0, 3.0), "{left} {right}");
    let plant = set("left-metering-valve/spool-worn", "C2");
    let lap = flow(&plant, "left-metering-valve", "brake to return");
    assert!(near(lap, 21.3 * 206.0 / 200.0, 0.2), "{lap}");
}

/// Eight nozzles of 37 mL/min at 206 bar.
#[test]
fn the_anti_skid_leak_is_large_with_the_pedals_and_nothing_with_its_return_shut() {
    let nozzles = |plant: &Handle| {
        flow(plant, "left-anti-skid", "nozzles") + flow(plant, "right-anti-skid", "nozzles")
    };
    for (text, with_pedals) in [
        ("none", 297.0),
        (
            "left-anti-skid/leak-high+right-anti-skid/leak-high",
            4.0 * 297.0,
        ),
    ] {
        let mut plant = released(text, "C1");
        feet(&mut plant, "first", 1.0, 1.0);
        plant.step(30.0).unwrap();
        let found = nozzles(&plant);
        assert!(
            near(found, with_pedals, 0.02 * with_pedals),
            "{text}: {found}"
        );
        let mut plant = set(text, "C2");
        plant.step(1800.0).unwrap();
        let shut = bar(&plant, "park-shut-off-valve", "in");
        let (left, _) = metered(&plant);
        assert!(
            near(shut, left, 0.5),
            "{text}: return {shut}, brakes {left}"
        );
        let seat = flow(&plant, "park-shut-off-valve", "closed seat");
        let through = nozzles(&plant);
        // What comes through is what the closed valve lets out, and what the return gives back.
        assert!(
            through < 1.5 && near(through, seat, 0.3),
            "{text}: {through} and {seat}"
        );
    }
}

#[test]
fn the_second_supply_meters_on_its_own_and_its_return_is_never_shut() {
    let mut plant = set("none", "C1");
    plant.set(&hand("main-pump", "off")).unwrap();
    plant.step(600.0).unwrap();
    assert!(shows(&plant, "position-indicator", "shut"));
    assert_eq!(plant.clamped().0, 8);
    let leak = flow(&plant, "second-left-anti-skid", "nozzles")
        + flow(&plant, "second-right-anti-skid", "nozzles");
    assert!(near(leak, 297.0, 6.0), "{leak}");
    let blocked = flow(&plant, "park-shut-off-valve", "closed seat");
    assert!(blocked < 1.5, "{blocked}");
    // Half a pedal asks the second valves for the same as the normal ones.
    let mut plant = released("none", "C1");
    plant.set(&hand("main-pump", "off")).unwrap();
    plant.step(600.0).unwrap();
    feet(&mut plant, "first", 0.5, 0.5);
    plant.step(30.0).unwrap();
    let asked = (0.5 - 0.15) / 0.85 * 212.0;
    let second = bar(&plant, "second-left-metering-valve", "brake");
    assert!(near(second, asked, 3.0), "{second} for {asked}");
    // The store is cut off, and the second pump does not charge it.
    let before = gas_bar(&plant);
    plant.step(600.0).unwrap();
    assert!(gas_bar(&plant) <= before);
}

#[test]
fn the_second_supply_comes_in_only_while_the_main_one_is_low() {
    let second = |plant: &Handle| bar(plant, "second-line", "fluid");
    let mut plant = released("none", "C1");
    plant.step(600.0).unwrap();
    assert!(flow(&plant, "supply-changer", "open").abs() < 1e-9);
    plant.set(&hand("main-pump", "off")).unwrap();
    // From 206 bar with 60 s: 43 s to 100 bar.
    plant.step(40.0).unwrap();
    assert!(second(&plant) < 190.0, "{}", second(&plant));
    plant.step(20.0).unwrap();
    assert!(second(&plant) > 200.0, "{}", second(&plant));
    let mut stuck = released("supply-changer/stuck-shut", "C1");
    stuck.set(&hand("main-pump", "off")).unwrap();
    stuck.step(600.0).unwrap();
    assert!(second(&stuck) < 190.0, "{}", second(&stuck));
}

#[test]
fn a_shuttle_goes_to_the_higher_side_and_stays_there() {
    // The node its open way comes from tells the side.
    let side = |plant: &Handle| {
        let flows = plant.flows_of("shuttle-r3");
        let open = flows.iter().find(|passing| passing.serves).unwrap();
        open.ends.0
    };
    let mut plant = released("none", "C1");
    feet(&mut plant, "first", 1.0, 1.0);
    let normal = side(&plant);
    feet(&mut plant, "first", 0.0, 0.0);
    plant.step(30.0).unwrap();
    assert_eq!(side(&plant), normal, "nothing shifts it back");
    plant.set(&hand("main-pump", "off")).unwrap();
    plant.step(600.0).unwrap();
    feet(&mut plant, "first", 1.0, 1.0);
    plant.step(10.0).unwrap();
    let second = side(&plant);
    assert_ne!(second, normal, "the second side was higher");
    feet(&mut plant, "first", 0.0, 0.0);
    plant.step(30.0).unwrap();
    assert_eq!(side(&plant), second, "with both sides at nothing it stays");
    plant.set(&hand("main-pump", "on")).unwrap();
    plant.set(&hand("second-pump", "off")).unwrap();
    plant.step(600.0).unwrap();
    feet(&mut plant, "first", 1.0, 1.0);
    plant.step(10.0).unwrap();
    assert_eq!(side(&plant), normal);
}

/// Precharge put in at 20 C: 76 bar there, and by the reference equation of nitrogen
/// (J. Phys. Chem. Ref. Data 29(6) 2000) 65.1 at -15 C, where an ideal gas has 66.8.
#[test]
fn the_store_is_real_nitrogen_behind_a_floating_piston() {
    for (celsius, wanted) in [(20.0, 76.0), (15.0, 74.4), (-15.0, 65.1)] {
        let mut parking = parking("none");
        parking.charge = Some(0.0);
        parking.changes.push(Change::Temperature(celsius + 273.15));
        let plant = begun(&parking);
        let found = gas_bar(&plant);
        assert!(near(found, wanted, 0.15), "{celsius} C: {found}");
    }
    // Between its ends the gas stands a bar above the fluid.
    let mut plant = set("none", "C2");
    plant.step(3600.0).unwrap();
    let sample = plant.sample();
    let above = (sample.gas.unwrap() - sample.fluid.unwrap()) / 1e5;
    assert!(near(above, 1.0, 0.05), "{above}");
}

#[test]
fn the_piston_stops_at_both_ends() {
    // Empty: the gas keeps its precharge while the fluid has nothing.
    let mut parking = parking("none");
    parking.charge = Some(0.0);
    let plant = begun(&parking);
    assert!(plant.bottomed());
    let sample = plant.sample();
    assert!(sample.fluid.unwrap() < 1e5 && near(gas_bar(&plant), 74.4, 0.2));
    // No charge: the piston stops on the gas end with 7 % of the volume, far below the fluid.
    let plant = set("brake-accumulator/gas-lost", "C1");
    let gas = plant.gas("brake-accumulator").unwrap();
    assert!(near(gas.volume * 1e3, 0.364, 0.001), "{}", gas.volume);
    let sample = plant.sample();
    let (gas, fluid) = (sample.gas.unwrap() / 1e5, sample.fluid.unwrap() / 1e5);
    assert!(gas < 20.0 && fluid > 200.0, "{gas} beside {fluid}");
}

#[test]
fn fluid_that_passed_the_piston_takes_room_and_leaves_the_mass() {
    let healthy = set("none", "C2").gas("brake-accumulator").unwrap();
    let passed = set("brake-accumulator/piston-seal", "C2");
    let gas = passed.gas("brake-accumulator").unwrap();
    assert!(near(gas.mass / healthy.mass, 1.0, 1e-9));
    // Pumped empty, 3.6 L are left of 5.2, and that stands well above the chart.
    let mut parking = parking("brake-accumulator/piston-seal");
    parking.charge = Some(0.0);
    let empty = begun(&parking);
    let volume = empty.gas("brake-accumulator").unwrap().volume;
    assert!(near(volume * 1e3, 3.6, 1e-6), "{volume}");
    assert!(gas_bar(&empty) > 105.0, "{}", gas_bar(&empty));
}

#[test]
fn check_valves_hold_back_the_store_and_pass_the_pump() {
    let mut plant = set("none", "C2");
    plant.step(1800.0).unwrap();
    for valve in ["charge-check-valve", "supply-check-valve"] {
        let back = flow(&plant, valve, "back");
        let wanted = 0.6 * plant.sample().fluid.unwrap() / 200e5;
        assert!(near(back, wanted, 0.02), "{valve}: {back}");
    }
    // Forward the charge valve fills an empty store in seconds; stuck shut it never does.
    for (text, fills) in [("none", true), ("charge-check-valve/stuck-shut", false)] {
        let mut parking = parking(text);
        parking.charge = Some(0.0);
        parking.switches.push(("lever".into(), "down".into()));
        let mut plant = begun(&parking);
        plant.set(&hand("main-pump", "on")).unwrap();
        plant.step(600.0).unwrap();
        assert_eq!(
            gas_bar(&plant) > 200.0,
            fills,
            "{text}: {}",
            gas_bar(&plant)
        );
    }
}

#[test]
fn either_system_shuts_the_isolation_valve_and_its_spring_opens_it() {
    let open = |plant: &Handle| {
        let flows = plant.flows_of("isolation-valve");
        flows.iter().any(|passing| passing.way == "open")
    };
    for (main, second, opens) in [
        ("off", "off", true),
        ("on", "off", false),
        ("off", "on", false),
        ("on", "on", false),
    ] {
        let mut plant = released("none", "C1");
        plant.set(&hand("main-pump", main)).unwrap();
        plant.set(&hand("second-pump", second)).unwrap();
        plant.step(300.0).unwrap();
        assert_eq!(open(&plant), opens, "main {main}, second {second}");
    }
    // With both stopped at 206 bar the main pilot passes 55 bar last, after 60 s ln(206/55).
    let mut plant = set("none", "C2");
    plant.step(78.0).unwrap();
    assert!(!open(&plant));
    plant.step(3.0).unwrap();
    assert!(open(&plant));
}

#[test]
fn the_relief_valve_keeps_a_store_that_warms_up_at_its_cracking_pressure() {
    let warmed = |text: &str| {
        let mut plant = released(text, "C2");
        plant.set(&Change::Wear(0.0)).unwrap();
        plant.set(&Change::Temperature(273.15 + 65.0)).unwrap();
        plant.step(3600.0).unwrap();
        plant.sample().fluid.unwrap() / 1e5
    };
    let healthy = warmed("none");
    assert!(near(healthy, 241.0, 1.0), "{healthy}");
    let low = warmed("relief-valve/cracks-low");
    assert!(near(low, 150.0, 1.0), "{low}");
}

#[test]
fn transmitter_and_indicator_follow_the_law_of_the_document_and_its_sign() {
    let rising = set("none", "C3");
    let bar = gas_bar(&rising);
    let ohms = number(&look(&rising, "transmitter-ohm"));
    assert!(near(ohms, 150.0 + 6.0 * bar, 0.01), "{ohms}");
    assert!(near(
        number(&look(&rising, "pressure-indicator-bar")),
        bar,
        0.01
    ));
    assert!(near(number(&look(&rising, "gas-gauge-bar")), bar, 0.01));
    // 1386 ohm is 206 bar, whatever the transmitter says.
    let dead = set("gas-transmitter/open-circuit", "C3");
    assert_eq!(look(&dead, "pressure-indicator-bar"), Reading::Dead);
    assert!(near(
        number(&look(&dead, "indicator-at-1386-ohm-bar")),
        206.0,
        0.01
    ));
    let falling = variant(&[
        (
            "    zero: 150 ohm\n    per-bar: 6 ohm\n    error: 5.5 bar\n",
            "    zero: 2000 ohm\n    per-bar: 0 ohm\n    falls-per-bar: 7 ohm\n    error: 5.5 bar\n",
        ),
        (
            "    zero: 150 ohm\n    per-bar: 6 ohm\n    error: 8.3 bar\n",
            "    zero: 2000 ohm\n    per-bar: 0 ohm\n    falls-per-bar: 7 ohm\n    error: 8.3 bar\n",
        ),
    ]);
    let mut parking = Parking::usual();
    parking.switches = state("C3");
    let plant = parking.begin(&falling).unwrap();
    let ohms = number(&look(&plant, "transmitter-ohm"));
    assert!(near(ohms, 2000.0 - 7.0 * bar, 0.01), "{ohms}");
    assert!(near(
        number(&look(&plant, "pressure-indicator-bar")),
        bar,
        0.01
    ));
}

#[test]
fn what_works_in_which_state_of_power() {
    for (name, volts, shows_it, position) in [
        ("C1", 24.0, true, "shut"),
        ("C2", 24.0, true, "shut"),
        ("C3", 24.0, true, "shut"),
        ("C4", 24.0, false, "shut"),
        ("C5", 0.0, false, "open"),
    ] {
        let plant = set("none", name);
        let found = number(&look(&plant, "close-volts"));
        assert!(near(found, volts, 0.1), "{name}: {found}");
        assert!(shows(&plant, "position-indicator", position), "{name}");
        let light = if shows_it { "lit" } else { "dark" };
        let caption = if shows_it { "shown" } else { "not-shown" };
        assert!(shows(&plant, "park-light", light), "{name}");
        assert!(shows(&plant, "held-caption", caption), "{name}");
        let dead = look(&plant, "pressure-indicator-bar") == Reading::Dead;
        assert_eq!(!dead, shows_it, "{name}");
        let running = plant.pumps_run();
        assert_eq!(running, name == "C1");
        // The direct gauge needs nothing.
        assert!(number(&look(&plant, "gas-gauge-bar")) > 200.0, "{name}");
    }
    // Main power lights the bus although the battery switch's contact is open; alone, nothing does.
    for (name, light) in [("C2", "lit"), ("C3", "dark")] {
        let plant = set("battery-switch/contact-open", name);
        assert!(shows(&plant, "park-light", light), "{name}");
    }
}

#[test]
fn cold_and_dark_the_brake_sets_and_shows_nothing_and_that_is_normal() {
    let mut plant = released("none", "C4");
    plant.step(300.0).unwrap();
    plant.set_park_brake().unwrap();
    plant.step(600.0).unwrap();
    assert!(plant.latched());
    assert_eq!(plant.clamped(), (8, 8));
    assert!(shows(&plant, "position-indicator", "shut"));
    assert!(shows(&plant, "park-light", "dark"));
    assert!(shows(&plant, "held-caption", "not-shown"));
    assert_eq!(look(&plant, "pressure-indicator-bar"), Reading::Dead);
    // Battery on, and everything is there; nothing has moved for it.
    let before = gas_bar(&plant);
    plant
        .set(&Change::Switch("battery".into(), "connected-on".into()))
        .unwrap();
    plant.step(1.0).unwrap();
    assert!(shows(&plant, "park-light", "lit"));
    assert!(shows(&plant, "held-caption", "shown"));
    assert!(near(
        number(&look(&plant, "pressure-indicator-bar")),
        before,
        0.1
    ));
}

/// About 25 cm3 a brake at 206 bar.
#[test]
fn release_gives_the_fluid_of_the_brakes_back_to_the_reservoir() {
    let mut plant = set("none", "C2");
    plant.step(300.0).unwrap();
    plant.open_account();
    plant.release_park_brake().unwrap();
    let balance = plant.balance();
    let main = balance.reservoirs[0].1 * 1e6;
    assert!((180.0..300.0).contains(&main), "{main} cm3");
    assert!(balance.overboard.abs() < 1e-12);
    assert!(balance.amiss.abs() < 1e-12);
    assert_eq!(plant.clamped().0, 0);
}

/// Without any leak the gauge falls after a fast charge, for the gas was warm. One node of the same
/// nitrogen, integrated apart from the sources, falls 65.1 bar with pumps stopped at once, and
/// 41.5, 25.1 and 4.7 after 60, 120 and 300 s with the pump on, where the lag is the thermal time
/// constant at constant volume. If the temperature simply relaxes with the same 60 s, whatever is
/// pumped in meanwhile, it is 31.1, 12.9 and 0.7, as the reference has it; fluid that follows the
/// shrinking gas heats it, so the plant keeps to the first. Charging takes it some three seconds.
#[test]
fn after_a_fast_charge_the_gauge_falls_with_no_leak() {
    for (seconds, wanted) in [(0.0, 65.1), (60.0, 41.5), (120.0, 25.1), (300.0, 4.7)] {
        let mut parking = parking("none");
        parking.charge = Some(0.0);
        parking.switches.push(("lever".into(), "down".into()));
        parking.changes.push(Change::Wear(0.0));
        let mut plant = begun(&parking);
        plant.set(&hand("main-pump", "on")).unwrap();
        while plant.sample().fluid.unwrap() < 205.0e5 {
            plant.step(0.2).unwrap();
            assert!(plant.hours() < 0.01, "it fills in seconds");
        }
        plant.step(seconds).unwrap();
        plant.set(&hand("main-pump", "off")).unwrap();
        let before = gas_bar(&plant);
        plant.step(1200.0).unwrap();
        let fell = before - gas_bar(&plant);
        // Up to 6 % is lost in the seconds of the charge.
        let least = f64::min(0.93 * wanted, wanted - 0.3);
        assert!(
            (least..=wanted + 0.5).contains(&fell),
            "{seconds} s: {fell}"
        );
    }
}

/// 14 CFR 25.735(h) asks a store for six full applications without anti-skid. Pumps have run down,
/// for the second one would fill the clearances; nothing leaks meanwhile, so that it starts full.
#[test]
fn the_store_gives_six_full_applications_and_ten_that_still_bring_70_bar() {
    let mut plant = released("none", "C2");
    plant.set(&Change::Wear(0.0)).unwrap();
    plant.step(300.0).unwrap();
    let full = plant.sample().fluid.unwrap() / 1e5;
    let mut reached = Vec::new();
    for _ in 0..11 {
        reached.push(plant.apply_pedals().unwrap() / 1e5);
    }
    assert!(near(full, 206.0, 1.0), "{full}");
    assert!(near(reached[0], 163.0, 2.0), "{reached:?}");
    assert!(near(reached[5], 90.0, 2.0), "{reached:?}");
    assert!(reached[9] >= 70.0, "{reached:?}");
}

/// A fault that changed nothing would be a name without a mechanism. One is silent by right: the
/// left pedals hang on the first seat, which set the brake; it shows from the second seat, above.
#[test]
fn every_fault_of_the_document_changes_what_is_read() {
    let demo = aircraft();
    let all = |text: &str| ["C3", "C1"].map(|name| readings(&demo, text, name));
    let healthy = (quick("none"), all("none"));
    let mut silent = Vec::new();
    for part in &demo.parts {
        for fault in &part.faults {
            let text = format!("{}/{}", part.id, fault.id);
            if quick(&text) == healthy.0 && all(&text) == healthy.1 {
                silent.push(text);
            }
        }
    }
    assert_eq!(silent, ["left-cross-rod/detached"]);
}

/// What costs little to read: pressures after a quarter of an hour, and a few looks.
fn quick(text: &str) -> (Vec<(String, f64)>, Vec<Reading>) {
    let mut plant = set(text, "C3");
    let looks = [
        "park-light",
        "held-caption",
        "position-indicator",
        "close-volts",
        "gas-gauge-bar",
        "pressure-indicator-bar",
        "pedal-effort-left-n",
        "wet",
    ];
    let looks = looks.map(|name| look(&plant, name)).to_vec();
    plant.step(900.0).unwrap();
    let named = |(name, pressure): (String, GaugePressure)| (name, pressure.pascals());
    (plant.pressures().into_iter().map(named).collect(), looks)
}
