//! Physics of the plant beside figures from outside the project. Each check names its source;
//! "seen at second hand" means that another document quotes the figure.

use std::f64::consts::PI;

use crate::demo_plant::{aircraft, begun, parking, state};
use stillwheel::base::dimension::Dimension;
use stillwheel::base::quantity::Quantity;
use stillwheel::plant::handle::Change;
use stillwheel::plant::physics::brake_stack::{Friction, Stack, holding_force};
use stillwheel::plant::physics::clearance::{Ring, ring, slot};
use stillwheel::plant::physics::gas_charge::{GasCharge, Wall};
use stillwheel::plant::physics::holding::Push;
use stillwheel::plant::physics::nitrogen::{GAS_CONSTANT, Isotherm, ideal_heat, properties};
use stillwheel::plant::physics::orifice;
use stillwheel::plant::physics::sizing::{at_temperature, gas_volume, needed_volume};
use stillwheel::plant::physics::viscosity::Walther;

/// Standard atmosphere, Pa.
const ATMOSPHERE: f64 = 101_325.0;
/// Molar mass in the short technical equation, kg/mol.
const MOLAR_MASS: f64 = 0.028_013;

fn relative(what: &str, found: f64, wanted: f64, slack: f64) {
    assert!(
        (found / wanted - 1.0).abs() <= slack,
        "{what}: {found} is not {wanted}"
    );
}

fn absolute(what: &str, found: f64, wanted: f64, slack: f64) {
    assert!(
        (found - wanted).abs() <= slack,
        "{what}: {found} is not {wanted}"
    );
}

/// Pascals, absolute, for pounds per square inch, gauge.
fn psig(number: f64) -> f64 {
    let text = format!("{number} psi");
    Quantity::parse(&text, Dimension::GaugePressure)
        .unwrap()
        .si()
        + ATMOSPHERE
}

/// Int. J. Thermophysics 24(1) 2003, table III p. 46 (doi 10.1023/A:1022310214958), seen at
/// second hand: all five printed figures of the check points.
#[test]
fn the_short_technical_equation_gives_its_printed_check_figures() {
    let first = properties(700.0, 200.0);
    let second = properties(750.0, 100.0);
    relative("pressure", first.pressure, 51.268e6, 1e-5);
    let ideal = ideal_heat(700.0) * GAS_CONSTANT / 1e3;
    absolute("ideal heat capacity", ideal, 1.0979, 5e-5);
    absolute("heat capacity", first.cp / 1e3, 1.1719, 5e-5);
    let enthalpy = (second.enthalpy - first.enthalpy) / 1e3;
    absolute("enthalpy difference", enthalpy, 41.82, 5e-3);
    let entropy = (second.entropy - first.entropy) / 1e3;
    absolute("entropy difference", entropy, 0.310_53, 5e-6);
}

/// The derivatives that the solver leans on are those of the pressure itself.
#[test]
fn derivatives_of_the_equation_are_those_of_its_values() {
    for (kelvin, density) in [(219.15, 170.5), (288.15, 229.7), (343.15, 95.8)] {
        let state = properties(kelvin, density);
        let pressure = |t: f64, d: f64| properties(t, d).pressure;
        let (dt, dd) = (1e-3, 1e-3);
        let by_temperature =
            (pressure(kelvin + dt, density) - pressure(kelvin - dt, density)) / (2.0 * dt);
        let by_density =
            (pressure(kelvin, density + dd) - pressure(kelvin, density - dd)) / (2.0 * dd);
        relative("dp/dT", state.pressure_by_temperature, by_temperature, 1e-7);
        relative("dp/drho", state.pressure_by_density, by_density, 1e-7);
    }
}

