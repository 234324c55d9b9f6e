//! One aircraft of a course: as it stands, and at the times that readings need.

use crate::base::unit::BAR;
use crate::plant::error::PlantError;
use crate::plant::handle::{Change, Handle};
use crate::plant::observe::{RUN_DOWN, Rounds};

/// When things happened since something was set last, in hours since the beginning.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Seen {
    /// The brakes hold less than what pushes.
    pub moves: Option<f64>,
    /// The piston of the store reached its fluid end.
    pub empty: Option<f64>,
    /// The lever let go by itself.
    pub drops: Option<f64>,
}

/// Pressures at one time, bar gauge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Hours since the beginning.
    pub hours: f64,
    /// Gas of the store.
    pub gas: f64,
    /// The brake with the least pressure.
    pub least: f64,
    /// The brake with the most.
    pub most: f64,
    /// The return that the park valve shuts.
    pub shut_return: f64,
}

impl Point {
    /// The pressures of a plant as it stands.
    pub fn of(plant: &Handle) -> Self {
        let sample = plant.sample();
        let brakes = sample.brakes.iter().map(|(_, pressure)| *pressure);
        let least = brakes.clone().reduce(f64::min);
        let bar = |pascals: Option<f64>| pascals.unwrap_or(0.0) / BAR;
        Self {
            hours: sample.hours,
            gas: bar(sample.gas),
            least: bar(least),
            most: bar(brakes.reduce(f64::max)),
            shut_return: bar(sample.shut_return),
        }
    }
}

/// One aircraft.
#[derive(Debug, Clone)]
pub struct Side {
    /// As it stands.
    pub plant: Handle,
    /// What happened since something was set last.
    pub seen: Seen,
    /// Its pressures so far.
    pub trace: Vec<Point>,
    /// As it stood when something was set last.
    fresh: Handle,
    /// Ten minutes, half an hour and eight hours after the pumps stopped, once they are reached.
    later: [Option<Handle>; 3],
}

impl Side {
    /// An aircraft at the beginning of its course.
    pub fn new(plant: Handle) -> Self {
        let mut side = Self {
            seen: Seen::default(),
            trace: vec![Point::of(&plant)],
            fresh: plant.clone(),
            later: [None, None, None],
            plant,
        };
        side.seen = side.noted(&side.plant, side.seen);
        side
    }

    fn noted(&self, plant: &Handle, mut seen: Seen) -> Seen {
        let now = Some(plant.hours());
        if plant.excess() > 0.0 {
            seen.moves = seen.moves.or(now);
        }
        if plant.bottomed() {
            seen.empty = seen.empty.or(now);
        }
        // Let down by hand it has not dropped by itself.
        if self.fresh.latched() && !plant.latched() && plant.lever_is_up() {
            seen.drops = seen.drops.or(now);
        }
        seen
    }

    /// The plant some seconds on, and what was seen on the way; this side stays as it is.
    pub(super) fn after(&self, seconds: f64) -> Result<(Handle, Seen), PlantError> {
        let (mut plant, mut seen) = (self.plant.clone(), self.seen);
        let mut left = seconds;
        // Step by step of the solver, which ends a step where something changes its way.
        while left > 1e-9 {
            let before = plant.hours();
            plant.advance(left)?;
            left -= (plant.hours() - before) * 3600.0;
            seen = self.noted(&plant, seen);
        }
        Ok((plant, seen))
    }

    /// Takes what [`Side::after`] gave; `later` is which of the later times it is.
    pub(super) fn take(&mut self, plant: Handle, seen: Seen, later: Option<usize>) {
        self.trace.push(Point::of(&plant));
        if let Some(slot) = later.and_then(|place| self.later.get_mut(place)) {
            *slot = Some(plant.clone());
        }
        self.plant = plant;
        self.seen = seen;
    }

    /// Makes a change; `pumps` tells whether pumps started or stopped with it.
    pub(super) fn set(&mut self, change: &Change, pumps: bool) -> Result<(), PlantError> {
        let mut plant = self.plant.clone();
        plant.set(change)?;
        self.fresh = plant.clone();
        self.plant = plant;
        if pumps {
            self.later = [None, None, None];
        }
        self.seen = self.noted(&self.plant, Seen::default());
        Ok(())
    }

    /// Whether a reading that is due some hours after the pumps stopped has come by now.
    pub fn has_come(&self, hours: f64) -> bool {
        let place = super::play::LATER.iter().position(|later| {
            let apart = super::play::in_hours(*later) - hours;
            apart.abs() < 1e-9
        });
        place.is_some_and(|place| self.later[place].is_some())
    }

    /// For looking: the plant as given, with the earlier times that were kept.
    pub(super) fn looked(&self, now: &Handle, seen: Seen) -> Rounds {
        let mut rounds = Rounds::standing(now);
        rounds.fresh = self.fresh.clone();
        rounds.dropped = seen.drops;
        if rounds.fresh.latched() && !now.latched() && seen.drops.is_none() {
            rounds.fresh = now.clone();
        }
        for (slot, kept) in [
            &mut rounds.ten_minutes,
            &mut rounds.half_hour,
            &mut rounds.eight_hours,
        ]
        .into_iter()
        .zip(&self.later)
        {
            if let Some(kept) = kept {
                *slot = kept.clone();
            }
        }
        rounds
    }

    /// For trying as well: checks with the pedals begin where something was set last, lever down.
    pub(super) fn tried(&self, now: &Handle, seen: Seen) -> Result<Rounds, PlantError> {
        let mut rounds = self.looked(now, seen);
        let mut down = self.fresh.clone();
        if down.aircraft().setting("lever", "down").is_some() {
            down.set(&Change::Switch("lever".into(), "down".into()))?;
        }
        rounds.fresh_released = down.clone();
        down.step(RUN_DOWN)?;
        rounds.released = down;
        Ok(rounds)
    }
}
