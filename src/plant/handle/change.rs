//! What can be set on the plant, at any moment.

use super::Handle;
use crate::base::temperature::Temperature;
use crate::plant::climate::Climate;
use crate::plant::error::PlantError;

/// One change. Pressures in Pa gauge, temperatures in kelvin, wind in m/s, thrust in N.
#[derive(Debug, Clone, PartialEq)]
pub enum Change {
    /// A switch of the aircraft to one of its positions, with every part that follows it.
    Switch(String, String),
    /// A single part by hand: a pump, a breaker, the lever.
    Hand(String, String),
    /// Feet on the pedals of a part: left and right, 1 is full travel, above 1.02 is hard.
    Feet(String, f64, f64),
    /// A fault, with its severity; 0 takes it out.
    Fault(String, String, f64),
    /// The same air temperature from now on.
    Temperature(f64),
    /// Air temperature as seconds and kelvin, with the lag of the equipment in seconds.
    Weather(Vec<(f64, f64)>, f64),
    /// Rise over run; downhill is positive.
    Slope(f64),
    /// Wind from behind.
    Wind(f64),
    /// Thrust.
    Thrust(f64),
    /// Break-away coefficient of the tyres.
    BreakAway(f64),
    /// In-limit leaks times this.
    Wear(f64),
    /// Precharge of every accumulator, and the temperature it was put in at.
    Precharge(f64, f64),
}

impl Handle {
    /// Makes a change. Nothing passes; the next step starts from it.
    pub fn set(&mut self, change: &Change) -> Result<(), PlantError> {
        match change {
            Change::Switch(switch, position) => self.set_switch(switch, position)?,
            Change::Hand(part, position) => {
                let at = self.part(part)?;
                self.set_hand(at, position)?;
            }
            Change::Feet(part, left, right) => {
                let at = self.part(part)?;
                self.now[at].feet = [left.clamp(0.0, 1.1), right.clamp(0.0, 1.1)];
            }
            Change::Fault(part, fault, severity) => self.set_fault(part, fault, *severity)?,
            Change::Temperature(kelvin) => {
                check_temperature(*kelvin)?;
                let points = vec![(self.seconds, *kelvin)];
                self.climate = Climate::history(points, 0.0);
            }
            Change::Weather(points, lag) => {
                for (_, kelvin) in points {
                    check_temperature(*kelvin)?;
                }
                self.climate = Climate::history(points.clone(), *lag);
            }
            Change::Slope(slope) => self.ground.push.slope = *slope,
            Change::Wind(wind) => self.ground.push.wind = *wind,
            Change::Thrust(thrust) => self.ground.push.thrust = *thrust,
            Change::BreakAway(share) => self.ground.break_away = *share,
            Change::Wear(wear) => self.set_wear(*wear),
            Change::Precharge(pressure, kelvin) => self.set_precharge(*pressure, *kelvin)?,
        }
        self.next_step = self.next_step.min(0.1);
        self.settle_levels()?;
        self.assemble()
    }

    /// The place of a part.
    pub(super) fn part(&self, id: &str) -> Result<usize, PlantError> {
        let found = self.aircraft.parts.iter().position(|part| part.id == id);
        found.ok_or_else(|| PlantError::NoPart(id.to_owned()))
    }

    fn set_switch(&mut self, switch: &str, position: &str) -> Result<(), PlantError> {
        if self.aircraft.setting(switch, position).is_none() {
            return Err(PlantError::NoPosition(
                switch.to_owned(),
                position.to_owned(),
            ));
        }
        for at in 0..self.now.len() {
            let hand = self.aircraft.parts[at].kind.hand.as_ref();
            let follows = hand.and_then(|hand| hand.follows.as_ref());
            let moved = follows.filter(|(followed, _)| *followed == switch);
            let own = moved.and_then(|(_, map)| map.iter().find(|(there, _)| *there == position));
            if let Some((_, own)) = own {
                self.set_hand(at, own)?;
            }
        }
        Ok(())
    }

    fn set_hand(&mut self, at: usize, position: &str) -> Result<(), PlantError> {
        let part = &self.aircraft.parts[at];
        let positions = part
            .kind
            .hand
            .as_ref()
            .map_or(&[][..], |hand| hand.positions);
        let Some(found) = positions.iter().position(|known| *known == position) else {
            return Err(PlantError::NoPosition(part.id.clone(), position.to_owned()));
        };
        self.now[at].hand = found;
        Ok(())
    }

    fn set_fault(&mut self, part: &str, fault: &str, severity: f64) -> Result<(), PlantError> {
        let at = self.part(part)?;
        let described = &self.aircraft.parts[at];
        if described.fault(fault).is_none() {
            return Err(PlantError::NoFault {
                part: part.to_owned(),
                fault: fault.to_owned(),
            });
        }
        if !(severity.is_finite() && (0.0..=100.0).contains(&severity)) {
            return Err(PlantError::OutOfRange {
                what: "a severity",
                value: severity.to_string(),
                wanted: "0 takes the fault out, 1 is the usual case, 100 is the most",
            });
        }
        self.now[at].faults.retain(|(id, _)| id != fault);
        if severity > 0.0 {
            self.now[at].faults.push((fault.to_owned(), severity));
        }
        self.now[at].resolve(described, self.wear);
        self.refit(at);
        Ok(())
    }

    fn set_wear(&mut self, wear: f64) {
        self.wear = wear;
        for (now, part) in self.now.iter_mut().zip(&self.aircraft.parts) {
            now.resolve(part, wear);
        }
    }

    fn set_precharge(&mut self, pressure: f64, kelvin: f64) -> Result<(), PlantError> {
        check_temperature(kelvin)?;
        for at in 0..self.now.len() {
            let kind = self.aircraft.parts[at].kind;
            if kind.name == "accumulator" {
                self.now[at].put(kind, "precharge", pressure, kelvin);
                self.refit(at);
            }
        }
        Ok(())
    }

    fn refit(&mut self, at: usize) {
        let mut memory = self.memory[at];
        let behaviour = self.aircraft.parts[at].kind.behaviour;
        behaviour.refit(&self.view(at), &mut memory);
        self.memory[at] = memory;
    }
}

/// Between the ends of the nitrogen equation and of the viscosity line.
fn check_temperature(kelvin: f64) -> Result<(), PlantError> {
    let possible = (203.15..=373.15).contains(&kelvin);
    if possible && Temperature::from_kelvin(kelvin).is_some() {
        return Ok(());
    }
    Err(PlantError::OutOfRange {
        what: "a temperature",
        value: format!("{:.1} C", kelvin - 273.15),
        wanted: "-70 C to 100 C",
    })
}
