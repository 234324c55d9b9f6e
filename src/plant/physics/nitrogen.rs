//! Nitrogen as a real gas.
//!
//! Source: the short technical equation of state for non-polar fluids, Int. J. Thermophysics
//! 24(1) 2003, 41-109, doi 10.1023/A:1022310214958, seen at second hand; its five printed check
//! figures and a grid of the reference equation are tests. Valid to 750 K and 1,000 bar.
//! The ideal part is that of the reference equation, J. Phys. Chem. Ref. Data 29(6) 2000, from
//! memory; two of the printed figures (cp0 and the entropy difference) hold it in place.

/// Molar gas constant over molar mass: 8.31451 J/(mol K) and 28.013 g/mol, J/(kg K).
pub const GAS_CONSTANT: f64 = 8.314_51 / 0.028_013;
const CRITICAL_TEMPERATURE: f64 = 126.192;
const CRITICAL_DENSITY: f64 = 313.3;

/// One term of the residual: coefficient, power of density, power of temperature in eighths, power
/// in the exponential (0 where there is none).
struct Term(f64, i32, i32, i32);

const TERMS: [Term; 12] = [
    Term(0.922_965_67, 1, 2, 0),
    Term(-2.557_501_2, 1, 9, 0),
    Term(0.644_824_63, 1, 12, 0),
    Term(0.010_831_02, 2, 11, 0),
    Term(0.073_924_167, 3, 2, 0),
    Term(0.000_235_329_62, 7, 7, 0),
    Term(0.180_248_54, 2, 5, 1),
    Term(-0.045_660_299, 5, 14, 1),
    Term(-0.155_210_6, 1, 29, 2),
    Term(-0.038_111_49, 4, 29, 2),
    Term(-0.031_962_422, 3, 116, 3),
    Term(0.015_513_532, 4, 96, 3),
];

/// What the gas is like in one state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Properties {
    /// Absolute pressure, Pa.
    pub pressure: f64,
    /// Change of pressure with density at constant temperature, Pa m3/kg.
    pub pressure_by_density: f64,
    /// Change of pressure with temperature at constant density, Pa/K.
    pub pressure_by_temperature: f64,
    /// Heat capacity at constant volume, J/(kg K).
    pub cv: f64,
    /// Heat capacity at constant pressure, J/(kg K).
    pub cp: f64,
    /// Enthalpy against an arbitrary zero, J/kg.
    pub enthalpy: f64,
    /// Entropy against an arbitrary zero, J/(kg K).
    pub entropy: f64,
}

/// Powers of temperature, which stay the same along an isotherm and cost most of the time.
#[derive(Debug, Clone, Copy)]
pub struct Isotherm {
    temperature: f64,
    factors: [f64; 12],
}

impl Isotherm {
    /// The isotherm of a temperature in kelvin; below 60 K the equation means nothing and 60 K is
    /// taken, so that a solver passing through nonsense on its way back never meets a NaN.
    pub fn new(temperature: f64) -> Self {
        let temperature = temperature.max(60.0);
        let powers = temperature_powers(CRITICAL_TEMPERATURE / temperature);
        let mut factors = [0.0; 12];
        for ((factor, Term(n, ..)), power) in factors.iter_mut().zip(&TERMS).zip(powers) {
            *factor = n * power;
        }
        Self {
            temperature,
            factors,
        }
    }

    /// Absolute pressure, Pa, and its change with density, for a density in kg/m3.
    pub fn pressure(&self, density: f64) -> (f64, f64) {
        let delta = density / CRITICAL_DENSITY;
        let shapes = density_shapes(delta);
        let bent = exponents(delta);
        let (mut first, mut second) = (0.0, 0.0);
        for ((factor, Term(_, d, _, c)), shape) in self.factors.iter().zip(&TERMS).zip(shapes) {
            let (inner, bend) = slope_of(*d, *c, &bent);
            let term = factor * shape;
            first += term * inner;
            second += term * (inner * (inner - 1.0) - bend);
        }
        let rt = GAS_CONSTANT * self.temperature;
        (
            density * rt * (1.0 + first),
            rt * (1.0 + 2.0 * first + second),
        )
    }

    /// Density in kg/m3 for an absolute pressure in Pa. Newton's method from the ideal gas.
    ///
    /// Valid from vacuum to 1,000 bar; a negative pressure gives a density of almost nothing.
    pub fn density(&self, pressure: f64) -> f64 {
        let ideal = pressure.max(1.0) / (GAS_CONSTANT * self.temperature);
        let mut density = ideal.min(600.0);
        for _ in 0..40 {
            let (found, slope) = self.pressure(density);
            let step = (found - pressure.max(1.0)) / slope.max(1.0);
            density = (density - step).clamp(density * 0.3, density * 3.0 + 1e-9);
            if step.abs() < 1e-10 * density {
                break;
            }
        }
        density
    }
}

/// The powers of temperature of all terms, for the critical temperature over the one asked for.
///
/// Every power is a whole number of eighths, and they are products of each other: three roots and
/// some products cost far less than twelve powers, and this is the innermost of all loops.
fn temperature_powers(ratio: f64) -> [f64; 12] {
    let fourth = ratio.sqrt().sqrt();
    let p1 = fourth.sqrt();
    let p4 = ratio.sqrt();
    let (p2, p8) = (fourth, ratio);
    let (p5, p12) = (p4 * p1, p8 * p4);
    let (p7, p9, p14) = (p5 * p2, p8 * p1, p12 * p2);
    let p11 = p9 * p2;
    let p29 = p14 * p14 * p1;
    let p24 = p12 * p12;
    let p48 = p24 * p24;
    let p96 = p48 * p48;
    let p116 = p96 * p12 * p8;
    [p2, p9, p12, p11, p2, p7, p5, p14, p29, p29, p116, p96]
}