/// J. Phys. Chem. Ref. Data 29(6) 2000, 1361-1433, single-phase table from p. 1410 (first three),
/// and 15(2) 1986, 735-908, table 22 (the rest), seen at second hand. The short equation claims
/// 0.2 % in density up to 300 bar and 0.5 % above (both from memory); 1,000 K lies above its 750 K.
#[test]
fn densities_at_the_printed_points_of_the_reference_equations() {
    for (kelvin, megapascals, moles_per_litre) in [
        (350.0, 20.0, 6.3552),
        (1000.0, 2.0, 0.238_89),
        (1000.0, 50.0, 5.1051),
        (300.0, 8.0, 3.2057),
        (440.0, 4.0, 1.0773),
        (370.0, 40.0, 10.462),
    ] {
        let density = Isotherm::new(kelvin).density(megapascals * 1e6);
        let found = density / MOLAR_MASS / 1e3;
        let what = format!("{kelvin} K, {megapascals} MPa");
        let dense_or_hot = kelvin > 750.0 || megapascals > 30.0;
        let slack = if dense_or_hot { 5e-3 } else { 2.5e-3 };
        relative(&what, found, moles_per_litre, slack);
    }
    // The same table at 350 K and 20 MPa: cv 21.64, cp 34.19 J/(mol K).
    let state = properties(350.0, Isotherm::new(350.0).density(20e6));
    relative("cv", state.cv * MOLAR_MASS, 21.64, 0.01);
    relative("cp", state.cp * MOLAR_MASS, 34.19, 0.01);
}

/// The grid of `tests/published/nitrogen-grid.csv`: computed from the reference equation and from
/// the short one, not printed anywhere. 0.25 % to the first, the printed digits to the second.
#[test]
fn compressibility_over_the_range_of_an_accumulator() {
    let rows = include_str!("../published/nitrogen-grid.csv").lines();
    let mut seen = 0;
    for row in rows.filter(|row| !row.starts_with('#')).skip(1) {
        let fields: Vec<f64> = row.split(',').map(|field| field.parse().unwrap()).collect();
        let [celsius, megapascals, density, z, cv, cp, short] = fields[..] else {
            panic!("{row}");
        };
        let kelvin = celsius + 273.15;
        let found = Isotherm::new(kelvin).density(megapascals * 1e6);
        let factor = megapascals * 1e6 / (found * GAS_CONSTANT * kelvin);
        relative(row, found, density, 2.5e-3);
        relative(row, factor, z, 2.5e-3);
        absolute(row, found, short, 6e-4);
        let state = properties(kelvin, found);
        // Heat capacities of the short equation follow the reference less closely.
        relative(row, state.cv * MOLAR_MASS, cv, 0.02);
        relative(row, state.cp * MOLAR_MASS, cp, 0.02);
        seen += 1;
    }
    assert_eq!(seen, 56);
}

/// Charge of 1,000 psig, filled to 3,000 psig, both at 15 C: worked out from the reference
/// equation, not printed. Volumes to 0.25 %, the tolerance of the density; pressures at constant
/// volume to 0.5 %, since there an error of density counts up to twice.
#[test]
fn a_filled_accumulator_at_other_temperatures() {
    let kelvin = 288.15;
    let empty = GasCharge::filled(psig(1000.0), kelvin, 1.0);
    let charged = GasCharge {
        volume: empty.mass / Isotherm::new(kelvin).density(psig(3000.0)),
        ..empty
    };
    relative("charge ratio", charged.volume, 0.357_392, 2.5e-3);
    let ideal = gas_volume(1.0, psig(1000.0), psig(3000.0), 1.0);
    relative("ideal charge ratio", ideal, 0.336_583, 3e-6);
    for (celsius, precharge, full, ideal_precharge) in [
        (-40.0, 771.46, 2164.20, 806.32),
        (-20.0, 854.87, 2469.78, 876.75),
        (0.0, 937.92, 2773.42, 947.18),
        (40.0, 1103.15, 3375.60, 1088.04),
        (70.0, 1226.47, 3823.27, 1193.68),
    ] {
        let kelvin_now = celsius + 273.15;
        let at = |charge: GasCharge| GasCharge {
            temperature: kelvin_now,
            ..charge
        };
        let what = format!("{celsius} C");
        relative(&what, at(empty).pressure(), psig(precharge), 5e-3);
        relative(&what, at(charged).pressure(), psig(full), 5e-3);
        let ideal = at_temperature(psig(1000.0), kelvin, kelvin_now);
        // Printed to a hundredth of a psi.
        absolute(&what, ideal, psig(ideal_precharge), 35.0);
    }
}

