//! What can be set on the plant, at any moment.

use super::Handle;
use crate::plant::climate::possible_temperature;
use crate::plant::error::{PlantError, pressure_words};

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

/// Time constant of the equipment after a sudden change of the air, s: invented, short against
/// every hold, and long enough that no line is heated within one short step.
const WARMS_IN: f64 = 60.0;

impl Handle {
    /// Makes a change. Nothing passes; the next step starts from it.
    pub fn set(&mut self, change: &Change) -> Result<(), PlantError> {
        let (before, behind_gas) = self.stored_by_node();
        self.make(change)?;
        self.fit_clamps();
        self.pace.start();
        self.settle_levels()?;
        self.assemble()?;
        self.keep_fluid(&before, &behind_gas);
        Ok(())
    }

    /// What a part with another volume no longer holds stays in its net, and moves its pressure
    /// in the next step. What is behind gas is measured anew: fluid that passed the piston counts
    /// as gone there from the beginning.
    fn keep_fluid(&mut self, before: &[f64], behind_gas: &[f64]) {
        let (now, now_behind_gas) = self.stored_by_node();
        for (left, (before, now)) in self.left_over.iter_mut().zip(before.iter().zip(&now)) {
            *left += before - now;
        }
        let gas: f64 = now_behind_gas.iter().sum::<f64>() - behind_gas.iter().sum::<f64>();
        self.account.stored_at_first += gas;
    }

    fn make(&mut self, change: &Change) -> Result<(), PlantError> {
        match change {
            Change::Switch(switch, position) => self.set_switch(switch, position)?,
            Change::Hand(part, position) => {
                let at = self.part(part)?;
                self.set_hand(at, position)?;
            }
            Change::Feet(part, left, right) => {
                let at = self.part(part)?;
                for travel in [*left, *right] {
                    check_number(&FEET, travel)?;
                }
                self.now[at].feet = [left.clamp(0.0, 1.1), right.clamp(0.0, 1.1)];
            }
            Change::Fault(part, fault, severity) => self.set_fault(part, fault, *severity)?,
            Change::Temperature(kelvin) => {
                check_temperature(*kelvin)?;
                let points = vec![(self.seconds, *kelvin)];
                self.climate = self.climate.turned(points, WARMS_IN);
            }
            Change::Weather(points, lag) => {
                check_weather(points, *lag)?;
                self.climate = self.climate.turned(points.clone(), *lag);
            }
            Change::Slope(slope) => self.ground.push.slope = check_number(&SLOPE, *slope)?,
            Change::Wind(wind) => self.ground.push.wind = check_number(&WIND, *wind)?,
            Change::Thrust(thrust) => self.ground.push.thrust = check_number(&THRUST, *thrust)?,
            Change::BreakAway(share) => {
                self.ground.break_away = check_number(&BREAK_AWAY, *share)?;
            }
            Change::Wear(wear) => self.set_wear(check_number(&WEAR, *wear)?),
            Change::Precharge(pressure, kelvin) => self.set_precharge(*pressure, *kelvin)?,
        }
        Ok(())
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
        // Gas that no pump can push back would leave no room for fluid.
        if !(0.0..=self.pump_pressure()).contains(&pressure) {
            return Err(PlantError::OutOfRange {
                what: "a precharge",
                value: pressure_words(pressure),
                wanted: "from 0 to what the pumps give",
            });
        }
        for at in 0..self.now.len() {
            let kind = self.aircraft.parts[at].kind;
            if kind.name == "accumulator" {
                self.now[at].put(kind, "precharge", pressure, kelvin);
                self.now[at].resolve(&self.aircraft.parts[at], self.wear);
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

/// What a number can be, and how it is shown to whoever typed another.
struct Range {
    what: &'static str,
    least: f64,
    most: f64,
    shown: (f64, &'static str),
    wanted: &'static str,
}

const FEET: Range = Range {
    what: "a pedal travel",
    least: -1e9,
    most: 1e9,
    shown: (1.0, ""),
    wanted: "0 is free, 1 is full travel",
};
/// No paved stand is steeper; steeper than friction holds needs no plant.
const SLOPE: Range = Range {
    what: "a slope",
    least: -0.5,
    most: 0.5,
    shown: (100.0, " %"),
    wanted: "-50 % to 50 %",
};
const WIND: Range = Range {
    what: "a wind",
    least: -100.0,
    most: 100.0,
    shown: (1.0, " m/s"),
    wanted: "up to 100 m/s (194 kt) either way",
};
const THRUST: Range = Range {
    what: "a thrust",
    least: -1e7,
    most: 1e7,
    shown: (1e-3, " kN"),
    wanted: "up to 10,000 kN either way",
};
const BREAK_AWAY: Range = Range {
    what: "a break-away coefficient",
    least: 0.0,
    most: 1.0,
    shown: (1.0, ""),
    wanted: "0 to 1",
};
const WEAR: Range = Range {
    what: "a wear",
    least: 0.0,
    most: 100.0,
    shown: (1.0, ""),
    wanted: "1 is mid-life, 0 to 100 is possible",
};

/// The number, where it is one and in its range; NaN is in none.
fn check_number(range: &Range, number: f64) -> Result<f64, PlantError> {
    if (range.least..=range.most).contains(&number) {
        return Ok(number);
    }
    let (scale, unit) = range.shown;
    Err(PlantError::OutOfRange {
        what: range.what,
        value: format!("{}{unit}", number * scale),
        wanted: range.wanted,
    })
}

fn check_weather(points: &[(f64, f64)], lag: f64) -> Result<(), PlantError> {
    for (_, kelvin) in points {
        check_temperature(*kelvin)?;
    }
    let in_order = points.windows(2).all(|pair| pair[0].0 < pair[1].0);
    let finite = points.iter().all(|(seconds, _)| seconds.is_finite());
    if in_order && finite && lag >= 0.0 && lag.is_finite() {
        return Ok(());
    }
    Err(PlantError::OutOfRange {
        what: "a history of weather",
        value: format!("{} points", points.len()),
        wanted: "points in the order of their times, and a lag of 0 s or more",
    })
}

fn check_temperature(kelvin: f64) -> Result<(), PlantError> {
    if possible_temperature(kelvin) {
        return Ok(());
    }
    Err(PlantError::OutOfRange {
        what: "a temperature",
        value: format!("{:.1} C", kelvin - 273.15),
        wanted: "-70 C to 100 C",
    })
}
