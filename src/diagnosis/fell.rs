//! How far a gauge fell over a watch: readings as one number, and the parking they belong to.

use crate::plant::handle::Change;
use crate::plant::observe::{GAUGES, Side};
use crate::plant::parking::Parking;

/// Stretches of the time grid on which falls are worked out.
pub const STRETCHES: usize = 32;
/// Shortest watch that is played, s; longer ones are this, doubled as often as needed.
const SHORTEST: f64 = 600.0;
/// Least time from the first to the last reading that counts, s.
pub const LEAST_WATCH: f64 = 60.0;
/// However many readings there are, the fall is not known better than this share of how far two
/// of them may be apart: judgement, for scale and eye.
const LEAST_DOUBT: f64 = 0.25;
/// How slowly the equipment follows the air, s: invented, as for a parking.
const FOLLOWS: f64 = 5400.0;

/// The parking of a watch, as the plant plays it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Begin {
    /// Place of the gauge in [`GAUGES`].
    pub gauge: usize,
    /// What it showed at the beginning, Pa gauge.
    pub charge: f64,
    /// Temperature at the beginning and at the last reading, K; `None` where it is not known.
    pub temperature: Option<(f64, f64)>,
    /// Seconds that are played.
    pub horizon: f64,
}

/// Readings of one gauge, as one term of evidence.
#[derive(Debug, Clone, PartialEq)]
pub struct Fell {
    /// The parking.
    pub begin: Begin,
    /// Where the straight line stands at the first reading, Pa gauge.
    pub from: f64,
    /// Seconds from the first reading to the last.
    pub seconds: f64,
    /// How far it fell in that time by the straight line through the readings, Pa; negative where
    /// it rose.
    pub fall: f64,
    /// Standard deviation of the fall, Pa.
    pub doubt: f64,
    /// What the straight line makes of the pressures at the times of the grid, so that a predicted
    /// curve is put through the same line.
    pub weights: Vec<f64>,
}

impl Fell {
    /// The fall in some readings, as seconds after the first and Pa; `None` where there are fewer
    /// than two, or too little time lies between them.
    ///
    /// The line is that of least squares. Every reading may be off by as much as every other, so
    /// the doubt of the fall is that of the slope (Montgomery, Peck and Vining, Introduction to
    /// Linear Regression Analysis, section 2.3, from memory). Complexity: linear in the readings.
    pub fn of(
        gauge: usize,
        readings: &[(f64, f64)],
        temperature: Option<(f64, f64)>,
    ) -> Option<Self> {
        let (first, last) = (readings.first()?, readings.last()?);
        let seconds = last.0 - first.0;
        if seconds < LEAST_WATCH {
            return None;
        }
        let mut horizon = SHORTEST;
        while horizon < seconds {
            horizon *= 2.0;
        }
        let mean = mean(readings.iter().map(|reading| reading.0));
        let squares: f64 = readings.iter().map(|r| (r.0 - mean).powi(2)).sum();
        let share = |time: f64| -(time - mean) * seconds / squares;
        let fall: f64 = readings.iter().map(|r| share(r.0) * r.1).sum();
        let level = self::mean(readings.iter().map(|reading| reading.1));
        let mut weights = vec![0.0; STRETCHES + 1];
        for (time, _) in readings {
            let (at, beyond) = on_grid(*time, horizon);
            weights[at] += (1.0 - beyond) * share(*time);
            if beyond > 0.0 {
                weights[at + 1] += beyond * share(*time);
            }
        }
        let one = GAUGES[gauge].apart / 8.0_f64.sqrt();
        let least = LEAST_DOUBT * GAUGES[gauge].apart / 2.0;
        Some(Self {
            begin: Begin {
                gauge,
                charge: first.1,
                temperature,
                horizon,
            },
            from: level + fall * (mean - first.0) / seconds,
            seconds,
            fall,
            doubt: (one * seconds / squares.sqrt()).max(least),
            weights,
        })
    }

    /// The fall that the same line makes of a predicted curve.
    pub fn of_curve(&self, curve: &[f64]) -> f64 {
        let parts = self.weights.iter().zip(curve);
        parts.map(|(weight, pressure)| weight * pressure).sum()
    }