/// A fast discharge from 3,000 psig at 15 C, by the steps of the plant with a wall that takes no
/// heat. Ratios and exponents worked out from the reference equation along constant entropy, not
/// printed: at these pressures the exponent is 1.8 to 2.0, and a fixed 1.4 draws too much.
#[test]
fn a_fast_discharge_is_isentropic_with_an_exponent_near_two() {
    let kelvin = 288.15;
    let begin = GasCharge::filled(psig(3000.0), kelvin, 1e-3);
    let entropy =
        |charge: &GasCharge| properties(charge.temperature, charge.mass / charge.volume).entropy;
    let wall = Wall {
        temperature: kelvin,
        lag: 1e9,
        seconds: 1e-3,
        loss: 0.0,
    };
    for (pressure, ratio, exponent, end) in [
        (2500.0, 1.096_72, 1.9642, 273.515),
        (2000.0, 1.233_98, 1.9169, 256.476),
        (1500.0, 1.447_76, 1.8601, 235.884),
        (1000.0, 1.838_12, 1.7888, 209.409),
    ] {
        let (high, low) = (psig(3000.0), psig(pressure));
        let mut charge = begin;
        let steps = 4_000;
        for step in 1..=steps {
            let share = f64::from(step) / f64::from(steps);
            let path = charge.path(wall);
            let volume = path.volume_at(high + (low - high) * share, 1e-4, 1e-2).0;
            charge = path.end(volume);
        }
        let what = format!("to {pressure} psig");
        relative(&what, charge.volume / begin.volume, ratio, 2.5e-3);
        relative(&what, charge.temperature, end, 2.5e-3);
        absolute(&what, entropy(&charge), entropy(&begin), 0.05);
        let found = (high / low).ln() / (charge.volume / begin.volume).ln();
        absolute(&what, found, exponent, 0.02);
        let textbook = gas_volume(1.0, high, low, 1.4);
        assert!(textbook > charge.volume / begin.volume, "{what}");
    }
}

/// Public worked examples of accumulator sizing; the pages are named at each.
#[test]
fn textbook_sizing_gives_the_printed_examples() {
    // petrolengineering, usable volume per bottle: 10 gal, 1,000 psi, 1,200 to 3,000 psi, gauge
    // figures used as absolute.
    let low = gas_volume(10.0, 1000.0, 1200.0, 1.0);
    let high = gas_volume(10.0, 1000.0, 3000.0, 1.0);
    absolute("gas at the low end", low, 8.33, 5e-3);
    absolute("gas at the high end", high, 3.33, 5e-3);
    absolute("usable", low - high, 5.0, 5e-3);
    absolute(
        "volume for it",
        needed_volume(5.0, 1000.0, 1200.0, 3000.0, 1.0),
        10.0,
        5e-3,
    );
    // The same with 14.7 psi added is worked out, not printed.
    let with_air = |p: f64| gas_volume(10.0, 1014.7, p + 14.7, 1.0);
    relative(
        "usable, absolute",
        with_air(1200.0) - with_air(3000.0),
        4.987_66,
        1e-5,
    );
    // machinecalcs, accumulator sizing: 1 L between 100 and 200 bar, charge 90 bar, n 1.4, gauge.
    let volume = needed_volume(1.0, 91.013_25, 101.013_25, 201.013_25, 1.4);
    relative("polytropic volume", volume, 2.77, 2e-3);
    // Olaer, correct precharge settings: 90 bar wanted at 40 C is filled at 20 C to 84 bar.
    let filled = at_temperature(91.013_25, 313.15, 293.15) - 1.013_25;
    absolute("charge at 20 C", filled, 84.0, 0.5);
    // Operating manual of a turboprop, public copy: 1,650 psig charge, 2,900 psig, 22 in3 are
    // about 0.35 L. The gas volume for it, 51.299 in3, was worked out with the ideal gas.
    let litres = Quantity::parse("22 in3", Dimension::Volume).unwrap().si() * 1e3;
    relative("fluid", litres, 0.35, 0.031);
    let pressures = (psig(1650.0), psig(2900.0));
    let gas = needed_volume(22.0, pressures.0, pressures.0, pressures.1, 1.0);
    relative("gas volume", gas, 51.299, 1e-3);
}

