//! Viscosity and density of the fluid over temperature.

/// A line through two points in the form log10 log10 (nu + 0.7) = A - B log10 T.
///
/// Units: nu in m2/s outside and mm2/s in the formula, T in kelvin. Valid above 2 mm2/s.
/// Source: the form of ASTM D341, with its public worked example as a test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Walther {
    a: f64,
    b: f64,
}

impl Walther {
    /// The line through two points, each kelvin and m2/s; the temperatures must differ.
    pub fn through(points: [(f64, f64); 2]) -> Self {
        let height = |nu: f64| (nu * 1e6 + 0.7).log10().log10();
        let [(t1, nu1), (t2, nu2)] = points;
        let b = (height(nu1) - height(nu2)) / (t2.log10() - t1.log10());
        Self {
            a: height(nu1) + b * t1.log10(),
            b,
        }
    }

    /// The two constants.
    pub fn constants(&self) -> (f64, f64) {
        (self.a, self.b)
    }

    /// Kinematic viscosity in m2/s at a temperature in kelvin.
    pub fn viscosity(&self, temperature: f64) -> f64 {
        let height = self.a - self.b * temperature.log10();
        (10.0_f64.powf(10.0_f64.powf(height)) - 0.7) * 1e-6
    }
}

/// Density in kg/m3 of a fluid that has `at_15` at 15 C and swells by `expansion` per kelvin.
pub fn density(at_15: f64, expansion: f64, temperature: f64) -> f64 {
    at_15 * (1.0 - expansion * (temperature - 288.15))
}