    /// Pa in one second.
    pub fn rate(&self) -> f64 {
        self.fall / self.seconds
    }

    /// A name of it by which what was worked out is found again.
    pub fn key(&self) -> Vec<u64> {
        let mut key = self.begin.key();
        key.extend([self.fall, self.doubt].map(f64::to_bits));
        key.extend(self.weights.iter().map(|weight| weight.to_bits()));
        key
    }
}

impl Begin {
    /// A name of it by which what was played is found again.
    pub fn key(&self) -> Vec<u64> {
        let (begin, end) = self.temperature.unwrap_or_default();
        let all = [self.charge, begin, end, self.horizon].map(f64::to_bits);
        std::iter::once(self.gauge as u64).chain(all).collect()
    }

    /// The parking with some in-limit leaks and some charge: what the gauge showed where none is
    /// named.
    pub fn parking(&self, wear: f64, charge: f64) -> Parking {
        let mut parking = Parking::usual();
        parking.changes.push(Change::Wear(wear));
        parking.changes.extend(self.temperature.map(|(begin, end)| {
            if (begin - end).abs() < 1e-9 {
                Change::Temperature(begin)
            } else {
                Change::Weather(vec![(0.0, begin), (self.horizon, end)], FOLLOWS)
            }
        }));
        if GAUGES[self.gauge].powered {
            let on = ("battery".to_owned(), "connected-on".to_owned());
            parking.switches.push(on);
        }
        parking.charge = Some(charge.max(0.0));
        parking
    }

    /// Whether it reads the precharge when the store is empty.
    pub fn is_gas_side(&self) -> bool {
        GAUGES[self.gauge].side == Side::Gas
    }

    /// Seconds of a place of the grid.
    pub fn time(&self, place: usize) -> f64 {
        // The grid is short, so its places are whole numbers.
        let share = u32::try_from(place).map_or(0.0, f64::from) / 32.0;
        self.horizon * share
    }
}

/// The place of the grid at or before a time, and the share of the way to the next.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "the time is clamped to the grid, whose places are few"
)]
fn on_grid(time: f64, horizon: f64) -> (usize, f64) {
    let along = (time / horizon).clamp(0.0, 1.0) * 32.0;
    let at = (along.floor() as usize).min(STRETCHES);
    (at, along - along.floor())
}

fn mean(numbers: impl Iterator<Item = f64>) -> f64 {
    let (sum, count) = numbers.fold((0.0, 0.0), |(sum, count), number| {
        (sum + number, count + 1.0)
    });
    sum / count
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::unit::BAR;

    #[test]
    fn a_fall_is_that_of_the_straight_line() {
        let readings = [(0.0, 186.0), (300.0, 181.2), (600.0, 176.0)].map(|(t, p)| (t, p * BAR));
        let fell = Fell::of(0, &readings, None).unwrap();
        // Least squares by hand: slope (176 - 186) / 600 s, the middle one counts for nothing.
        assert!((fell.fall / BAR - 10.0).abs() < 1e-9, "{}", fell.fall);
        // Two readings 3 bar apart at two deviations: one of them 1.0607; slope over three at equal
        // distances sqrt(2) of that.
        assert!((fell.doubt / BAR - 1.5).abs() < 1e-3, "{}", fell.doubt);
        let curve: Vec<f64> = (0..=STRETCHES)
            .map(|at| 186.0 - fell.begin.time(at) / 60.0)
            .collect();
        assert!((fell.of_curve(&curve) - 10.0).abs() < 1e-9);
    }

    #[test]
    fn too_little_is_no_fall() {
        assert_eq!(Fell::of(0, &[], None), None);
        assert_eq!(Fell::of(0, &[(0.0, BAR)], None), None);
        assert_eq!(Fell::of(0, &[(0.0, BAR), (30.0, BAR)], None), None);
        let many: Vec<(f64, f64)> = (0..10_000).map(|n| (f64::from(n), BAR)).collect();
        let fell = Fell::of(0, &many, None).unwrap();
        assert!((fell.doubt / BAR - 0.375).abs() < 1e-9, "never better");
        assert!(fell.begin.horizon >= fell.seconds);
    }
}