/// Public exercise, 0.8 to 0.6 m3 from 160 kPa, n 1.4 (inputs only; -39.025 65 kJ is the
/// closed-form integral, worked out). By parts, with the volumes of the textbook accumulator.
#[test]
fn polytropic_work_of_the_textbook_accumulator() {
    let end = 160.0 * (0.8_f64 / 0.6).powf(1.4);
    let volume = |pressure: f64| gas_volume(0.8, 160.0, pressure, 1.4);
    absolute("end volume", volume(end), 0.6, 1e-12);
    let strips = 200;
    let width = (end - 160.0) / f64::from(strips);
    let simpson: f64 = (0..strips)
        .map(|strip| {
            let low = 160.0 + f64::from(strip) * width;
            let sides = volume(low) + volume(low + width);
            width / 6.0 * (sides + 4.0 * volume(low + 0.5 * width))
        })
        .sum();
    relative("work", end * 0.6 - 160.0 * 0.8 - simpson, -39.025_65, 1e-5);
}

/// ASTM D341, public worked example: (40 C, 32) and (100 C, 5.4), kelvin offset 273, A 9.5259,
/// B 3.7449, 8.5 mm2/s at 80 C. With the offset 273.15 the figures were worked out.
#[test]
fn the_viscosity_line_gives_the_worked_example() {
    for (offset, a, b, slack) in [
        (273.0, 9.5259, 3.7449, 1e-5),
        (273.15, 9.530_82, 3.746_58, 1e-5),
    ] {
        let line = Walther::through([(40.0 + offset, 32e-6), (100.0 + offset, 5.4e-6)]);
        relative("A", line.constants().0, a, slack);
        relative("B", line.constants().1, b, slack);
        absolute("at 80 C", line.viscosity(80.0 + offset) * 1e6, 8.5, 0.05);
    }
    let line = Walther::through([(313.15, 32e-6), (373.15, 5.4e-6)]);
    for (celsius, wanted) in [(80.0, 8.533_21), (60.0, 15.185_89), (20.0, 86.277_86)] {
        relative("nu", line.viscosity(celsius + 273.15) * 1e6, wanted, 1e-5);
    }
}

/// Leaks through gaps: sources at each.
#[test]
fn gaps_leak_as_in_the_printed_examples() {
    // Public encyclopaedia entry on hydraulic clearance: 2.5 times as much with wall contact.
    let gap = |offset: f64| Ring {
        diameter: 0.012,
        gap: 5e-6,
        length: 0.010,
        offset,
    };
    let leak = |offset: f64| ring(gap(offset), 20e6, 0.0112);
    relative("wall contact", leak(1.0) / leak(0.0), 2.5, 1e-12);
    // A spool land worked out by hand from the same formula, cm3/min.
    for (offset, wanted) in [(0.0, 4.207_49), (0.5, 5.785_30), (1.0, 10.518_73)] {
        relative("spool land", leak(offset) * 60e6, wanted, 1e-5);
    }
    // Public calculator, leakage past a rod: 5.2333e-8 m3/s, printed with pi as 3.14.
    let rod = Ring {
        diameter: 10.0,
        gap: 1e-3,
        length: 1.0,
        offset: 0.0,
    };
    let found = ring(rod, 10.0, 0.5);
    relative("rod", found, 5.2333e-8, 6e-4);
    relative(
        "rod with its own pi",
        found * (157.0 / 50.0) / PI,
        5.2333e-8,
        1e-5,
    );
    // Public fluids textbook, chapter 16 question 1 (inputs only): 69.4444 cm3/s, worked out.
    let found = slot(0.050, 1e-3, 0.150, 2e5, 0.08);
    relative("slot", found * 1e6, 69.4444, 1e-5);
}

