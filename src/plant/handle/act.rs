//! What hands and feet do on the flight deck, with the time it takes.

use super::Handle;
use crate::plant::error::PlantError;
use crate::plant::handle::Change;

/// Seconds feet rest on the pedals in an application; the pace of the count is chosen by us.
const PRESSED: f64 = 2.0;
/// Seconds between two applications.
const FREE: f64 = 6.0;

impl Handle {
    /// Pedals of the first seat down, lever up, feet off; the valve is given time for its stroke.
    pub fn set_park_brake(&mut self) -> Result<(), PlantError> {
        self.feet(1.0)?;
        self.step(PRESSED)?;
        self.levers("up")?;
        self.step(PRESSED)?;
        self.feet(0.0)?;
        self.step(10.0)
    }

    /// Lever down, with the time the valve takes.
    pub fn release_park_brake(&mut self) -> Result<(), PlantError> {
        self.levers("down")?;
        self.step(10.0)
    }

    /// One application: pedals down and up again. Gives the highest pressure that any brake stood at
    /// at the end of the press, Pa: the store's, unless no valve lets it through.
    pub fn apply_pedals(&mut self) -> Result<f64, PlantError> {
        self.feet(1.0)?;
        self.step(PRESSED)?;
        let brakes = self.sample().brakes;
        let highest = brakes.iter().map(|(_, pressure)| *pressure);
        let reached = highest.fold(0.0, f64::max);
        self.feet(0.0)?;
        self.step(FREE)?;
        Ok(reached)
    }

    /// Feet of the first seat on both pedals.
    pub fn feet(&mut self, travel: f64) -> Result<(), PlantError> {
        let Some(seat) = self.parts_of("pedals").next() else {
            return Err(self.missing("pedals"));
        };
        let id = self.aircraft.parts[seat].id.clone();
        self.set(&Change::Feet(id, travel, travel))
    }

    fn levers(&mut self, position: &str) -> Result<(), PlantError> {
        let Some(lever) = self.parts_of("park-lever").next() else {
            return Err(self.missing("park lever"));
        };
        let id = self.aircraft.parts[lever].id.clone();
        self.set(&Change::Hand(id, position.to_owned()))
    }

    /// What the document lacks for something, as an error.
    pub(in crate::plant) fn missing(&self, missing: &str) -> PlantError {
        PlantError::Missing {
            aircraft: self.aircraft.id.clone(),
            missing: missing.to_owned(),
        }
    }
}
