//! What a fall of some size does to the weight of a cause.

use crate::base::normal::{NORMAL_95, normal_below};
use crate::diagnosis::fell::Fell;
use crate::tree::mass::Lapse;

/// Points between the mildest case and the worst at which a fall is weighed.
const POINTS: u32 = 32;
/// Share of readings that are plain wrong and may be anything on the scale: judgement, as for
/// single readings.
const ANYTHING: f64 = 0.02;
/// Chance that a cause of which nothing is known adds nothing to the fall: judgement.
const ADDS_NOTHING: f64 = 0.5;
/// The stretch about the fall, one standard deviation to either side.
fn stretch(fell: &Fell) -> (f64, f64) {
    (fell.fall - fell.doubt, fell.fall + fell.doubt)
}

/// From below -`scale` to above it: every reading of a gauge lies between.
fn scale(fell: &Fell) -> f64 {
    fell.begin.charge.abs().max(fell.fall.abs()).max(1e5)
}

/// What the stretch does to a cause with these falls from its mildest case to its worst.
pub(super) fn lapse(fell: &Fell, falls: &[f64; 3]) -> Lapse {
    let scale = scale(fell);
    let below = |fall: f64| {
        let near: f64 = cases(falls)
            .map(|(share, middle)| share * normal_below((fall - middle) / fell.doubt))
            .sum();
        let any = ((fall + scale) / (2.0 * scale)).clamp(0.0, 1.0);
        (1.0 - ANYTHING) * near + ANYTHING * any
    };
    between(below, stretch(fell))
}

/// What it does to a cause of which nothing is known: it adds nothing, or a fall of any size, every
/// factor alike.
pub(super) fn unknown(fell: &Fell) -> Lapse {
    let least = fell.doubt;
    let most = scale(fell).max(2.0 * least);
    let below = |fall: f64| {
        let passed = (fall.max(least) / least).ln() / (most / least).ln();
        ADDS_NOTHING + (1.0 - ADDS_NOTHING) * passed.min(1.0)
    };
    between(below, stretch(fell))
}

fn between(below: impl Fn(f64) -> f64, (low, high): (f64, f64)) -> Lapse {
    let (low, high) = (below(low), below(high));
    Lapse {
        beyond: low,
        within: (high - low).max(0.0),
    }
}

/// Falls between the mildest case and the worst, each with its share: normal about the middle one,
/// what lies beyond an end stands at it.
fn cases(falls: &[f64; 3]) -> impl Iterator<Item = (f64, f64)> {
    let [mild, middle, worst] = *falls;
    let half = f64::from(POINTS) / 2.0;
    (0..=POINTS).map(move |point| {
        let along = f64::from(point) / half - 1.0;
        let step = 1.0 / half;
        let upper = if point == POINTS {
            1.0
        } else {
            normal_below((along + step / 2.0) * NORMAL_95)
        };
        let lower = if point == 0 {
            0.0
        } else {
            normal_below((along - step / 2.0) * NORMAL_95)
        };
        let fall = if along < 0.0 {
            middle + (middle - mild) * along
        } else {
            middle + (worst - middle) * along
        };
        (upper - lower, fall)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnosis::falls::RULED_OUT;
    use crate::tree::mass::Mass;

    fn fell(bar: f64) -> Fell {
        let readings = [(0.0, 186e5), (600.0, (186.0 - bar) * 1e5)];
        Fell::of(0, &readings, None).unwrap()
    }

    #[test]
    fn shares_of_all_cases_are_one() {
        let all: f64 = cases(&[1.0, 2.0, 4.0]).map(|(share, _)| share).sum();
        assert!((all - 1.0).abs() < 1e-12);
        let (least, most) = cases(&[1.0, 2.0, 4.0])
            .fold((9.0_f64, 0.0_f64), |(a, b), (_, fall)| {
                (a.min(fall), b.max(fall))
            });
        assert!((least - 1.0).abs() < 1e-12 && (most - 4.0).abs() < 1e-12);
    }

    #[test]
    fn a_fall_outside_all_cases_leaves_little_and_never_nothing() {
        let falls = [5e5, 10e5, 20e5];
        let inside = lapse(&fell(10.0), &falls).weight();
        let outside = lapse(&fell(60.0), &falls).weight();
        assert!(inside > 0.05, "{inside}");
        assert!(outside > 0.0 && outside < inside / RULED_OUT, "{outside}");
        // A rise too: warm weather, or a slip of the pen.
        assert!(lapse(&fell(-20.0), &falls).weight() > 0.0);
        assert!(unknown(&fell(60.0)).weight() > 0.0);
    }
}
