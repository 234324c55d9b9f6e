//! The parked plant as a single node, written apart from the sources: one pressure, all leaks
//! laminar, nitrogen from a table. It knows no valves and no network, so what it agrees on with
//! the plant is not an error both inherited.
//!
//! Units here are bar, cm3 and seconds. The figures of the aircraft are those of its document,
//! invented; the fluid is from memory, phosphate-ester class.

/// Compressibility of nitrogen, a column for each pressure, a row for each temperature. From the
/// reference equation, J. Phys. Chem. Ref. Data 29(6) 2000, by a general-purpose library.
const PRESSURES: [f64; 7] = [30.0, 50.0, 70.0, 100.0, 150.0, 206.84, 250.0];
const TEMPERATURES: [f64; 5] = [-20.0, 0.0, 15.0, 20.0, 40.0];
const Z: [[f64; 7]; 5] = [
    [0.98073, 0.97143, 0.96535, 0.96278, 0.97634, 1.01569, 1.0583],
    [0.9889, 0.98447, 0.9826, 0.98483, 1.00185, 1.03921, 1.0776],
    [
        0.99356, 0.99186, 0.99234, 0.99725, 1.01637, 1.05291, 1.08909,
    ],
    [
        0.99489, 0.99397, 0.99512, 1.00079, 1.02052, 1.05685, 1.09241,
    ],
    [
        0.99935, 1.00101, 1.00435, 1.01253, 1.03429, 1.07002, 1.10356,
    ],
];

/// The polynomial through all points, at `x`.
fn through(xs: &[f64], ys: &[f64], x: f64) -> f64 {
    let one = |i: usize| {
        let others = (0..xs.len()).filter(|j| *j != i);
        ys[i]
            * others
                .map(|j| (x - xs[j]) / (xs[i] - xs[j]))
                .product::<f64>()
    };
    (0..xs.len()).map(one).sum()
}

/// Volume in cm3 of a gram of nitrogen at an absolute pressure in bar.
fn specific_volume(absolute: f64, celsius: f64) -> f64 {
    let rows: Vec<f64> = Z
        .iter()
        .map(|row| through(&PRESSURES, row, absolute))
        .collect();
    let z = through(&TEMPERATURES, &rows, celsius);
    // R is 296.80 J/(kg K); a J/kg over a bar is 0.01 cm3/g.
    z * 296.80 * (celsius + 273.15) * 0.01 / absolute
}

/// Kinematic viscosity times density, over that at 15 C.
fn thickness(celsius: f64) -> f64 {
    let height = |nu: f64| (nu + 0.7_f64).log10().log10();
    let place = |celsius: f64| (celsius + 273.15).log10();
    let slope = (height(3.8) - height(11.0)) / (place(99.0) - place(38.0));
    let nu = |celsius: f64| {
        let line = height(11.0) + slope * (place(celsius) - place(38.0));
        10_f64.powf(10_f64.powf(line)) - 0.7
    };
    let density = |celsius: f64| 1.0 - 8.5e-4 * (celsius - 15.0);
    nu(celsius) * density(celsius) / (nu(15.0) * density(15.0))
}

/// What eight brakes take in.
fn brakes_hold(bar: f64) -> f64 {
    let gap = (bar - 7.0).clamp(0.0, 3.5) / 3.5 * 58.0 * 0.28;
    let above = (bar - 10.5).max(0.0);
    8.0 * (gap + 2.9 * (1.0 - (-above / 40.0).exp()) + 0.0161 * above + 0.015 * bar)
}

/// Gas, grams, put in at 76 bar and 20 C into 5.2 litres.
fn charge() -> f64 {
    5200.0 / specific_volume(76.0 + 1.013_25, 20.0)
}

/// Fluid held at a pressure: store, brakes, lines; against the cold empty plant.
fn held(bar: f64, celsius: f64) -> f64 {
    // One bar is the friction of the piston, and the gas has that more than the fluid.
    let absolute = bar + 1.0 + 1.013_25;
    let gas = charge() * specific_volume(absolute.max(40.0), celsius);
    let store = (5200.0 - gas).clamp(0.0, 4900.0);
    let lines = 250.0 + 1200.0 + 2.0 * 2650.0 + 500.0;
    store + brakes_hold(bar) + lines * (bar / 14_500.0 - 8.5e-4 * (celsius - 15.0))
}

fn pressure(volume: f64, celsius: f64) -> f64 {
    let (mut low, mut high) = (0.0, 240.0);
    for _ in 0..50 {
        let middle = 0.5 * (low + high);
        if held(middle, celsius) < volume {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

/// One parking of the single node.
pub struct SingleNode<'a> {
    /// Leak in mL/min at 200 bar and 15 C, at a temperature of the fluid.
    pub leak: &'a dyn Fn(f64) -> f64,
    /// Air temperature at an hour, C.
    pub air: &'a dyn Fn(f64) -> f64,
    /// Lag of the equipment, h; 0 follows at once.
    pub lag: f64,
}

/// All leaks of the healthy plant, mL/min: two metering valves 1.3, park valve 1.1, two check
/// valves 0.6, pilot seal 0.5, relief valve 0.4, eight shuttles 0.15.
pub const HEALTHY: f64 = 2.0 * 1.3 + 1.1 + 2.0 * 0.6 + 0.5 + 0.4 + 8.0 * 0.15;

/// Fluid pressure at which 118 t stand on 1 %, with a break-away of 0.8 %.
fn needed() -> f64 {
    let weight = 118_000.0 * 9.806_65;
    let drive = weight * (0.01_f64.atan().sin() - 0.008 * 0.01_f64.atan().cos());
    let per_bar = 8.0 * 0.18 * 9.0 * 0.165 * 58e-4 * 1e5 / 0.56;
    10.5 + drive / per_bar
}

impl SingleNode<'_> {
    /// Hours until it can move on 1 %, from 206 bar.
    pub fn hours_to_creep(&self) -> f64 {
        const STEP: f64 = 30.0;
        let mut celsius = (self.air)(0.0);
        let mut volume = held(206.0, celsius);
        let mut hours = 0.0;
        loop {
            let bar = pressure(volume, celsius);
            if bar <= needed() {
                return hours;
            }
            let per_second = (self.leak)(celsius) / 60.0 / 200.0 / thickness(celsius);
            volume -= per_second * bar * STEP;
            hours += STEP / 3600.0;
            let air = (self.air)(hours);
            celsius = if self.lag > 0.0 {
                celsius + (air - celsius) * (STEP / 3600.0 / self.lag)
            } else {
                air
            };
        }
    }
}

#[test]
fn the_single_node_holds_as_long_as_the_plant_where_nothing_but_leaks_matters() {
    let steady = SingleNode {
        leak: &|_| HEALTHY,
        air: &|_| 15.0,
        lag: 0.0,
    };
    let found = steady.hours_to_creep();
    let plant = crate::demo_plant::hours_to_creep(&crate::demo_plant::parking("none"), 0.01, 48.0);
    let plant = plant.unwrap();
    assert!(
        (found - plant).abs() < 0.01 * plant,
        "{found} h alone, {plant} h in the network"
    );
}
