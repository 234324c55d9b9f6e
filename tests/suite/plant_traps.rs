//! Traps that get the wrong part changed, each played through what can be read.
//!
//! The traps are common practice, no source; every figure is the demo aircraft's and invented.

use stillwheel::plant::handle::{Change, Handle};
use stillwheel::plant::observe::{Observed, Reading};
use stillwheel::plant::physics::gas_charge::GasCharge;

use crate::demo_plant::{
    aircraft, begun, hand, hours_to_creep, look, number, parking, read, readings, shows, state,
    word,
};

fn in_state(text: &str, name: &str) -> Vec<Observed> {
    readings(&aircraft(), text, name)
}

fn near(found: f64, wanted: f64, within: f64) -> bool {
    (found - wanted).abs() <= within
}

fn gas_bar(plant: &Handle) -> f64 {
    plant.sample().gas.unwrap() / 1e5
}

fn hold(text: &str) -> f64 {
    hours_to_creep(&parking(text), 0.01, 48.0).unwrap()
}

/// Names of the readings that differ beyond their edge.
fn differ(found: &[Observed], healthy: &[Observed]) -> Vec<String> {
    let both = found.iter().zip(healthy);
    both.filter(
        |(found, healthy)| match (&found.reading, &healthy.reading) {
            (Reading::Number(a), Reading::Number(b)) => (a - b).abs() > found.edge,
            (a, b) => a != b,
        },
    )
    .map(|(found, _)| found.name.clone())
    .collect()
}

#[test]
fn an_anti_skid_leak_is_blamed_for_a_bleed_down_it_cannot_cause() {
    let text = "left-anti-skid/leak-high+right-anti-skid/leak-high";
    assert!(near(hold(text), hold("none"), 0.05));
    let (found, healthy) = (in_state(text, "C2"), in_state("none", "C2"));
    // Parked, nothing tells it; pedals held with the lever down do.
    assert_eq!(differ(&found, &healthy), ["gas-fall-pedals-held-bar"]);
    // With the real cause, which the module hides behind, changing the module changes nothing.
    let seat = "park-shut-off-valve/seat-leak";
    let leaking = hold(&format!("{seat}+{text}"));
    assert!(near(leaking, hold(seat), 0.05 * leaking), "{leaking}");
}

#[test]
fn a_healthy_fall_with_the_pedals_held_looks_like_a_fault() {
    let fall = number(&in_state("none", "C2"), "gas-fall-pedals-held-bar");
    // More in two minutes than the parked brake loses in an hour.
    let parked = number(&in_state("none", "C2"), "gas-fall-30-to-60-min-bar");
    assert!(fall > 2.0 * parked, "{fall} and {parked}");
}

#[test]
fn the_noise_is_at_a_healthy_metering_valve_and_the_cause_is_a_rod_or_a_cable() {
    for (text, noisy, effort, healthy) in [
        (
            "right-cross-rod/detached",
            "right-metering-valve",
            "pedal-effort-right-n",
            false,
        ),
        (
            "left-cable/stretched",
            "left-metering-valve",
            "pedal-effort-left-n",
            false,
        ),
        (
            "left-metering-valve/spool-worn",
            "left-metering-valve",
            "pedal-effort-left-n",
            true,
        ),
    ] {
        let found = in_state(text, "C2");
        assert_eq!(word(&found, "heard"), noisy, "{text}");
        // Only the effort on the pedal tells them apart.
        let felt = number(&found, effort);
        assert_eq!(near(felt, 303.8, 25.0), healthy, "{text}: {felt} N");
    }
}

#[test]
fn a_dark_light_is_a_lamp_a_relay_or_an_open_valve_and_the_position_indicator_tells() {
    for (text, caption, position) in [
        ("park-light/open", "shown", "shut"),
        ("park-relay/does-not-pull-in", "not-shown", "shut"),
        (
            "park-valve-switches/closed-does-not-make",
            "not-shown",
            "shut",
        ),
        ("latch-switch/open-in-set", "not-shown", "open"),
        ("park-shut-off-valve/jammed-open", "not-shown", "open"),
    ] {
        let found = in_state(text, "C3");
        assert_eq!(word(&found, "park-light"), "dark", "{text}");
        assert_eq!(word(&found, "held-caption"), caption, "{text}");
        assert_eq!(word(&found, "position-indicator"), position, "{text}");
        let empty = number(&found, "gas-gauge-bar") < 80.0;
        assert_eq!(empty, position == "open", "{text}");
    }
}

