//! How long after the last pump stopped the aircraft moves, cause by cause.
//!
//! A cause alone moves it after a time that is not known beforehand: a plant has in-limit leaks, a
//! fault has a severity, a person does it whenever he does it. Several causes together move it at
//! the earliest of their times. When it moved is then one term of evidence.

use crate::base::normal::{NORMAL_95, normal_below};
use crate::plant::band::{TIGHT, WORST};
use crate::tree::mass::Lapse;

/// Slopes that are tried where none is typed, rise over run: stands are seldom steeper.
pub const SLOPES: [f64; 2] = [0.01, 0.02];
/// How likely each of them is: judgement.
const SLOPE_SHARES: [f64; 2] = [0.6, 0.4];
/// In-limit leaks that are tried, over those of a mid-life aircraft.
pub const WEARS: [f64; 3] = [TIGHT, 1.0, WORST];
/// How likely each of them is: judgement.
const WEAR_SHARES: [f64; 3] = [0.25, 0.5, 0.25];
/// Hours after which the search for a movement ends, and after which all times are alike.
pub const LONGEST: f64 = 48.0;
/// Typed times beyond this are alike, so that nothing typed contradicts every cause, h.
const ALIKE_BEYOND: f64 = 40.0;
/// Shortest time of a cause of which nothing is known, h.
const SHORTEST: f64 = 0.02;
/// What the plant moves sooner than this is seen no sooner, h: judgement.
const SOONEST: f64 = 0.02;
/// "At once" ends here, h.
const AT_ONCE: f64 = 0.05;
/// Share of every cause that moves it at any time, so that no time excludes a cause.
const ANY_TIME: f64 = 0.02;
/// Spread of a healthy aircraft whose wear is known: judgement.
const HEALTHY_SPREAD: f64 = 0.15;
/// A severity may be half or twice what the document says, one in twenty lies beyond each: judgement.
const SEVERITY_FACTOR: f64 = 2.0;

/// When a cause moves the aircraft, as an author says it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Moves {
    /// Within minutes.
    AtOnce,
    /// Between two times, in hours, every factor alike.
    Between(f64, f64),
    /// When a healthy aircraft would.
    AsDesigned,
}

/// Hours to movement as the plant played them: by slope of [`SLOPES`], then by wear of [`WEARS`];
/// `None` where it stood until [`LONGEST`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Played {
    /// The hours.
    pub hours: [[Option<f64>; 3]; 2],
}

/// A distribution of times to movement.
#[derive(Debug, Clone, PartialEq)]
pub enum Times {
    /// Every time in a range alike, from and to in hours.
    Even(f64, f64),
    /// Every factor alike, from and to in hours.
    Factors(f64, f64),
    /// Log-normal about some hours, each with its share; `None` never moves it.
    About(Vec<(f64, Option<f64>)>, f64),
}

impl Times {
    /// Those of a cause of which nothing is known, and of a cause that is not in the tree.
    pub fn any() -> Self {
        Self::Factors(SHORTEST, LONGEST)
    }

    /// Those an author typed; `None` where the plant has to say.
    pub fn typed(moves: Moves) -> Option<Self> {
        match moves {
            Moves::AtOnce => Some(Self::Even(0.0, AT_ONCE)),
            Moves::Between(from, to) => Some(Self::Factors(from, to)),
            Moves::AsDesigned => None,
        }
    }

    /// Those of a fault, on a slope (rise over run) where it is known.
    pub fn of_fault(played: &Played, slope: Option<f64>) -> Self {
        Self::About(played.cells(slope), SEVERITY_FACTOR.ln() / NORMAL_95)
    }

    /// Those of a healthy aircraft.
    pub fn of_healthy(played: &Played, slope: Option<f64>) -> Self {
        Self::About(played.cells(slope), HEALTHY_SPREAD)
    }

    /// Those of a healthy aircraft on a slope on which it was played, tight to worn.
    pub fn of_healthy_there(hours: [Option<f64>; 3]) -> Self {
        let cells = WEAR_SHARES.into_iter().zip(hours).collect();
        Self::About(cells, HEALTHY_SPREAD)
    }

    /// Chance of a time below some hours.
    fn below(&self, hours: f64) -> f64 {
        match self {
            Self::Even(from, to) => ((hours - from) / (to - from)).clamp(0.0, 1.0),
            Self::Factors(from, to) => {
                let passed = (hours.max(*from) / from).ln() / (to / from).ln();
                passed.min(1.0)
            }
            Self::About(cells, spread) => {
                let below = |middle: f64| {
                    let passed = hours.max(f64::MIN_POSITIVE) / middle.max(SOONEST);
                    normal_below(passed.ln() / spread)
                };
                let cells = cells.iter();
                cells
                    .map(|(share, middle)| share * middle.map_or(0.0, below))
                    .sum()
            }
        }
    }

