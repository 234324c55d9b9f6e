//! How a watched gauge falls with each cause in the plant, and what its fall says of them.
//!
//! Every cause is played from its mildest to its worst case. With several causes there the fastest
//! fall decides, and the in-limit leaks of a healthy aircraft are always there: so how likely a
//! fall is, is a product over the causes at its upper end, less the same product at its lower end.
//! A cause with which the plant falls slower than a healthy one therefore counts as one that adds
//! nothing, and no reading rules it out before a healthy aircraft.

mod chance;

use std::collections::BTreeMap;
use std::num::NonZero;
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;

use super::agreement::fault_of;
use super::evidence::Evidence;
use super::fell::{Begin, Fell, STRETCHES};
use super::model::Model;
use super::moved::Lapses;
use crate::plant::aircraft::Aircraft;
use crate::plant::band::{TIGHT, WORST};
use crate::plant::error::PlantError;
use crate::plant::handle::Change;
use crate::plant::observe::GAUGES;
use crate::plant::parking::Parking;
use crate::tree::mass::{Lapse, Mass};
use chance::{lapse, unknown};

/// In-limit leaks and severity from the mildest case to the worst; one in twenty lies beyond each
/// end. The severities are those of the times to movement: judgement.
pub const CASES: [(f64, f64); 3] = [(TIGHT, 0.5), (1.0, 1.0), (WORST, 2.0)];
/// A curve nowhere further than this from the healthy one is that one, Pa.
const SAME: f64 = 0.1e5;
/// A cause is ruled out where the fall is this many times as likely with the best one: judgement.
pub const RULED_OUT: f64 = 20.0;
/// It is spoken against from here on: judgement.
pub const AGAINST: f64 = 3.0;

/// What a gauge shows over the grid of a watch, Pa, in each of [`CASES`].
#[derive(Debug, Clone, PartialEq)]
pub struct Curves(pub [Vec<f64>; 3]);

/// What came of playing an event.
#[derive(Debug, Clone)]
enum Played {
    /// The plant refuses it, or the gauge is dead.
    Refused,
    /// It falls as a healthy one.
    AsHealthy,
    Curves(Arc<Curves>),
}

/// A cause, or a healthy aircraft, against the readings.
#[derive(Debug, Clone, PartialEq)]
pub struct Against {
    /// The event; none for a healthy aircraft.
    pub event: Option<usize>,
    /// What the gauge would show; those of the healthy one where nothing differs.
    pub curves: Arc<Curves>,
    /// Whether it differs from a healthy aircraft in this watch at all.
    pub differs: bool,
    /// The fall in each of [`CASES`], Pa.
    pub falls: [f64; 3],
    /// How many times as likely the fall is with what fits best; 1 for that one.
    pub odds: f64,
    /// Whether the fall lies outside all its cases by more than two standard deviations.
    pub outside: bool,
}

impl Against {
    /// Lowest and highest that the gauge can show at each time of the grid, Pa, from where the
    /// readings begin, and wider by two standard deviations of the fall.
    pub fn band(&self, fell: &Fell) -> Vec<(f64, f64)> {
        let shift = |curve: &[f64], at: usize| {
            let first = curve.first().copied().unwrap_or_default();
            curve
                .get(at)
                .map_or(f64::NAN, |value| fell.from + value - first)
        };
        let at = |at: usize| {
            let all = || self.curves.0.iter().map(|curve| shift(curve, at));
            let low = all().fold(f64::INFINITY, f64::min);
            let high = all().fold(f64::NEG_INFINITY, f64::max);
            (low - 2.0 * fell.doubt, high + 2.0 * fell.doubt)
        };
        (0..=STRETCHES).map(at).collect()
    }

    /// The smallest and the greatest fall over all cases, Pa.
    pub fn range(&self) -> (f64, f64) {
        ends(&self.falls)
    }

    /// Whether the readings rule it out: they lie outside its band, and the ranking is moved by
    /// them as by a clear answer.
    pub fn is_ruled_out(&self) -> bool {
        self.outside && self.odds >= RULED_OUT
    }

    /// In words.
    pub fn word(&self) -> &'static str {
        match self.odds {
            _ if self.is_ruled_out() => "RULED OUT",
            odds if odds >= AGAINST => "spoken against",
            _ => "fits",
        }
    }
}

/// The least and the greatest.
fn ends(falls: &[f64; 3]) -> (f64, f64) {
    let all = || falls.iter().copied();
    (
        all().fold(f64::INFINITY, f64::min),
        all().fold(f64::NEG_INFINITY, f64::max),
    )
}

/// What was played: each event of the last beginning once.
#[derive(Debug, Default)]
pub struct Falls {
    played: Mutex<(Vec<u64>, Kept)>,
    lapses: Mutex<Option<(Vec<u64>, Lapses)>>,
    drained: Mutex<Option<(Vec<u64>, Option<Drained>)>>,
}

