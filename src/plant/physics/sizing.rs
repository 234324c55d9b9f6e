//! The textbook accumulator: an ideal gas with one exponent, for a quick look and for comparison.

/// Volume of gas at a pressure, for a charge `volume` at `charge` (absolute, any one unit).
///
/// `exponent` 1 is slow, 1.4 the usual figure for fast; near 200 bar a fast discharge of real
/// nitrogen lies at 1.8 to 2.0, which is why the plant does not use this.
pub fn gas_volume(volume: f64, charge: f64, pressure: f64, exponent: f64) -> f64 {
    volume * (charge / pressure).powf(1.0 / exponent)
}

/// Charge volume that gives up `fluid` between two absolute pressures, low and high.
pub fn needed_volume(fluid: f64, charge: f64, low: f64, high: f64, exponent: f64) -> f64 {
    fluid / (gas_volume(1.0, charge, low, exponent) - gas_volume(1.0, charge, high, exponent))
}

/// Absolute pressure of a charge at another temperature, volume unchanged (kelvin).
pub fn at_temperature(pressure: f64, from: f64, to: f64) -> f64 {
    pressure * to / from
}
