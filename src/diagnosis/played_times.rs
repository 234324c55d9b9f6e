//! Times to movement out of the plant: each fault alone, and the healthy aircraft.

use std::num::NonZero;
use std::sync::Arc;
use std::thread;

use super::agreement::fault_of;
use super::cause::Part;
use super::evidence::Evidence;
use super::fact::Fact;
use super::model::Model;
use super::time_to_movement::{LONGEST, Moves, Played, SLOPES, Stretch, Times, WEARS};
use crate::plant::aircraft::Aircraft;
use crate::plant::error::PlantError;
use crate::plant::handle::Change;
use crate::plant::parking::Parking;

/// How slowly the equipment follows a change of the air that is typed as two temperatures, s:
/// invented.
const FOLLOWS: f64 = 5400.0;
/// Hours over which the air changes where no time is typed: a night.
const NIGHT: f64 = 10.0;

/// One event with its times; without an event the healthy aircraft.
pub type PlayedEvent = (Option<usize>, Played);

/// The events whose times the plant says, the healthy aircraft first.
pub fn wanted(model: &Model) -> Vec<Option<usize>> {
    if model.fact(Fact::TimeToMovement).is_none() {
        return Vec::new();
    }
    let faults = (0..model.causes.len()).filter(|event| {
        let cause = &model.causes[*event];
        cause.part == Part::Cause && cause.moves.is_none() && fault_of(model, *event).is_some()
    });
    let healthy = model
        .causes
        .iter()
        .any(|cause| cause.moves == Some(Moves::AsDesigned));
    let healthy = healthy.then_some(None);
    healthy.into_iter().chain(faults.map(Some)).collect()
}

/// Plays every wanted event on both slopes, tight to worn, on all cores; the order is theirs.
///
/// Complexity: six searches for a movement each, of some milliseconds. An event that the plant
/// cannot play is left out, and counts as one of which nothing is known.
pub fn play(model: &Model) -> Vec<PlayedEvent> {
    let wanted = wanted(model);
    let Some(aircraft) = &model.aircraft else {
        return Vec::new();
    };
    let one = |event: &Option<usize>| {
        let fault = event.and_then(|event| fault_of(model, event));
        let played = fault_alone(aircraft, fault).ok()?;
        Some((*event, played))
    };
    let cores = thread::available_parallelism().map_or(1, NonZero::get);
    let share = wanted.len().div_ceil(cores).max(1);
    thread::scope(|scope| {
        let parts: Vec<_> = wanted
            .chunks(share)
            .map(|part| scope.spawn(move || part.iter().filter_map(one).collect::<Vec<_>>()))
            .collect();
        let played = parts
            .into_iter()
            .map(|part| part.join().unwrap_or_default());
        played.flatten().collect()
    })
}

fn fault_alone(
    aircraft: &Arc<Aircraft>,
    fault: Option<(&str, &str)>,
) -> Result<Played, PlantError> {
    let mut hours = [[None; 3]; 2];
    let put_in = fault.map(|(part, fault)| Change::Fault(part.to_owned(), fault.to_owned(), 1.0));
    for (row, slope) in hours.iter_mut().zip(SLOPES) {
        for (cell, wear) in row.iter_mut().zip(WEARS) {
            let mut parking = Parking::usual();
            parking
                .changes
                .extend([Change::Wear(wear), Change::Slope(slope)]);
            parking.changes.extend(put_in.clone());
            *cell = hours_of(aircraft, &parking)?;
        }
    }
    Ok(Played { hours })
}

fn hours_of(aircraft: &Arc<Aircraft>, parking: &Parking) -> Result<Option<f64>, PlantError> {
    Ok(parking.begin(aircraft)?.hold(0.0, LONGEST)?.hours_to_creep)
}

/// What is typed about a parking, in SI units.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Typed {
    /// Rise over run.
    pub slope: Option<f64>,
    wind: Option<f64>,
    charge: Option<f64>,
    temperature: Option<(f64, f64)>,
    /// Hours over which the temperature changes.
    hours: Option<f64>,
}

impl Typed {
    /// What some evidence holds. Of two values the middle counts, but for temperatures.
    pub fn of(model: &Model, evidence: &Evidence) -> Self {
        let span = |fact| evidence.spans[model.fact(fact)?];
        let middle = |fact| span(fact).map(|(low, high)| f64::midpoint(low, high));
        let temperature = span(Fact::Temperature);
        let turns = temperature.is_some_and(|(begin, end)| (begin - end).abs() > 1e-9);
        let stretch = span(Fact::TimeToMovement).map(Stretch::typed);
        let hours = stretch.map(|stretch| stretch.to.min(LONGEST));
        Self {
            slope: middle(Fact::Slope),
            wind: middle(Fact::Wind),
            charge: middle(Fact::Charge),
            temperature,
            hours: hours.filter(|_| turns),
        }
    }

    /// A name of these facts by which what was played for them is found again.
    pub fn key(&self) -> [Option<u64>; 6] {
        let (begin, end) = match self.temperature {
            Some((begin, end)) => (Some(begin), Some(end)),
            None => (None, None),
        };
        let all = [self.slope, self.wind, self.charge, begin, end, self.hours];
        all.map(|value| value.map(f64::to_bits))
    }

    /// Whether nothing is known by which a healthy aircraft holds longer or shorter.
    pub fn is_usual(&self) -> bool {
        self.wind.is_none() && self.charge.is_none() && self.temperature.is_none()
    }

    /// The parking with some in-limit leaks on a slope (rise over run).
    pub fn parking(&self, wear: f64, slope: f64) -> Parking {
        let mut parking = Parking::usual();
        let changes = &mut parking.changes;
        changes.extend([Change::Wear(wear), Change::Slope(slope)]);
        changes.extend(self.wind.map(Change::Wind));
        changes.extend(self.temperature.map(|(begin, end)| {
            let over = self.hours.unwrap_or(NIGHT).max(0.1) * 3600.0;
            if self.hours.is_none() && (begin - end).abs() < 1e-9 {
                Change::Temperature(begin)
            } else {
                Change::Weather(vec![(0.0, begin), (over, end)], FOLLOWS)
            }
        }));
        parking.charge = self.charge;
        parking
    }

    /// When a healthy aircraft moves under these facts.
    ///
    /// Errors: the plant refuses them, such as a charge that no pump gives.
    pub fn healthy(&self, aircraft: &Arc<Aircraft>) -> Result<Times, PlantError> {
        let row = |slope: f64| -> Result<[Option<f64>; 3], PlantError> {
            let mut hours = [None; 3];
            for (cell, wear) in hours.iter_mut().zip(WEARS) {
                *cell = hours_of(aircraft, &self.parking(wear, slope))?;
            }
            Ok(hours)
        };
        if let Some(slope) = self.slope {
            return Ok(Times::of_healthy_there(row(slope.abs())?));
        }
        let hours = [row(SLOPES[0])?, row(SLOPES[1])?];
        Ok(Times::of_healthy(&Played { hours }, None))
    }
}