/// Holes: sources at each.
#[test]
fn holes_pass_what_the_printed_examples_do() {
    // Public calculator, orifice flow: Cd 0.62, 50 mm, 3 m of head give 0.009 34 m3/s. The
    // smoothing near zero takes a thirtieth of it at this low pressure, so it is put back here.
    let area = |millimetres: f64| PI / 4.0 * (millimetres * 1e-3).powi(2);
    let head = 1000.0 * 9.81 * 3.0;
    let smoothed = orifice::flow(area(50.0), head, 1000.0).0;
    let sharp = smoothed * (1.0 + 2e3 / head).sqrt();
    relative("orifice", sharp, 0.009_34, 1e-3);
    // Public hydraulics blog quoting a component maker: 2 mm, 30 L/min, 288 bar. Density and
    // coefficient are not stated there; 870 kg/m3 is ours. 2 % of pressure are 1 % of flow.
    let (flow, slope) = orifice::flow(area(2.0), 288e5, 870.0);
    relative("oil orifice", flow * 60e3, 30.0, 0.01);
    let near = orifice::flow(area(2.0), 288e5 + 10.0, 870.0).0;
    relative("slope", slope, (near - flow) / 10.0, 1e-5);
    // pi / (pi + 2) of hydraulic control texts, from memory: ours is a rounded sharp edge.
    relative("coefficient", orifice::DISCHARGE, PI / (PI + 2.0), 0.02);
}

/// Forces on a parked aircraft of 60 t, worked out: m g sin, half rho v2 times drag area.
#[test]
fn slope_and_wind_push_with_the_forces_of_the_table() {
    let push = |slope: f64, wind: f64| Push {
        mass: 60_000.0,
        slope,
        wind,
        drag_area: 10.0,
        thrust: 0.0,
    };
    relative("1 %", push(0.01, 0.0).force(), 5883.70, 1e-6);
    relative("2 %", push(0.02, 0.0).force(), 11_765.63, 1e-6);
    relative("wind", push(0.0, 25.0).force(), 3828.125, 1e-6);
    relative("headwind", push(0.0, -25.0).force(), -3828.125, 1e-6);
    // Friction limits with all weight on braked wheels: SAE AS6026A (2013) sizes with 0.31 and
    // 0.55; the angles are worked out. 14 CFR 27.735(c)(2) and 29.735(c)(2): 10 degrees.
    for (friction, degrees, slack) in [
        (0.31, 17.2234, 1e-5),
        (0.55, 28.8108, 1e-5),
        (0.176_327, 10.0, 1e-5),
    ] {
        let at_limit = push(f64::to_radians(degrees).tan(), 0.0);
        relative(
            "friction limit",
            at_limit.force() / at_limit.load(),
            friction,
            slack,
        );
    }
}

/// `mu N r_m A (p - contact) / r_t`, worked out by hand: nothing below contact, linear above.
#[test]
fn a_brake_holds_in_proportion_to_the_pressure_above_contact() {
    let stack = Stack {
        area: 58e-4,
        clearance: 2.8e-3,
        preload: 7e5,
        contact: 10.5e5,
        bedding: (2.9e-6, 40e5),
        slope: 1.61e-13,
        hose: 1.5e-13,
    };
    let friction = Friction {
        coefficient: 0.18,
        faces: 9.0,
        mean_radius: 0.165,
        tyre_radius: 0.56,
    };
    let force = |bar: f64| holding_force(&stack, &friction, bar * 1e5);
    absolute("below contact", force(10.0), 0.0, 0.0);
    let by_hand = 0.18 * 9.0 * 0.165 * 58e-4 * 100e5 / 0.56;
    relative("100 bar above", force(110.5), by_hand, 1e-12);
}