#[test]
fn a_dead_lamp_beside_a_seat_leak_is_taken_for_the_whole_fault() {
    let both = "park-light/open+park-shut-off-valve/seat-leak";
    let found = in_state(both, "C3");
    assert_eq!(word(&found, "park-light"), "dark");
    assert_eq!(word(&found, "position-indicator"), "shut");
    // A new lamp lights, and the brake holds no longer than before.
    let lamp_changed = in_state("park-shut-off-valve/seat-leak", "C3");
    assert_eq!(word(&lamp_changed, "park-light"), "lit");
    assert!(near(hold(both), 4.74, 0.1) && hold("park-light/open") > 15.0);
    assert_eq!(word(&found, "heard"), "park-shut-off-valve");
}

/// 206 bar put in at 20 C, nothing leaking: 171 bar at -15 C by the reference equation of nitrogen
/// (J. Phys. Chem. Ref. Data 29(6) 2000); an ideal gas would have 181.
#[test]
fn cold_is_not_a_leak() {
    let mut parking = parking("none");
    parking.changes.push(Change::Temperature(293.15));
    parking.changes.push(Change::Wear(0.0));
    parking.switches.push(("lever".into(), "down".into()));
    let mut plant = begun(&parking);
    plant.step(600.0).unwrap();
    let full = gas_bar(&plant);
    assert!(near(full, 207.0, 0.2), "{full}");
    // The gas alone, with its volume as it is.
    let gas = plant.gas("brake-accumulator").unwrap();
    let cold = GasCharge {
        temperature: 258.15,
        ..gas
    };
    let alone = (cold.pressure() - 101_325.0) / 1e5;
    assert!(near(alone, 171.5, 1.0), "{alone}");
    // In the plant the fluid of the lines shrinks too and takes a little from the store, and no
    // drop of it goes missing although the change is sudden.
    plant.set(&Change::Temperature(258.15)).unwrap();
    plant.step(1800.0).unwrap();
    let shown = gas_bar(&plant);
    assert!(
        shown < alone && shown > alone - 5.0,
        "{shown}, {alone} alone"
    );
    // Warm again, all of it is back: nothing was lost.
    plant.set(&Change::Temperature(293.15)).unwrap();
    plant.step(1800.0).unwrap();
    assert!(near(gas_bar(&plant), full, 1.0), "{}", gas_bar(&plant));
    // And the brake holds the longer for it.
    let at = |celsius: f64| {
        let mut parking = crate::demo_plant::parking("none");
        parking.changes.push(Change::Temperature(celsius + 273.15));
        hours_to_creep(&parking, 0.01, 80.0).unwrap()
    };
    assert!(at(-15.0) > 3.0 * at(15.0));
}

#[test]
fn steady_at_the_precharge_is_empty_and_not_tight() {
    let found = in_state("park-shut-off-valve/jammed-open", "C2");
    let fall = number(&found, "gas-fall-30-to-60-min-bar");
    assert!(fall.abs() < 0.1, "{fall}");
    assert!(near(number(&found, "gas-gauge-bar"), 74.4, 0.2));
    assert_eq!(word(&found, "brakes-clamped"), "0 of 8");
    // The healthy one falls all the while, and holds.
    let healthy = in_state("none", "C2");
    assert!(number(&healthy, "gas-fall-30-to-60-min-bar") > 10.0);
    assert_eq!(word(&healthy, "brakes-clamped"), "8 of 8");
}

