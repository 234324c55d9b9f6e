//! A course being played: the aircraft, and a healthy twin to which the same was done.
//!
//! Both are taken from stop to stop. Where stops fall depends on the course alone, never on who
//! looks and when: a look between two stops is taken on a clone. So the same course gives the same
//! digits, whether it was typed, pressed at a thousand times real time, or read from a file.

use std::sync::Arc;

use super::{Course, Done, HOUR, Seen, Side};
use crate::plant::aircraft::Aircraft;
use crate::plant::error::PlantError;
use crate::plant::handle::{Change, Handle};
use crate::plant::observe::{RUN_DOWN, Rounds};

/// Until when after something was set (tenths), and how far apart stops are till then.
const STOPS: [(u64, u64); 4] = [
    (20 * 10, 2 * 10),
    (120 * 10, 10 * 10),
    (1800 * 10, 60 * 10),
    (u64::MAX, 300 * 10),
];
/// Stops after the pumps stopped, tenths: readings are due there.
pub(super) const LATER: [u64; 3] = [HOUR / 6, HOUR / 2, 8 * HOUR];

/// Hours in so many tenths of a second.
#[expect(
    clippy::cast_precision_loss,
    reason = "ten days are far below the numbers that are held exactly"
)]
pub(super) fn in_hours(tenths: u64) -> f64 {
    tenths as f64 / 36_000.0
}

/// The plant between two stops.
#[derive(Debug, Clone)]
struct Shown {
    plant: Handle,
    seen: Seen,
}

/// A course being played.
#[derive(Debug, Clone)]
pub struct Play {
    aircraft: Arc<Aircraft>,
    course: Course,
    /// The aircraft first, then the twin once there is a difference.
    sides: Vec<Side>,
    shown: Vec<Shown>,
    /// The last stop.
    at: u64,
    /// When something was set last.
    since: u64,
    /// When the pumps stopped; `None` while they run.
    stopped: Option<u64>,
}

impl Play {
    /// Begins a course and plays it as far as it goes.
    ///
    /// Errors: what the plant refuses, or cannot solve.
    pub fn new(aircraft: &Arc<Aircraft>, course: &Course) -> Result<Self, PlantError> {
        let plant = course.parking(true).begin(aircraft)?;
        let mut sides = vec![Side::new(plant)];
        if !course.faults().is_empty() || course.begin.iter().any(is_fault) {
            sides.push(Side::new(course.parking(false).begin(aircraft)?));
        }
        let stopped = (!sides[0].plant.pumps_run()).then_some(0);
        let mut play = Self {
            aircraft: Arc::clone(aircraft),
            course: Course {
                then: Vec::new(),
                until: 0,
                ..course.clone()
            },
            sides,
            shown: Vec::new(),
            at: 0,
            since: 0,
            stopped,
        };
        for done in &course.then {
            play.go(done.at)?;
            play.set(done.clone())?;
        }
        play.go(course.until)?;
        Ok(play)
    }

    /// The course so far.
    pub fn course(&self) -> &Course {
        &self.course
    }

    /// The aircraft document.
    pub fn aircraft(&self) -> &Arc<Aircraft> {
        &self.aircraft
    }

    /// Now, in tenths of a second since the beginning.
    pub fn now(&self) -> u64 {
        self.course.until
    }

    /// The aircraft as it stands.
    pub fn plant(&self) -> &Handle {
        &self.shown[0].plant
    }

    /// The healthy twin as it stands; the aircraft itself where no fault was ever put in.
    pub fn twin(&self) -> &Handle {
        &self.shown[self.twin_at()].plant
    }

    /// What was seen on the aircraft since something was set last.
    pub fn seen(&self) -> Seen {
        self.shown[0].seen
    }

    /// The same of the healthy twin.
    pub fn twin_seen(&self) -> Seen {
        self.shown[self.twin_at()].seen
    }

    /// Aircraft and twin with their traces.
    pub fn sides(&self) -> (&Side, &Side) {
        (&self.sides[0], &self.sides[self.twin_at()])
    }

    /// Whether there is a twin apart from the aircraft.
    pub fn differs(&self) -> bool {
        self.sides.len() > 1
    }

    fn twin_at(&self) -> usize {
        self.sides.len() - 1
    }

    /// Goes to a time that is not before now.
    pub fn go(&mut self, to: u64) -> Result<(), PlantError> {
        let to = to.max(self.now());
        while self.next_stop() <= to {
            if let Err(error) = self.stop(self.next_stop()) {
                // It stands where it could be solved last.
                self.show(self.at.max(self.now()))?;
                return Err(error);
            }
        }
        self.show(to)
    }