/// 14 CFR 25.735(h), looked up: energy stored for at least six full applications, anti-skid not
/// operating. Full is what the pedals command or the store has, above 70 bar (our figure).
#[test]
fn a_full_store_gives_six_full_applications() {
    let mut parking = parking("none");
    parking.switches = state("C3");
    parking.switches.push(("lever".into(), "down".into()));
    let mut plant = begun(&parking);
    plant.step(300.0).unwrap();
    for number in 1..=6 {
        let reached = plant.apply_pedals().unwrap();
        assert!(
            reached >= 70e5,
            "application {number}: {:.1} bar",
            reached / 1e5
        );
        let (clamped, all) = {
            let mut pressed = plant.clone();
            pressed.feet(1.0).unwrap();
            pressed.step(2.0).unwrap();
            pressed.clamped()
        };
        assert_eq!((clamped, all), (8, 8), "application {number}");
    }
}

/// Common practice, no source: a charge of about 1,000 psi, about a third of the system pressure
/// (the share also in a trade glossary, seen at second hand).
#[test]
fn the_demo_charge_is_what_the_trade_expects() {
    let aircraft = aircraft();
    let store = aircraft.part_for("accumulator").unwrap();
    let charge = store.parameters.iter().find_map(|(name, value)| {
        let stillwheel::plant::aircraft::Parameter::At(pressure, _) = value else {
            return None;
        };
        (*name == "precharge").then(|| pressure.si())
    });
    let charge = charge.unwrap() / (psig(1000.0) - ATMOSPHERE);
    assert!((0.9..=1.2).contains(&charge), "{charge} of 1,000 psi");
    let pumps = begun(&parking("none")).pump_pressure();
    let share = charge * (psig(1000.0) - ATMOSPHERE) / pumps;
    assert!((1.0 / 3.0..=0.5).contains(&share), "{share} of the pumps");
}

/// Common practice, no source: at least about 8 h from a full charge. Held at its hardest in
/// limits: the most leakage, 25 C, 1 %. An operator's manual gave at least 12 h of adequate
/// pressure (a public occurrence report); a mid-life demo aircraft at 15 C holds longer than that.
#[test]
fn a_full_charge_lasts_the_hours_the_trade_expects() {
    let hours = |changes: &[Change]| {
        let mut parking = parking("none");
        parking.changes.extend_from_slice(changes);
        crate::demo_plant::hours_to_creep(&parking, 0.01, 48.0).unwrap()
    };
    let worst = hours(&[Change::Wear(1.35), Change::Temperature(298.15)]);
    assert!(worst >= 7.8, "{worst} h");
    let usual = hours(&[Change::Temperature(288.15)]);
    assert!(usual >= 12.0, "{usual} h");
}

/// Common practice, no source: once the piston is on its stop the pressure of the brakes is lost,
/// while the gas side stands at its charge.
#[test]
fn pressure_is_lost_once_the_piston_reaches_its_stop() {
    let mut plant = begun(&parking("none"));
    let hold = plant.hold(0.0, 48.0).unwrap();
    let bottom = hold.hours_to_bottom.unwrap();
    let mut plant = begun(&parking("none"));
    plant.step((bottom - 0.1) * 3600.0).unwrap();
    let before = plant.sample();
    plant.step(2.0 * 3600.0).unwrap();
    let after = plant.sample();
    let brake = |sample: &stillwheel::plant::hold::Sample| sample.brakes[0].1 / 1e5;
    // Two hours before the bottom cost the brakes some 12 bar; two hours after it nearly all.
    assert!(brake(&before) > 60.0, "{}", brake(&before));
    assert!(brake(&after) < 0.5 * brake(&before), "{}", brake(&after));
    let knee = 76.0 * 288.15 / 293.15;
    absolute("gas before", before.gas.unwrap() / 1e5, knee, 1.0);
    absolute("gas after", after.gas.unwrap() / 1e5, knee, 1.0);
}
