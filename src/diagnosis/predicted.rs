//! What a check would read on a healthy aircraft and with each of some causes, and how a reading
//! compares with that.

use std::collections::BTreeMap;
use std::sync::{Mutex, PoisonError};

use super::agreement::readings::{rounds, switches};
use super::model::Model;
use super::reading::observable;
use crate::base::normal::normal_below;
use crate::base::unit::Unit;
use crate::plant::observe::Reading;

/// Share of readings that are plain wrong and may be anything on the scale: judgement.
const ANYTHING: f64 = 0.02;

/// One number that the plant reads.
#[derive(Debug, Clone, PartialEq)]
pub struct Predicted {
    /// The cause that is in; none for a healthy aircraft.
    pub event: Option<usize>,
    /// The number, in the unit of the reading.
    pub number: f64,
    /// Unit of the reading.
    pub unit: &'static str,
    /// Accuracy of the reading, two standard deviations, in its unit.
    pub accuracy: f64,
}

/// What was worked out of checks and causes: each is played once.
#[derive(Debug, Default)]
pub struct Predictions(Mutex<Played>);

/// By check and cause; nothing where there is no number, or the plant refuses.
type Played = BTreeMap<(usize, Option<usize>), Option<Predicted>>;

impl Predictions {
    /// What a check that reads a number would read: healthy first, then some causes that are
    /// faults.
    ///
    /// The aircraft stands as it was parked usually. Complexity: a parking played for each that
    /// was not asked for before.
    pub fn of(&self, model: &Model, check: usize, events: &[usize]) -> Vec<Predicted> {
        // A panic elsewhere leaves at most a reading that was not kept.
        let mut known = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let all = std::iter::once(None).chain(events.iter().copied().map(Some));
        let found = all.filter_map(|event| {
            let one = known
                .entry((check, event))
                .or_insert_with(|| predicted(model, check, event));
            one.clone()
        });
        found.collect()
    }
}

fn predicted(model: &Model, check: usize, event: Option<usize>) -> Option<Predicted> {
    let about = &model.checks[check];
    let name = about.reads.as_deref()?;
    let aircraft = model.aircraft.as_ref()?;
    observable(model, about)?;
    if let Some(event) = event {
        let (part, _) = model.causes[event].fault.as_ref()?;
        aircraft.part_for(part)?;
    }
    let put_in: Vec<usize> = event.into_iter().collect();
    let rounds = rounds(model, aircraft, &switches(model, check), &put_in).ok()?;
    let observed = rounds.observe_one(name).ok()??;
    let Reading::Number(number) = observed.reading else {
        return None;
    };
    Some(Predicted {
        event,
        number,
        unit: observed.unit,
        accuracy: observed.edge,
    })
}

/// How a reading compares: what it fits best, and how much of it a healthy aircraft explains.
#[derive(Debug, Clone, PartialEq)]
pub struct Compared {
    /// What was read, in the unit of the prediction.
    pub read: f64,
    /// Place of the best fit among what was predicted.
    pub best: usize,
    /// Of 1 such reading the part that comes from a healthy aircraft, where it is as likely
    /// beforehand as the cause that fits best.
    pub healthy: f64,
}

/// Compares a reading (SI) with what was predicted, healthy first; `None` where nothing was.
///
/// A reading spreads normally about its value with half its accuracy, and one in fifty may be
/// anything on the scale. The likelihood is taken over a stretch as wide as the accuracy.
pub fn compared(predicted: &[Predicted], si: f64) -> Option<Compared> {
    let healthy = predicted.first().filter(|first| first.event.is_none())?;
    let read = Unit::find(healthy.unit).map_or(si, |unit| unit.from_si(si));
    let numbers = predicted.iter().map(|one| one.number.abs());
    let scale = numbers.fold(read.abs(), f64::max) + healthy.accuracy;
    let chances: Vec<f64> = predicted
        .iter()
        .map(|one| likelihood(read - one.number, one.accuracy, scale))
        .collect();
    let mut best = 0;
    let mut fault = 0.0_f64;
    for (at, chance) in chances.iter().enumerate() {
        if *chance > chances[best] {
            best = at;
        }
        if at > 0 {
            fault = fault.max(*chance);
        }
    }
    Some(Compared {
        read,
        best,
        healthy: chances[0] / (chances[0] + fault),
    })
}

fn likelihood(away: f64, accuracy: f64, scale: f64) -> f64 {
    let deviation = accuracy / 2.0;
    let half = accuracy / 2.0;
    let near = normal_below((away.abs() + half) / deviation)
        - normal_below((away.abs() - half) / deviation);
    (1.0 - ANYTHING) * near + ANYTHING * (accuracy / scale).min(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(event: Option<usize>, number: f64) -> Predicted {
        Predicted {
            event,
            number,
            unit: "bar",
            accuracy: 6.0,
        }
    }

    #[test]
    fn a_reading_fits_the_nearest_and_leaves_the_healthy_one_little() {
        let all = [of(None, 186.0), of(Some(3), 74.0), of(Some(4), 120.0)];
        let found = compared(&all, 76e5).unwrap_or_else(|| unreachable!());
        assert_eq!(found.best, 1);
        // By hand: the healthy one keeps 0.02 x 6 / 192 = 0.000625; the fault is 2 of 3 deviations
        // away, P = Phi(5/3) - Phi(-1/3) = 0.9522 - 0.3694 = 0.5828, times 0.98 and the rest.
        let by_hand = 0.000_625 / (0.000_625 + 0.98 * 0.5828 + 0.000_625);
        assert!((found.healthy / by_hand - 1.0).abs() < 1e-3, "{found:?}");
        let healthy = compared(&all, 185e5).unwrap_or_else(|| unreachable!());
        assert!(healthy.best == 0 && healthy.healthy > 0.99);
        assert_eq!(compared(&[], 1.0), None);
    }
}