#[test]
fn a_transmitter_that_reads_high_hides_a_low_gas_charge() {
    let found = in_state("brake-accumulator/gas-low+gas-transmitter/reads-high", "C2");
    let healthy = in_state("none", "C2");
    let far = number(&found, "pressure-indicator-bar");
    let near_by = number(&found, "gas-gauge-bar");
    assert!(
        near(far, 201.0, 2.0) && near(near_by, 171.0, 2.0),
        "{far} {near_by}"
    );
    // The flight deck sees more than on a healthy aircraft; the direct gauge and the knee do not.
    assert!(far > number(&healthy, "pressure-indicator-bar"));
    assert!(near_by < number(&healthy, "gas-gauge-bar") - 5.0);
    assert!(near(number(&found, "indicator-minus-gauge-bar"), 30.0, 0.1));
    assert!(number(&found, "knee-bar") < 40.0);
    assert!(number(&found, "applications") < 6.0);
}

#[test]
fn a_low_gas_charge_holds_longer_and_an_overcharge_shorter() {
    let healthy = hold("none");
    assert!(hold("brake-accumulator/gas-low") > 2.0 * healthy);
    assert!(hold("brake-accumulator/overcharged") < 0.5 * healthy);
    // What it ruins is the applications.
    let count = |text| number(&in_state(text, "C2"), "applications");
    assert!(count("brake-accumulator/gas-low") < 0.5 * count("none"));
}

/// The precharge at 20 C that a mass of gas would show with all fluid out.
fn precharge_of(gas: GasCharge) -> f64 {
    let empty = GasCharge {
        volume: 5.2e-3,
        temperature: 293.15,
        ..gas
    };
    empty.pressure() - 101_325.0
}

#[test]
fn gas_added_on_fluid_overcharges_and_gas_set_on_fluid_undercharges() {
    let with = |precharge: f64| {
        let mut parking = parking("none");
        parking.changes.push(Change::Precharge(precharge, 293.15));
        parking
    };
    let knee = |precharge: f64| {
        let mut parking = with(precharge);
        parking.switches = state("C2");
        let rounds = stillwheel::plant::observe::Rounds::play(&aircraft(), &parking, None).unwrap();
        match rounds.observe_one("knee-bar").unwrap().unwrap().reading {
            Reading::Number(bar) => bar,
            other => panic!("{other:?}"),
        }
    };
    // A gauge of 120 bar in the morning, topped up with gas to the 206 of a full store.
    let mut low = parking("none");
    low.charge = Some(120e5);
    let volume = begun(&low).gas("brake-accumulator").unwrap().volume;
    let topped = precharge_of(GasCharge::filled(207e5, 288.15, volume));
    assert!(topped > 100e5, "{topped}");
    let held = hours_to_creep(&with(topped), 0.01, 48.0).unwrap();
    assert!(held < 0.8 * hold("none"), "{held}");
    assert!(knee(topped) > 74.4 + 20.0);
    // 76 bar put in as the chart says, with a litre of fluid behind the piston: a perfect gauge
    // and a fifth of the gas missing.
    let set = precharge_of(GasCharge::filled(77.013_25e5, 293.15, 4.2e-3));
    assert!(near(set / 1e5, 61.0, 2.0), "{set}");
    assert!(knee(set) < 74.4 - 10.0);
    let held = hours_to_creep(&with(set), 0.01, 48.0).unwrap();
    assert!(held > 1.1 * hold("none"), "{held}");
}

#[test]
fn a_shuttle_is_changed_for_a_dumped_anti_skid_valve() {
    let row = |text: &str| {
        let running = in_state(text, "C1");
        let names = ["clamped-by-pedals-main", "brakes-clamped"];
        names.map(|name| word(&running, name).to_owned())
    };
    // On pedals both leave one brake free. Parked, the dumped one fills from the shut return.
    assert_eq!(row("left-anti-skid/valve-in-dump"), ["7 of 8", "8 of 8"]);
    assert_eq!(row("shuttle-l3/stuck-second"), ["7 of 8", "7 of 8"]);
}