/// What density contributes to every term: its power, times the exponential.
fn density_shapes(delta: f64) -> [f64; 12] {
    let d2 = delta * delta;
    let d3 = d2 * delta;
    let (d4, d5) = (d2 * d2, d3 * d2);
    let d7 = d4 * d3;
    let (e1, e2, e3) = ((-delta).exp(), (-d2).exp(), (-d3).exp());
    [
        delta,
        delta,
        delta,
        d2,
        d3,
        d7,
        d2 * e1,
        d5 * e1,
        delta * e2,
        d4 * e2,
        d3 * e3,
        d4 * e3,
    ]
}

/// For every power in the exponential, that power times what it is the power of.
fn exponents(delta: f64) -> [f64; 4] {
    let d2 = delta * delta;
    [0.0, delta, 2.0 * d2, 3.0 * d2 * delta]
}

/// For one term, its power of density as the exponential bends it, and how that changes.
fn slope_of(d: i32, c: i32, exponents: &[f64; 4]) -> (f64, f64) {
    let bent = exponents[usize::try_from(c).unwrap_or(0)];
    (f64::from(d) - bent, f64::from(c) * bent)
}

/// Change of pressure with temperature at constant density, Pa/K, and heat capacity at constant
/// volume, J/(kg K): the two of the [`properties`] that a step of a gas charge needs.
pub fn stiffening_and_heat(temperature: f64, density: f64) -> (f64, f64) {
    let isotherm = Isotherm::new(temperature);
    let delta = density / CRITICAL_DENSITY;
    let shapes = density_shapes(delta);
    let bent = exponents(delta);
    let (mut by_d, mut by_tt, mut by_dt) = (0.0, 0.0, 0.0);
    for ((factor, Term(_, d, t, c)), shape) in isotherm.factors.iter().zip(&TERMS).zip(shapes) {
        let (inner, _) = slope_of(*d, *c, &bent);
        let term = factor * shape;
        let t = f64::from(*t) / 8.0;
        by_d += term * inner;
        by_tt += term * t * (t - 1.0);
        by_dt += term * t * inner;
    }
    (
        density * GAS_CONSTANT * (1.0 + by_d - by_dt),
        GAS_CONSTANT * (ideal_heat(temperature) - 1.0 - by_tt),
    )
}

/// Everything about one state: temperature in kelvin, density in kg/m3.
pub fn properties(temperature: f64, density: f64) -> Properties {
    let isotherm = Isotherm::new(temperature);
    let delta = density / CRITICAL_DENSITY;
    let (mut value, mut by_d, mut by_t, mut by_tt, mut by_dt) = (0.0, 0.0, 0.0, 0.0, 0.0);
    let shapes = density_shapes(delta);
    let bent = exponents(delta);
    for ((factor, Term(_, d, t, c)), shape) in isotherm.factors.iter().zip(&TERMS).zip(shapes) {
        let (inner, _) = slope_of(*d, *c, &bent);
        let term = factor * shape;
        let t = f64::from(*t) / 8.0;
        value += term;
        by_d += term * inner;
        by_t += term * t;
        by_tt += term * t * (t - 1.0);
        by_dt += term * t * inner;
    }
    let (pressure, pressure_by_density) = isotherm.pressure(density);
    let r = GAS_CONSTANT;
    let swell = 1.0 + by_d - by_dt;
    let cv = r * (ideal_heat(temperature) - 1.0 - by_tt);
    Properties {
        pressure,
        pressure_by_density,
        pressure_by_temperature: density * r * swell,
        cv,
        cp: cv + r * swell * swell / (pressure_by_density / (r * temperature)),
        enthalpy: r * (ideal_enthalpy(temperature) + temperature * (by_t + by_d)),
        entropy: r * (ideal_entropy(temperature) - density.ln() + by_t - value),
    }
}

/// Coefficients of the ideal heat capacity over R, and the vibration of the molecule.
const IDEAL: [f64; 4] = [3.5, 3.066_469e-6, 4.701_24e-9, -3.987_984e-13];
const VIBRATION: f64 = 1.012_941;
const VIBRATION_TEMPERATURE: f64 = 3364.011;

/// Ideal heat capacity at constant pressure over R.
pub fn ideal_heat(temperature: f64) -> f64 {
    let ratio = VIBRATION_TEMPERATURE / temperature;
    let vibration = ratio * ratio * (-ratio).exp() / (-(-ratio).exp_m1()).powi(2);
    powers(temperature, [1.0; 4]) + VIBRATION * vibration
}

/// Integral of the ideal heat capacity over R.
fn ideal_enthalpy(temperature: f64) -> f64 {
    let vibration = VIBRATION_TEMPERATURE / (VIBRATION_TEMPERATURE / temperature).exp_m1();
    let shares = [1.0, 1.0 / 2.0, 1.0 / 3.0, 1.0 / 4.0];
    temperature * powers(temperature, shares) + VIBRATION * vibration
}

/// The polynomial of the ideal heat capacity with each coefficient times a share.
fn powers(temperature: f64, shares: [f64; 4]) -> f64 {
    let terms = IDEAL.iter().zip(shares).rev();
    terms.fold(0.0, |sum, (term, share)| sum * temperature + term * share)
}

/// Integral of (ideal heat capacity over R, less 1) over temperature.
fn ideal_entropy(temperature: f64) -> f64 {
    let ratio = VIBRATION_TEMPERATURE / temperature;
    let vibration = ratio / ratio.exp_m1() - (-(-ratio).exp_m1()).ln();
    let above = powers(temperature, [0.0, 1.0, 1.0 / 2.0, 1.0 / 3.0]);
    (IDEAL[0] - 1.0) * temperature.ln() + above + VIBRATION * vibration
}
