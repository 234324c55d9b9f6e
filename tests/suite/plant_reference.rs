//! The plant beside figures of a reference model of the same equations, integrated independently
//! with general-purpose libraries. Every parameter is invented; what is compared is the solving.

use crate::demo_plant::{aircraft, begun, hours_to_creep, hours_to_creep_of, parking, variant};
use crate::single_node::{HEALTHY, SingleNode};
use std::sync::Arc;
use stillwheel::plant::aircraft::Aircraft;
use stillwheel::plant::handle::Change;

/// Hours beyond which the reference gives no figure.
const HORIZON: f64 = 48.0;

/// Seconds until a pump of 206 bar that falls with 60 s passes the 55 bar of the pilot.
const PILOT_HOLDS: f64 = 79.2;

struct Row<'a> {
    faults: &'a str,
    figures: [f64; 4],
}

fn rows() -> Vec<Row<'static>> {
    include_str!("../plant/reference.csv")
        .lines()
        .skip(2)
        .map(|line| {
            let mut fields = line.split(',');
            let faults = fields.next().unwrap();
            let figures: Vec<f64> = fields.map(|field| field.parse().unwrap()).collect();
            Row {
                faults,
                figures: figures.try_into().unwrap(),
            }
        })
        .collect()
}

/// Within 3 % or 0.02 h, whichever is larger.
fn hours_agree(found: Option<f64>, wanted: f64) -> bool {
    found.is_some_and(|found| (found - wanted).abs() <= (0.03 * wanted).max(0.02))
}

/// Within 0.5 bar or 1 %, whichever is larger.
fn bar_agree(found: f64, wanted: f64) -> bool {
    (found - wanted).abs() <= (0.01 * wanted).max(0.5)
}

fn hold(aircraft: &Arc<Aircraft>, faults: &str) -> Option<f64> {
    hours_to_creep_of(aircraft, &parking(faults), 0.01, 48.0)
}

/// Figures printed to so many decimals, within 3 % or half a digit, whichever is larger.
fn printed_agree(found: Option<f64>, wanted: f64, half_digit: f64) -> bool {
    found.is_some_and(|found| (found - wanted).abs() <= (0.03 * wanted).max(half_digit))
}

#[test]
fn every_fault_holds_as_long_as_in_the_reference_and_shows_the_same_gas_side() {
    let rows = rows();
    assert_eq!(rows.len(), 41, "healthy and forty faults");
    let mut amiss = Vec::new();
    for row in &rows {
        let parking = parking(row.faults);
        let [one, two, half_hour, eight_hours] = row.figures;
        for (slope, wanted) in [(0.01, one), (0.02, two)] {
            let found = hours_to_creep(&parking, slope, HORIZON);
            if !hours_agree(found, wanted) {
                amiss.push(format!(
                    "{} on {slope}: {found:?} h, not {wanted}",
                    row.faults
                ));
            }
        }
        let mut plant = begun(&parking);
        for (hours, wanted) in [(0.5, half_hour), (8.0, eight_hours)] {
            plant.step((hours - plant.hours()) * 3600.0).unwrap();
            let found = plant.sample().gas.unwrap() / 1e5;
            // The store begins to give to the brakes as the isolation valve opens. The reference
            // opens it at once; here its pilot is played, so the plant is behind the reference by
            // up to that time, and where it falls a bar a minute that can be seen.
            plant.step(PILOT_HOLDS).unwrap();
            let later = plant.sample().gas.unwrap() / 1e5;
            let between = wanted.clamp(later.min(found), later.max(found));
            if !bar_agree(between, wanted) {
                amiss.push(format!(
                    "{} at {hours} h: {later:.2} to {found:.2} bar, not {wanted}",
                    row.faults
                ));
            }
        }
        // Nothing may appear or vanish on the way.
        let balance = plant.balance();
        if balance.amiss.abs() > 1e-9 {
            amiss.push(format!("{}: {:e} m3 amiss", row.faults, balance.amiss));
        }
    }
    assert!(amiss.is_empty(), "{}", amiss.join("\n"));
}

fn with(changes: &[Change], text: &str) -> Option<f64> {
    let mut parking = parking(text);
    parking.changes.extend_from_slice(changes);
    hours_to_creep(&parking, 0.01, 80.0)
}

#[test]
fn temperature_and_charge_shift_the_hold_as_in_the_reference() {
    let at = |celsius: f64| Change::Temperature(celsius + 273.15);
    for (celsius, wanted) in [
        (35.0, 8.0),
        (25.0, 11.0),
        (10.0, 18.6),
        (0.0, 27.9),
        (-15.0, 56.0),
    ] {
        let found = with(&[at(celsius)], "none");
        assert!(
            hours_agree(found, wanted),
            "{celsius} C: {found:?}, not {wanted}"
        );
    }
    let mut low = parking("none");
    low.charge = Some(120e5);
    let found = hours_to_creep(&low, 0.01, 48.0);
    assert!(hours_agree(found, 11.4), "120 bar: {found:?}");
}