#[test]
fn a_jam_that_clears_on_cycling_leaves_nothing_to_find() {
    let jam = "park-shut-off-valve/jammed-open";
    assert!(hold(jam) < 0.3);
    let mut parking = parking(jam);
    parking.switches = state("C1");
    let mut plant = begun(&parking);
    plant.set(&hand("main-pump", "off")).unwrap();
    plant.set(&hand("second-pump", "off")).unwrap();
    plant.step(8.0 * 3600.0).unwrap();
    assert_eq!(plant.clamped().0, 0);
    // Pumps on to see, and the lever cycled: it is free now, and everything is as it should be.
    plant.set(&hand("main-pump", "on")).unwrap();
    plant
        .set(&Change::Fault(
            "park-shut-off-valve".into(),
            "jammed-open".into(),
            0.0,
        ))
        .unwrap();
    plant.release_park_brake().unwrap();
    plant.set_park_brake().unwrap();
    plant.step(600.0).unwrap();
    let healthy = begun(&{
        let mut parking = crate::demo_plant::parking("none");
        parking.switches = state("C1");
        parking
    });
    for name in [
        "park-light",
        "held-caption",
        "position-indicator",
        "park-relay",
    ] {
        assert_eq!(look(&plant, name), look(&healthy, name), "{name}");
    }
    // The piston sticks by a bar, below the fluid after charging and above it while discharging.
    let (now, usual) = (gas_bar(&plant), gas_bar(&healthy));
    assert!(near(now, usual, 3.0), "{now} {usual}");
    assert_eq!(plant.clamped(), (8, 8));
}

#[test]
fn pumps_switched_on_to_see_erase_the_night() {
    let mut gauges = Vec::new();
    for text in ["none", "park-shut-off-valve/seat-leak"] {
        let mut plant = begun(&parking(text));
        plant.step(8.0 * 3600.0).unwrap();
        let morning = gas_bar(&plant);
        plant.set(&hand("main-pump", "on")).unwrap();
        plant.step(600.0).unwrap();
        gauges.push((morning, gas_bar(&plant)));
    }
    let [(tight, after), (leaking, after_leak)] = gauges[..] else {
        panic!("two nights");
    };
    assert!(
        tight - leaking > 6.0,
        "{tight} and {leaking} in the morning"
    );
    assert!(near(after, after_leak, 0.1), "{after} and {after_leak}");
    let found = in_state("park-shut-off-valve/seat-leak", "C1");
    assert!(differ(&found, &in_state("none", "C1")).is_empty());
}

#[test]
fn a_seat_leak_and_a_brake_seal_together_hold_less_than_each_alone() {
    let (seat, seal) = ("park-shut-off-valve/seat-leak", "brake-l3/seal-leak");
    let both = hold(&format!("{seat}+{seal}"));
    assert!(near(both, 3.3, 0.1), "{both}");
    assert!(hold(seat) > 4.5 && hold(seal) > 6.0);
    // The seal is wet, and cured alone it leaves most of the trouble.
    let found = in_state(&format!("{seat}+{seal}"), "C2");
    assert_eq!(word(&found, "wet"), "brake-l3");
    assert_eq!(word(&found, "heard"), "park-shut-off-valve");
}

#[test]
fn a_reservoir_topped_up_beside_a_full_store_overfills_as_the_store_empties() {
    let mut plant = begun(&parking("none"));
    let full = plant.gas("brake-accumulator").unwrap().volume;
    let held = (5.2e-3 - full) * 1e3;
    assert!(near(held, 3.2, 0.1), "{held} L");
    plant.step(48.0 * 3600.0).unwrap();
    let balance = plant.balance();
    let gained: f64 = balance.reservoirs.iter().map(|(_, gain)| gain * 1e3).sum();
    assert!(
        gained >= held && gained < held + 0.5,
        "{gained} L of {held}"
    );
}

/// A main system that falls with 60 s is normal, and tells nothing of the check valves.
#[test]
fn a_check_valve_is_blamed_for_the_pump_that_runs_down() {
    let after_a_minute = |text: &str| {
        let mut plant = begun(&parking(text));
        plant.step(60.0).unwrap();
        plant.pressure("main-pump", "out").unwrap().pascals() / 1e5
    };
    let healthy = after_a_minute("none");
    assert!(near(healthy, 206.0 * (-1.0_f64).exp(), 0.5), "{healthy}");
    let leaking = after_a_minute("supply-check-valve/reverse-leak");
    assert!(near(leaking, healthy, 0.1), "{leaking}");
}