/// What the fall of a gauge is of the store.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drained {
    /// What the gauge shows when no fluid is left, Pa gauge.
    pub empty: f64,
    /// Fluid that left the store over the watch, m3, by the gas of the plant; `None` where the
    /// gauge does not show the store.
    pub volume: Option<f64>,
}

type Kept = BTreeMap<Option<usize>, Played>;

impl Falls {
    /// What the fall of some evidence does to every event; `None` where no gauge was watched, or
    /// where the plant cannot play a healthy watch.
    pub fn lapses(&self, model: &Model, evidence: &Evidence) -> Option<Lapses> {
        let fell = evidence.fell.as_deref()?;
        // A panic elsewhere leaves at most a result that was not kept.
        let mut last = self.lapses.lock().unwrap_or_else(PoisonError::into_inner);
        let key = fell.key();
        if let Some((known, lapses)) = &*last
            && *known == key
        {
            return Some(lapses.clone());
        }
        let events: Vec<usize> = (0..model.causes.len()).collect();
        let played = self.played(model, &fell.begin, &events);
        let always = match played.get(&None) {
            Some(Played::Curves(curves)) => lapse(fell, &falls(fell, curves)),
            _ => return None,
        };
        let unknown = unknown(fell);
        let of = |event: usize| match played.get(&Some(event)) {
            Some(Played::Curves(curves)) => lapse(fell, &falls(fell, curves)),
            Some(Played::Refused) => unknown,
            Some(Played::AsHealthy) | None => Lapse::never(1.0),
        };
        let lapses = Lapses {
            events: events.iter().map(|event| of(*event)).collect(),
            always,
            unlisted: unknown,
        };
        *last = Some((key, lapses.clone()));
        Some(lapses)
    }

    /// A healthy aircraft and some events against the readings, in that order; events that the
    /// plant refuses are left out, and so is all where it refuses a healthy watch.
    pub fn against(&self, model: &Model, fell: &Fell, events: &[usize]) -> Vec<Against> {
        let mut evidence = Evidence::report_only(model);
        evidence.fell = Some(Arc::new(fell.clone()));
        let Some(lapses) = self.lapses(model, &evidence) else {
            return Vec::new();
        };
        let played = self.played(model, &fell.begin, events);
        let Some(Played::Curves(healthy)) = played.get(&None) else {
            return Vec::new();
        };
        let alone = |event: Option<usize>| {
            let lapse = event.map_or(Lapse::never(1.0), |event| lapses.events[event]);
            lapses.always.times(lapse).weight()
        };
        let every = (0..model.causes.len()).map(Some).map(alone);
        let best = every.fold(alone(None), f64::max);
        let one = |event: Option<usize>| {
            let curves = match played.get(&event) {
                Some(Played::Curves(curves)) => curves,
                Some(Played::Refused) => return None,
                Some(Played::AsHealthy) | None => healthy,
            };
            let falls = falls(fell, curves);
            let (least, most) = ends(&falls);
            Some(Against {
                event,
                curves: Arc::clone(curves),
                differs: event.is_some() && !Arc::ptr_eq(curves, healthy),
                falls,
                odds: best / alone(event),
                outside: fell.fall < least - 2.0 * fell.doubt
                    || fell.fall > most + 2.0 * fell.doubt,
            })
        };
        let all = std::iter::once(None).chain(events.iter().copied().map(Some));
        all.filter_map(one).collect()
    }

    /// What the fall is of the store of a healthy aircraft; `None` where the plant refuses it.
    pub fn drained(&self, model: &Model, fell: &Fell) -> Option<Drained> {
        let mut last = self.drained.lock().unwrap_or_else(PoisonError::into_inner);
        let key = fell.key();
        if let Some((known, drained)) = &*last
            && *known == key
        {
            return *drained;
        }
        let aircraft = model.aircraft.as_ref()?;
        let drained = drained(aircraft, fell).ok().flatten();
        *last = Some((key, drained));
        drained
    }

    /// What the gauge would show, for a healthy aircraft and for some events, each played once.
    fn played(&self, model: &Model, begin: &Begin, events: &[usize]) -> Kept {
        let mut kept = self.played.lock().unwrap_or_else(PoisonError::into_inner);
        let key = begin.key();
        if kept.0 != key {
            *kept = (key, Kept::new());
        }
        let known = &mut kept.1;
        let Some(aircraft) = &model.aircraft else {
            return Kept::new();
        };
        let all = std::iter::once(None).chain(events.iter().copied().map(Some));
        let wanted: Vec<Option<usize>> = all.filter(|event| !known.contains_key(event)).collect();
        if !wanted.is_empty() {
            let healthy = known.entry(None).or_insert_with(|| {
                let curves = healthy(aircraft, begin);
                curves.map_or(Played::Refused, |curves| Played::Curves(Arc::new(curves)))
            });
            if let Played::Curves(healthy) = healthy.clone() {
                let with = |event: usize| {
                    fault_of(model, event).map(|fault| with_fault(aircraft, begin, fault, &healthy))
                };
                known.extend(on_all_cores(&wanted, &with));
            }
        }
        known.clone()
    }
}