#[test]
fn in_limit_wear_gives_the_table_of_the_design_hours() {
    for (celsius, tight, mid, worst) in [
        (35.0, 13.4, 8.0, 6.0),
        (25.0, 18.3, 11.0, 8.1),
        (15.0, 25.8, 15.5, 11.5),
        (10.0, 31.0, 18.6, 13.8),
        (0.0, 46.0, 27.9, 20.6),
    ] {
        for (wear, wanted) in [(0.6, tight), (1.0, mid), (1.35, worst)] {
            let warm = Change::Temperature(celsius + 273.15);
            let found = with(&[warm, Change::Wear(wear)], "none");
            assert!(
                hours_agree(found, wanted),
                "{celsius} C, {wear}: {found:?}, not {wanted}"
            );
        }
    }
}

/// +35 to -15 C over six hours, then constant; the equipment follows with 1.5 h.
fn soak() -> Change {
    let points = vec![(0.0, 308.15), (6.0 * 3600.0, 258.15)];
    Change::Weather(points, 1.5 * 3600.0)
}

fn soaked_alone(leak: &dyn Fn(f64) -> f64) -> f64 {
    let node = SingleNode {
        leak,
        air: &|hours| 35.0 - 50.0 * (hours / 6.0).min(1.0),
        lag: 1.5,
    };
    node.hours_to_creep()
}

/// The reference holds 25.7 h in this soak; plant and single node hold longer by 3 and 4 %. Both
/// follow the air by the lag stated, and without any lag both give 35 h, so what differs is how
/// the reference lets its equipment follow, which it does not tell. Its gas figures agree within
/// 1 % all the same.
#[test]
fn a_cold_soak_holds_as_long_as_a_single_node_and_shows_the_gas_side_of_the_reference() {
    let found = with(&[soak()], "none").unwrap();
    let alone = soaked_alone(&|_| HEALTHY);
    assert!(
        (found - alone).abs() < 0.03 * alone,
        "{found} h, and {alone} h alone"
    );
    assert!((found - 25.7).abs() < 0.04 * 25.7, "{found}");
    let steady = with(&[Change::Temperature(308.15)], "none").unwrap();
    assert!(found > 3.0 * steady, "{found} h, {steady} h in the warm");
    let mut plant = begun(&{
        let mut parking = parking("none");
        parking.changes.push(soak());
        parking
    });
    for (at, wanted) in [(8.0, 76.9), (14.0, 70.6)] {
        plant.step((at - plant.hours()) * 3600.0).unwrap();
        let found = plant.sample().gas.unwrap() / 1e5;
        assert!(bar_agree(found, wanted), "{at} h: {found}");
    }
}

#[test]
fn in_the_same_soak_a_seal_that_hardens_or_leaks_takes_the_gain_away() {
    let hardening = variant(&[(
        "    shuts-above: 55 bar\n",
        "    shuts-above: 55 bar\n    hardens: 2\n",
    )]);
    let mut parking = parking("none");
    parking.changes.push(soak());
    let found = hours_to_creep_of(&hardening, &parking, 0.01, 48.0).unwrap();
    let alone = soaked_alone(&|celsius| HEALTHY + 0.5 * 2.0 * (-celsius).max(0.0));
    assert!(
        (found - alone).abs() < 0.03 * alone,
        "hardens: {found} h, and {alone} h alone"
    );
    assert!(printed_agree(Some(found), 12.7, 0.05), "{found}");
    // From 0.5 mL/min to 5.
    let leaking = with(&[soak()], "isolation-valve/pilot-seal-leak=0.18367").unwrap();
    let alone = soaked_alone(&|_| HEALTHY + 4.5);
    assert!(
        (leaking - alone).abs() < 0.03 * alone,
        "leaks: {leaking} h, and {alone} h alone"
    );
    assert!(printed_agree(Some(leaking), 7.6, 0.05), "{leaking}");
}

#[test]
fn severity_moves_the_hold_and_two_leaks_add_up() {
    for (faults, wanted) in [
        ("park-shut-off-valve/seat-leak+brake-l3/seal-leak", 3.3),
        ("accumulator-line/fitting-weeps=0.4", 6.4),
        ("accumulator-line/fitting-weeps=2", 1.9),
    ] {
        let found = with(&[], faults).unwrap();
        // The reference is printed to one decimal here.
        assert!(
            (found - wanted).abs() <= (0.03 * wanted).max(0.05),
            "{faults}: {found}"
        );
    }
}