/// A charge judged straight after a quick pump-down is cold gas; ten minutes later it is right. How
/// cold depends on the pace: one node of the same nitrogen, integrated apart from the sources,
/// stops at 51.7 bar after 48 s of pumping and at 61.1 after 120 s, when it gives evenly; strokes give
/// more at first. The reference has 61 to 62.
#[test]
fn the_knee_is_read_low_at_once_and_right_after_ten_minutes() {
    for (free, wanted) in [(1.5, 51.7), (6.0, 61.1)] {
        let mut parking = parking("none");
        parking.switches.push(("lever".into(), "down".into()));
        let mut plant = begun(&parking);
        plant.step(300.0).unwrap();
        let begin = plant.hours();
        for _ in 0..60 {
            plant.feet(1.0).unwrap();
            plant.step(1.5).unwrap();
            plant.feet(0.0).unwrap();
            plant.step(free).unwrap();
            if plant.bottomed() {
                break;
            }
        }
        let seconds = (plant.hours() - begin) * 3600.0;
        let at_once = gas_bar(&plant);
        plant.step(600.0).unwrap();
        let later = gas_bar(&plant);
        assert!(
            near(at_once, wanted + 1.0, 1.5),
            "{at_once} after {seconds} s"
        );
        assert!(near(later, 74.4, 0.3), "{later}");
    }
}

#[test]
fn a_rig_error_after_a_cable_change_shows_as_a_new_leak() {
    // A twentieth of the travel short, both sides: they regulate, and leak at the null rate.
    let text = "left-cable/stretched=0.083+right-cable/stretched=0.083";
    let leak = |text: &str| {
        let mut plant = begun(&parking(text));
        plant.step(100.0).unwrap();
        let flows = plant.flows_of("left-metering-valve");
        let lap = flows
            .iter()
            .find(|passing| passing.way == "brake to return");
        lap.unwrap().flow * 60e6
    };
    let (healthy, short) = (leak("none"), leak(text));
    assert!(near(healthy, 1.3, 0.1), "{healthy}");
    assert!(short > 3.0 * healthy && short < 6.3, "{short}");
    // Pedals and clamps say nothing of it.
    let found = in_state(text, "C2");
    assert_eq!(word(&found, "brakes-clamped"), "8 of 8");
    assert!(number(&found, "pedal-effort-left-n") > 303.8 - 25.0);
}

#[test]
fn a_pointer_off_its_scale_is_no_empty_store() {
    let found = in_state("none", "C4");
    assert_eq!(read(&found, "pressure-indicator-bar"), &Reading::Dead);
    assert!(number(&found, "gas-gauge-bar") > 180.0);
    assert_eq!(word(&found, "brakes-clamped"), "8 of 8");
}

#[test]
fn a_battery_off_and_a_battery_away_look_alike_and_mean_the_opposite() {
    let mut nights = Vec::new();
    for name in ["C4", "C5"] {
        let mut parking = parking("none");
        parking.switches = state(name);
        let mut plant = begun(&parking);
        assert!(shows(&plant, "park-light", "dark"), "{name}");
        assert!(shows(&plant, "held-caption", "not-shown"), "{name}");
        assert!(plant.latched(), "{name}");
        plant.step(1800.0).unwrap();
        nights.push(plant.clamped().0);
    }
    assert_eq!(nights, [8, 0]);
    // Connected again in the morning the valve drives shut, and nothing is left to find.
    let mut parking = parking("none");
    parking.switches = state("C5");
    let mut plant = begun(&parking);
    plant.step(1800.0).unwrap();
    plant
        .set(&Change::Switch("battery".into(), "connected-on".into()))
        .unwrap();
    plant.step(10.0).unwrap();
    assert!(shows(&plant, "position-indicator", "shut"));
    assert!(shows(&plant, "park-light", "lit"));
}
