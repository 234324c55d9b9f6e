//! Laminar leakage through narrow gaps.

use std::f64::consts::PI;

/// A ring gap: diameter, gap and length in m, offset of the spool as a share of the gap (0 to 1).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ring {
    /// Diameter, m.
    pub diameter: f64,
    /// Gap, m.
    pub gap: f64,
    /// Length along the flow, m.
    pub length: f64,
    /// Offset over gap; 1 touches the wall and multiplies the leak by 2.5.
    pub offset: f64,
}

/// Leak in m3/s through a ring gap, for Pa and Pa s.
///
/// q = pi D c^3 dp / (12 mu L) (1 + 1.5 e^2). Source: standard texts; the factor 2.5 at the wall
/// and a calculator figure are tests.
pub fn ring(ring: Ring, difference: f64, viscosity: f64) -> f64 {
    let Ring {
        diameter,
        gap,
        length,
        offset,
    } = ring;
    PI * diameter * gap.powi(3) * difference / (12.0 * viscosity * length)
        * (1.0 + 1.5 * offset * offset)
}

/// Leak in m3/s through a flat slot: width, height and length in m.
pub fn slot(width: f64, height: f64, length: f64, difference: f64, viscosity: f64) -> f64 {
    width * height.powi(3) * difference / (12.0 * viscosity * length)
}

/// Pressure at which leaks are stated in documents, Pa: 200 bar. They are stated at 15 C too.
pub const STATED_AT: f64 = 200e5;

/// Conductance in m3/(s Pa) of a leak stated as a flow (m3/s) at 200 bar.
pub fn conductance(stated: f64) -> f64 {
    stated / STATED_AT
}
