//! The standard normal distribution.

/// The 95 % point of the standard normal distribution.
pub const NORMAL_95: f64 = 1.644_853_626_951_472_2;

/// Chance that a standard normal value lies below `z`.
pub fn normal_below(z: f64) -> f64 {
    0.5 * libm::erfc(-z / std::f64::consts::SQRT_2)
}

#[cfg(test)]
mod tests {
    use super::*;

    // Abramowitz and Stegun, Handbook of Mathematical Functions, tables 26.1 and 26.2: P(0.5),
    // P(1), P(2), P(3), Q(6). The digits are from memory.
    #[test]
    fn the_normal_distribution_matches_its_table() {
        let table = [
            (0.0, 0.5),
            (0.5, 0.691_462_461_274_013),
            (1.0, 0.841_344_746_068_543),
            (2.0, 0.977_249_868_051_821),
            (3.0, 0.998_650_101_968_370),
        ];
        for (z, p) in table {
            assert!(
                (normal_below(z) - p).abs() < 1e-12,
                "{z}: {}",
                normal_below(z)
            );
            assert!((normal_below(-z) - (1.0 - p)).abs() < 1e-12);
        }
        let tail = normal_below(-6.0) / 9.865_876_450_377e-10;
        assert!((tail - 1.0).abs() < 1e-9, "{tail}");
        assert!((normal_below(NORMAL_95) - 0.95).abs() < 1e-14);
    }
}
