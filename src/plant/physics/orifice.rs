//! Flow through a sharp-edged hole.

/// Share of the ideal flow that passes a sharp edge; pi / (pi + 2) = 0.611 in theory.
pub const DISCHARGE: f64 = 0.62;

/// Pressure below which the root is smoothed, Pa: 0.02 bar, chosen by us.
const SMOOTH: f64 = 2e3;

/// Flow in m3/s and its change with the pressure difference, for an area in m2.
///
/// q = Cd A sqrt(2 / rho) dp / sqrt(|dp| + smoothing), which is the orifice law away from zero
/// and has a finite slope there. Source: any text on hydraulic control; a published calculator
/// figure is a test.
pub fn flow(area: f64, difference: f64, density: f64) -> (f64, f64) {
    through(factor(area, density), difference)
}

/// What the law takes of a hole and its fluid.
pub fn factor(area: f64, density: f64) -> f64 {
    DISCHARGE * area * (2.0 / density).sqrt()
}

/// Flow and its change with the pressure difference, for the [`factor`] of a hole.
pub fn through(factor: f64, difference: f64) -> (f64, f64) {
    let size = difference.abs() + SMOOTH;
    let root = size.sqrt();
    (
        factor * difference / root,
        factor * (size - 0.5 * difference.abs()) / (size * root),
    )
}
