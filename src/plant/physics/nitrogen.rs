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
        // Every power is a whole number of eighths; three roots cost less than twelve powers.
        let eighth = (CRITICAL_TEMPERATURE / temperature).sqrt().sqrt().sqrt();
        let mut factors = [0.0; 12];
        for (factor, Term(n, _, t, _)) in factors.iter_mut().zip(&TERMS) {
            *factor = n * eighth.powi(*t);
        }
        Self {
            temperature,
            factors,
        }
    }

    /// Absolute pressure, Pa, and its change with density, for a density in kg/m3.
    pub fn pressure(&self, density: f64) -> (f64, f64) {
        let delta = density / CRITICAL_DENSITY;
        let decay = [
            1.0,
            (-delta).exp(),
            (-delta * delta).exp(),
            (-delta.powi(3)).exp(),
        ];
        let (mut first, mut second) = (0.0, 0.0);
        for (factor, Term(_, d, _, c)) in self.factors.iter().zip(&TERMS) {
            let (inner, bend) = slope_of(delta, *d, *c);
            let term = factor * delta.powi(*d) * decay[usize::try_from(*c).unwrap_or(0)];
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

/// For one term, its power of density as the exponential bends it, and how that changes.
fn slope_of(delta: f64, d: i32, c: i32) -> (f64, f64) {
    let power = f64::from(d);
    if c == 0 {
        return (power, 0.0);
    }
    let bent = f64::from(c) * delta.powi(c);
    (power - bent, f64::from(c) * bent)
}

/// Everything about one state: temperature in kelvin, density in kg/m3.
pub fn properties(temperature: f64, density: f64) -> Properties {
    let isotherm = Isotherm::new(temperature);
    let delta = density / CRITICAL_DENSITY;
    let (mut value, mut by_d, mut by_t, mut by_tt, mut by_dt) = (0.0, 0.0, 0.0, 0.0, 0.0);
    for (factor, Term(_, d, t, c)) in isotherm.factors.iter().zip(&TERMS) {
        let decay = if *c == 0 {
            1.0
        } else {
            (-delta.powi(*c)).exp()
        };
        let (inner, _) = slope_of(delta, *d, *c);
        let term = factor * delta.powi(*d) * decay;
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