#[test]
fn one_way_valves_in_each_return_branch_keep_unequal_sides_apart() {
    let part = |side: &str, place: &str| {
        format!(
            "  {side}-return-check:\n    kind: check-valve\n    title: {side} return check valve\n    at: {place}\n    crack: 0.3 bar\n"
        )
    };
    let parts = format!("{}{}", part("left", "[12, 7]"), part("right", "[12, 9]"));
    let line = "  return-line:\n";
    let with_parts = format!("{parts}{line}");
    let apart = variant(&[
        (line, &with_parts),
        (
            "[left-anti-skid.return, right-anti-skid.return, return-line.fluid, park-shut-off-valve.in]",
            "[left-anti-skid.return, left-return-check.in]}\n  - {hydraulic: [right-anti-skid.return, right-return-check.in]}\n  - {hydraulic: [left-return-check.out, right-return-check.out, return-line.fluid, park-shut-off-valve.in]",
        ),
    ]);
    for (faults, wanted) in [
        ("right-cross-rod/detached", 16.3),
        ("left-cable/stretched", 12.0),
        ("none", 15.5),
    ] {
        let found = hold(&apart, faults);
        assert!(
            printed_agree(found, wanted, 0.05),
            "{faults}: {found:?}, not {wanted}"
        );
    }
}

/// Set on the second supply with the main pump off: the isolation valve is shut all the while, and
/// what the store holds is what it held before.
fn parked_on_the_second_supply(charge: f64) -> Option<f64> {
    let mut parking = parking("none");
    parking.charge = Some(charge);
    parking.switches.push(("lever".into(), "down".into()));
    let mut plant = begun(&parking);
    let second = |position: &str| Change::Hand("second-pump".into(), position.into());
    plant.set(&second("on")).unwrap();
    plant.step(5.0).unwrap();
    plant.set_park_brake().unwrap();
    plant.set(&second("off")).unwrap();
    plant.hold(0.0, 48.0).unwrap().hours_to_creep
}

#[test]
fn set_on_the_second_supply_it_holds_by_what_the_store_held_before() {
    for (charge, wanted, half_digit) in [(206e5, 15.5, 0.05), (95e5, 7.6, 0.05), (0.0, 0.04, 0.005)]
    {
        let found = parked_on_the_second_supply(charge);
        assert!(
            printed_agree(found, wanted, half_digit),
            "{charge} Pa: {found:?}, not {wanted}"
        );
    }
}

/// The hold is minutes here, and the time in which the isolation valve's pilot still stands counts:
/// until then the pump that runs down feeds the brakes and the store stays full.
#[test]
fn with_the_park_valve_open_the_anti_skid_modules_set_the_hold() {
    let both = |fault: &str| format!("+left-anti-skid/{fault}+right-anti-skid/{fault}");
    let demo = aircraft();
    // The reference says "tight" without a figure; a quarter of the usual nozzle gives its hours.
    for (modules, wanted, half_digit) in [
        (String::new(), 0.258, 0.0005),
        (both("leak-high"), 0.067, 0.0005),
        (both("clogged=0.83333"), 0.97, 0.005),
    ] {
        let faults = format!("park-shut-off-valve/jammed-open{modules}");
        let found = hold(&demo, &faults).unwrap();
        let nearest = f64::clamp(wanted, found - PILOT_HOLDS / 3600.0, found);
        assert!(
            printed_agree(Some(nearest), wanted, half_digit),
            "{faults}: {found}, not {wanted}"
        );
    }
}

#[test]
fn seat_areas_and_equal_slack_hold_as_in_the_reference() {
    let demo = aircraft();
    // A seat area of 1.5e-9 m2 is the usual case.
    for (area, wanted) in [(0.5, 8.8), (1.5, 4.7), (3.0, 2.8), (6.0, 1.6), (20.0, 0.56)] {
        let faults = format!("park-shut-off-valve/seat-leak={}", area / 1.5);
        let found = hold(&demo, &faults);
        assert!(
            printed_agree(found, wanted, 0.005),
            "{area}e-9 m2: {found:?}, not {wanted}"
        );
    }
    // Travel lost for a command, as a share of the usual stretch of 0.6.
    for (command, wanted) in [(162.0, 14.7), (112.0, 12.9), (37.0, 13.8)] {
        let severity = (1.0 - 0.15 - 0.85 * command / 212.0) / 0.6;
        let faults = format!("left-cable/stretched={severity}+right-cable/stretched={severity}");
        let found = hold(&demo, &faults);
        assert!(
            printed_agree(found, wanted, 0.05),
            "{command} bar: {found:?}, not {wanted}"
        );
    }
}