    /// Goes on until something is seen, at most to a time; true where it was seen.
    pub fn go_until(
        &mut self,
        to: u64,
        seen: fn(&Seen) -> Option<f64>,
    ) -> Result<bool, PlantError> {
        loop {
            let next = self.next_stop().min(to);
            let (_, found) = self.sides[0].after(seconds(next - self.at))?;
            if let Some(hours) = seen(&found) {
                // The next tenth: there it is seen for sure.
                let tenth = tenths_up(hours).max(self.now());
                self.go(tenth.min(to))?;
                return Ok(true);
            }
            if next >= to {
                self.go(to)?;
                return Ok(false);
            }
            self.go(next)?;
        }
    }

    /// Sets something now. Where the plant refuses, nothing is changed.
    pub fn set(&mut self, done: Done) -> Result<(), PlantError> {
        let mut tried = self.clone();
        tried.set_here(done)?;
        *self = tried;
        Ok(())
    }

    fn set_here(&mut self, done: Done) -> Result<(), PlantError> {
        let now = self.now();
        if now > self.at {
            self.stop(now)?;
        }
        if is_fault(&done) && !self.differs() {
            self.sides.push(self.sides[0].clone());
        }
        let ran = self.sides[0].plant.pumps_run();
        let mut ahead = self.sides[0].plant.clone();
        ahead.set(&done.change)?;
        let runs = ahead.pumps_run();
        let twin = self.twin_at();
        for (place, side) in self.sides.iter_mut().enumerate() {
            if place < twin || twin == 0 || !is_fault(&done) {
                side.set(&done.change, runs != ran)?;
            }
        }
        if runs != ran {
            self.stopped = (!runs).then_some(now);
        }
        self.since = now;
        self.course.then.push(Done { at: now, ..done });
        self.show(now)
    }

    /// The first stop after the last one.
    fn next_stop(&self) -> u64 {
        let passed = self.at - self.since;
        let apart = STOPS.iter().find(|(until, _)| passed < *until);
        let apart = apart.map_or(HOUR, |(_, apart)| *apart);
        let next = self.since + (passed / apart + 1) * apart;
        let due = self.stopped.into_iter().flat_map(|stopped| {
            let at = self.at;
            LATER
                .iter()
                .map(move |later| stopped + later)
                .filter(move |due| *due > at)
        });
        due.fold(next, u64::min)
    }

    fn stop(&mut self, at: u64) -> Result<(), PlantError> {
        let passing = seconds(at - self.at);
        let found: Result<Vec<_>, _> = self.sides.iter().map(|side| side.after(passing)).collect();
        let later = self.stopped.and_then(|stopped| {
            let since = at.checked_sub(stopped)?;
            LATER.iter().position(|later| *later == since)
        });
        for (side, (plant, seen)) in self.sides.iter_mut().zip(found?) {
            side.take(plant, seen, later);
        }
        self.at = at;
        Ok(())
    }

    fn show(&mut self, now: u64) -> Result<(), PlantError> {
        let passing = seconds(now - self.at);
        let look = |side: &Side| {
            let (plant, seen) = side.after(passing)?;
            Ok(Shown { plant, seen })
        };
        self.shown = self.sides.iter().map(look).collect::<Result<_, _>>()?;
        self.course.until = now;
        Ok(())
    }

    /// For looking at the aircraft and at its twin as they stand.
    pub fn looked(&self) -> (Rounds, Rounds) {
        let one = |place: usize| {
            let shown = &self.shown[place];
            self.sides[place].looked(&shown.plant, shown.seen)
        };
        (one(0), one(self.twin_at()))
    }

    /// For trying checks on both as well: what is tried begins where something was set last. On a
    /// course in which nothing was set since its beginning it is tried as a parking.
    pub fn tried(&self) -> Result<(Rounds, Rounds), PlantError> {
        let one = |place: usize| {
            let shown = &self.shown[place];
            let mut rounds = self.sides[place].tried(&shown.plant, shown.seen)?;
            if self.course.then.is_empty() && self.aircraft.setting("lever", "down").is_some() {
                let mut down = self.course.parking(place == 0);
                down.switches.push(("lever".into(), "down".into()));
                let mut released = down.begin(&self.aircraft)?;
                rounds.fresh_released = released.clone();
                released.step(RUN_DOWN)?;
                rounds.released = released;
            }
            Ok(rounds)
        };
        Ok((one(0)?, one(self.twin_at())?))
    }
}

fn is_fault(done: &Done) -> bool {
    matches!(done.change, Change::Fault(..))
}

#[expect(
    clippy::cast_precision_loss,
    reason = "ten days are far below the numbers that are held exactly"
)]
fn seconds(tenths: u64) -> f64 {
    tenths as f64 / 10.0
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "hours of a course are neither negative nor beyond ten days"
)]
fn tenths_up(hours: f64) -> u64 {
    (hours * 36_000.0 - 1e-6).ceil().max(0.0) as u64
}
