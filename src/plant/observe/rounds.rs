//! The plant at the times at which things are read.

use std::sync::Arc;

use super::trial::Tried;
use crate::plant::aircraft::Aircraft;
use crate::plant::error::PlantError;
use crate::plant::handle::Handle;
use crate::plant::parking::Parking;
use crate::plant::solver::known::KnownSteps;

/// Hours after the pumps stopped at which most things are read.
const READ_AT: f64 = 0.5;

/// Seconds after which a stopped pump feeds nothing any more.
pub(in crate::plant) const RUN_DOWN: f64 = 300.0;

/// One parking, at every time that some observable needs.
#[derive(Debug, Clone)]
pub struct Rounds {
    /// As the pumps stopped, brake set.
    pub fresh: Handle,
    /// As the pumps stopped, lever down and the brakes free.
    pub fresh_released: Handle,
    /// The same once pumps that were stopped have run down: for checks with the pedals.
    pub released: Handle,
    /// Ten minutes on.
    pub ten_minutes: Handle,
    /// Half an hour on.
    pub half_hour: Handle,
    /// At the time asked for; half an hour where none is.
    pub now: Handle,
    /// Eight hours on.
    pub eight_hours: Handle,
    /// Hours after which the lever dropped by itself, within the eight.
    pub dropped: Option<f64>,
    /// Whether pumps run in this state.
    pub pumps_on: bool,
    /// What was tried on clones so far: several readings share one trial.
    pub(super) tried: Tried,
}

impl Rounds {
    /// The plant as it stands, for what can be read of it now; no hours are played.
    pub fn standing(plant: &Handle) -> Self {
        Self {
            fresh: plant.clone(),
            fresh_released: plant.clone(),
            released: plant.clone(),
            ten_minutes: plant.clone(),
            half_hour: plant.clone(),
            now: plant.clone(),
            eight_hours: plant.clone(),
            dropped: None,
            pumps_on: plant.pumps_run(),
            tried: Tried::default(),
        }
    }

    /// Plays a parking for eight hours and keeps what is needed on the way.
    pub fn play(
        aircraft: &Arc<Aircraft>,
        parking: &Parking,
        hours: Option<f64>,
    ) -> Result<Self, PlantError> {
        Self::play_from(aircraft, parking, hours, |_| ())
    }

    /// The same, with what other parkings already solved: with the same faults in other states of
    /// the aircraft, most steps are the same.
    pub fn play_sharing(
        aircraft: &Arc<Aircraft>,
        parking: &Parking,
        hours: Option<f64>,
        steps: &KnownSteps,
    ) -> Result<Self, PlantError> {
        Self::play_from(aircraft, parking, hours, |plant| plant.share(steps))
    }

    fn play_from(
        aircraft: &Arc<Aircraft>,
        parking: &Parking,
        hours: Option<f64>,
        begun: impl Fn(&mut Handle),
    ) -> Result<Self, PlantError> {
        let begin = |parking: &Parking| {
            let mut plant = parking.begin(aircraft)?;
            begun(&mut plant);
            Ok(plant)
        };
        let fresh: Handle = begin(parking)?;
        let mut down = parking.clone();
        down.switches.push(("lever".into(), "down".into()));
        let fresh_released = match aircraft.setting("lever", "down") {
            Some(_) => begin(&down)?,
            None => fresh.clone(),
        };
        let mut released = fresh_released.clone();
        released.step(RUN_DOWN)?;
        let mut plant = fresh.clone();
        let mut dropped = None;
        let mut kept = Vec::new();
        let now = hours.unwrap_or(READ_AT);
        let mut times = vec![1.0 / 6.0, READ_AT, now, 8.0];
        times.sort_by(f64::total_cmp);
        for time in &times {
            while time - plant.hours() > 1e-9 {
                plant.advance((time - plant.hours()) * 3600.0)?;
                if dropped.is_none() && fresh.latched() && !plant.latched() {
                    dropped = Some(plant.hours());
                }
            }
            kept.push((*time, plant.clone()));
        }
        let at = |hours: f64| {
            let found = kept.iter().find(|(time, _)| (time - hours).abs() < 1e-12);
            found.map_or_else(|| fresh.clone(), |(_, plant)| plant.clone())
        };
        Ok(Self {
            fresh_released,
            released,
            ten_minutes: at(1.0 / 6.0),
            half_hour: at(READ_AT),
            now: at(now),
            eight_hours: at(8.0),
            dropped,
            pumps_on: fresh.pumps_run(),
            tried: Tried::default(),
            fresh,
        })
    }
}

impl Handle {
    /// Whether a latch holds the pedals.
    pub fn latched(&self) -> bool {
        self.parts_of("pawl-latch")
            .any(|at| self.view(at).memory.engaged)
    }

    /// Whether a hand left the park lever up; so it counts where there is no such lever.
    pub fn lever_is_up(&self) -> bool {
        let mut levers = self.parts_of("park-lever");
        levers.all(|at| self.view(at).hand() == "up")
    }

    /// Whether any pump gives pressure.
    pub fn pumps_run(&self) -> bool {
        self.parts_of("pump").any(|at| self.view(at).hand() == "on")
    }
}