/// Plays events side by side; one that puts no fault in is as healthy.
fn on_all_cores(
    wanted: &[Option<usize>],
    with: &(dyn Fn(usize) -> Option<Played> + Sync),
) -> Vec<(Option<usize>, Played)> {
    let events: Vec<usize> = wanted.iter().copied().flatten().collect();
    let cores = thread::available_parallelism().map_or(1, NonZero::get);
    let share = events.len().div_ceil(cores).max(1);
    let one = |event: &usize| (Some(*event), with(*event).unwrap_or(Played::AsHealthy));
    thread::scope(|scope| {
        let parts: Vec<_> = events
            .chunks(share)
            .map(|part| scope.spawn(move || part.iter().map(one).collect::<Vec<_>>()))
            .collect();
        let parts = parts.into_iter();
        parts
            .flat_map(|part| part.join().unwrap_or_default())
            .collect()
    })
}

fn healthy(aircraft: &Arc<Aircraft>, begin: &Begin) -> Result<Curves, PlantError> {
    let [mild, middle, worst] = CASES;
    let of = |(wear, _)| curve(aircraft, begin, wear, None);
    Ok(Curves([of(mild)?, of(middle)?, of(worst)?]))
}

/// The worst case first: where it falls as a healthy one does, so do the others.
fn with_fault(
    aircraft: &Arc<Aircraft>,
    begin: &Begin,
    fault: (&str, &str),
    healthy: &Curves,
) -> Played {
    let of = |case: usize| {
        let (wear, severity) = CASES[case];
        curve(aircraft, begin, wear, Some((fault, severity)))
    };
    let Ok(worst) = of(2) else {
        return Played::Refused;
    };
    let apart = |curve: &[f64], case: usize| {
        let falls = curve.iter().zip(&healthy.0[case]);
        let shift = curve[0] - healthy.0[case][0];
        falls
            .map(|(with, without)| with - without - shift)
            .collect::<Vec<f64>>()
    };
    if apart(&worst, 2).iter().all(|apart| apart.abs() < SAME) {
        return Played::AsHealthy;
    }
    let (Ok(mild), Ok(middle)) = (of(0), of(1)) else {
        return Played::Refused;
    };
    let mut curves = [mild, middle, worst];
    let mut differs = false;
    for (case, curve) in curves.iter_mut().enumerate() {
        // The in-limit leaks are there whatever else is, so that no cause falls slower.
        differs |= apart(curve, case).iter().any(|apart| *apart < -SAME);
        let first = curve[0];
        let slowest = &healthy.0[case];
        for (with, without) in curve.iter_mut().zip(slowest) {
            *with = with.min(without + first - slowest[0]);
        }
    }
    if differs {
        Played::Curves(Arc::new(Curves(curves)))
    } else {
        Played::AsHealthy
    }
}

/// What the gauge shows over the grid, Pa.
fn curve(
    aircraft: &Arc<Aircraft>,
    begin: &Begin,
    wear: f64,
    fault: Option<((&str, &str), f64)>,
) -> Result<Vec<f64>, PlantError> {
    let most = Parking::usual().begin(aircraft)?.pump_pressure();
    let mut parking = begin.parking(wear, begin.charge.min(most));
    parking
        .changes
        .extend(fault.map(|((part, fault), severity)| {
            Change::Fault(part.to_owned(), fault.to_owned(), severity)
        }));
    let mut plant = parking.begin(aircraft)?;
    let gauge = &GAUGES[begin.gauge];
    let mut curve = Vec::with_capacity(STRETCHES + 1);
    for place in 0..=STRETCHES {
        plant.step(begin.time(place) - plant.hours() * 3600.0)?;
        let shown = gauge.read(&plant).ok_or_else(|| PlantError::Missing {
            aircraft: aircraft.id.clone(),
            missing: format!("working {}", gauge.title),
        })?;
        curve.push(shown);
    }
    Ok(curve)
}

fn drained(aircraft: &Arc<Aircraft>, fell: &Fell) -> Result<Option<Drained>, PlantError> {
    let most = Parking::usual().begin(aircraft)?.pump_pressure();
    let at = |charge: f64| {
        let parking = fell.begin.parking(1.0, charge.clamp(0.0, most));
        parking.begin(aircraft)
    };
    let gauge = &GAUGES[fell.begin.gauge];
    let Some(empty) = gauge.read(&at(0.0)?) else {
        return Ok(None);
    };
    let first = at(fell.begin.charge)?.gas_volume();
    let last = at(fell.begin.charge - fell.fall)?.gas_volume();
    let volume = last.zip(first).map(|(last, first)| last - first);
    Ok(Some(Drained {
        empty,
        volume: volume.filter(|_| gauge.of_store),
    }))
}

fn falls(fell: &Fell, curves: &Curves) -> [f64; 3] {
    [0, 1, 2].map(|case| fell.of_curve(&curves.0[case]))
}
