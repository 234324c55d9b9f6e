//! From values to places on an axis, and the round values that are written beside it.

#![expect(
    clippy::cast_precision_loss,
    reason = "rows and columns of a window are small"
)]

/// Values along an axis, never of no length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale {
    low: f64,
    high: f64,
}

impl Scale {
    /// The scale between two values; a little to either side of one value alone.
    pub fn new((low, high): (f64, f64)) -> Self {
        let known = |value: f64| {
            if value.is_finite() {
                value.clamp(-1e15, 1e15)
            } else {
                0.0
            }
        };
        let (low, high) = (known(low.min(high)), known(low.max(high)));
        let least = (low.abs().max(high.abs()) * 1e-9).max(1e-9);
        if high - low > least {
            return Self { low, high };
        }
        let around = (low.abs() * 0.01).max(0.5);
        Self {
            low: low - around,
            high: high + around,
        }
    }

    /// Its ends.
    pub fn ends(self) -> (f64, f64) {
        (self.low, self.high)
    }

    /// How far along it a value lies: 0 at the low end, 1 at the high one.
    pub fn share(self, value: f64) -> f64 {
        (value - self.low) / (self.high - self.low)
    }

    /// The value at a share of it.
    pub fn value(self, share: f64) -> f64 {
        self.low + share * (self.high - self.low)
    }
}

/// Round values between two ends, at most `most` of them: whole steps of 1, 2 or 5.
pub fn ticks((low, high): (f64, f64), most: usize) -> Vec<f64> {
    let least = (high - low) / most.max(1) as f64;
    let decade = 10f64.powf(least.log10().floor());
    let steps = [1.0, 2.0, 5.0, 10.0].map(|factor| factor * decade);
    let step = steps.into_iter().find(|step| *step >= least * 0.999_999);
    let step = step.unwrap_or(10.0 * decade);
    let first = (low / step - 1e-9).ceil();
    let count = (high / step + 1e-9).floor() - first;
    let mut found = Vec::new();
    let mut nth = 0.0;
    while nth <= count && found.len() < most.max(1) {
        found.push((first + nth) * step + 0.0);
        nth += 1.0;
    }
    found
}

/// A tick as it is written: with the decimals that its neighbours need.
pub fn label(tick: f64, all: &[f64]) -> String {
    let step = match all {
        [one, other, ..] => (other - one).abs(),
        _ => tick.abs().max(1e-3),
    };
    let decimals = (0..9).find(|decimals| {
        let scaled = step * 10f64.powi(*decimals);
        (scaled - scaled.round()).abs() < 1e-6 * scaled
    });
    let decimals = usize::try_from(decimals.unwrap_or(9)).unwrap_or(9);
    // A tick at zero is written without a sign.
    let tick = if tick.abs() < step * 1e-6 { 0.0 } else { tick };
    format!("{tick:.decimals$}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_are_round_and_inside() {
        assert_eq!(ticks((172.3, 186.1), 5), [175.0, 180.0, 185.0]);
        let tenths = ticks((0.0, 1.0), 6);
        let written: Vec<String> = tenths.iter().map(|tick| label(*tick, &tenths)).collect();
        assert_eq!(written, ["0.0", "0.2", "0.4", "0.6", "0.8", "1.0"]);
        assert_eq!(label(-1e-17, &[-0.2, 0.0]), "0.0");
        assert_eq!(ticks((-30.0, 30.0), 4), [-20.0, 0.0, 20.0]);
    }

    #[test]
    fn a_scale_is_never_of_no_length() {
        for ends in [(5.0, 5.0), (0.0, 0.0), (f64::NAN, 1.0), (1e300, -1e300)] {
            let (low, high) = Scale::new(ends).ends();
            assert!(low < high && (high - low).is_finite(), "{ends:?}");
            assert!(!ticks((low, high), 3).is_empty(), "{ends:?}");
        }
    }
}