    /// What a stretch of hours does to the weight of this cause.
    pub fn lapse(&self, stretch: Stretch) -> Lapse {
        let any = Self::any();
        let mixed = |hours: f64| (1.0 - ANY_TIME) * self.below(hours) + ANY_TIME * any.below(hours);
        let (begin, end) = (mixed(stretch.from), mixed(stretch.to));
        Lapse {
            beyond: (1.0 - end).max(0.0),
            within: (end - begin).max(0.0),
        }
    }
}

/// A stretch of hours in which it moved.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// Hours at its beginning.
    pub from: f64,
    /// Hours at its end; infinite where it lies beyond what is told apart.
    pub to: f64,
}

/// One time is said with about a tenth of doubt, and never closer than these hours: judgement.
const SAID_WITHIN: (f64, f64) = (0.1, 0.05);

impl Stretch {
    /// Between two times, as typed, in seconds; the same twice is one time with its doubt.
    pub fn typed((from, to): (f64, f64)) -> Self {
        let (mut from, mut to) = (from / 3600.0, to / 3600.0);
        let least = (SAID_WITHIN.0 * to).max(SAID_WITHIN.1);
        if to - from < least {
            let middle = f64::midpoint(from, to);
            from = (middle - least).max(0.0);
            to = middle + least;
        }
        if to > ALIKE_BEYOND {
            to = f64::INFINITY;
        }
        Self {
            from: from.min(ALIKE_BEYOND),
            to,
        }
    }
}

impl Played {
    /// Each played time with its share; on a known slope those of that slope.
    fn cells(&self, slope: Option<f64>) -> Vec<(f64, Option<f64>)> {
        if let Some(slope) = slope {
            let on = |at: usize| between(self.hours[0][at], self.hours[1][at], slope);
            return (0..3).map(|at| (WEAR_SHARES[at], on(at))).collect();
        }
        let rows = SLOPE_SHARES.into_iter().zip(self.hours);
        let cells = rows.flat_map(|(share, hours)| {
            let worn = WEAR_SHARES.into_iter().zip(hours);
            worn.map(move |(wear, hours)| (share * wear, hours))
        });
        cells.collect()
    }
}

/// Hours on a slope from those on the two that were played, by equal factors between them; on one
/// that is less or more, those of the nearest.
fn between(flat: Option<f64>, steep: Option<f64>, slope: f64) -> Option<f64> {
    let [low, high] = SLOPES;
    let way = ((slope.abs() - low) / (high - low)).clamp(0.0, 1.0);
    match (flat, steep) {
        (Some(flat), Some(steep)) if flat > 0.0 && steep > 0.0 => {
            Some((flat.ln() * (1.0 - way) + steep.ln() * way).exp())
        }
        _ if way < 0.5 => flat,
        _ => steep,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const HOUR: f64 = 3600.0;

    #[test]
    fn every_stretch_leaves_every_cause_some_weight() {
        let never = Times::About(vec![(1.0, None)], HEALTHY_SPREAD);
        for hours in [0.0, 0.01, 0.3, 5.0, 47.0, 49.0, 500.0] {
            let stretch = Stretch::typed((hours * HOUR, hours * HOUR));
            for times in [Times::any(), Times::Even(0.0, AT_ONCE), never.clone()] {
                let lapse = times.lapse(stretch);
                assert!(lapse.within > 0.0, "{hours} h: {times:?}, {stretch:?}");
                assert!((0.0..=1.0).contains(&lapse.beyond), "{hours} h: {lapse:?}");
            }
        }
    }

    #[test]
    fn stretches_side_by_side_add_up() {
        let times = Times::About(vec![(0.5, Some(3.0)), (0.5, Some(14.0))], 0.4);
        let ends = [0.0, 1.0, 4.0, 20.0, f64::INFINITY];
        let within = |pair: &[f64]| {
            let (from, to) = (pair[0], pair[1]);
            times.lapse(Stretch { from, to }).within
        };
        let sum: f64 = ends.windows(2).map(within).sum();
        assert!((sum - 1.0).abs() < 1e-12, "{sum}");
        assert!(times.lapse(Stretch { from: 2.0, to: 4.0 }).within > 0.25);
    }

    #[test]
    fn one_time_is_said_with_some_doubt_and_two_are_kept() {
        let one = Stretch::typed((5.0 * HOUR, 5.0 * HOUR));
        assert!((one.from - 4.5).abs() < 1e-12 && (one.to - 5.5).abs() < 1e-12);
        let two = Stretch::typed((2.0 * HOUR, 6.0 * HOUR));
        assert!((two.from - 2.0).abs() < 1e-12 && (two.to - 6.0).abs() < 1e-12);
    }

    #[test]
    fn a_known_slope_lies_between_the_two_that_were_played() {
        let played = Played {
            hours: [[Some(16.0); 3], [Some(4.0); 3]],
        };
        let hours = |slope| played.cells(Some(slope))[1].1;
        assert!((hours(0.015).unwrap_or_default() - 8.0).abs() < 1e-12);
        assert_eq!(
            hours(0.002),
            hours(0.01),
            "a flat one counts as the flattest"
        );
        assert_eq!(hours(-0.03), hours(0.02), "uphill pushes as downhill does");
    }
}
