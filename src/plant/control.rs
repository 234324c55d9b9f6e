//! What can be set on an aircraft, by name and in words, as people and bench files write it.
//!
//! One list for an aircraft. A value is read into a [`Change`]; the text that was read is what is
//! kept, so that it comes back as the very number it was.

mod fault;
mod value;

pub use fault::{FaultError, fault};
pub use value::{ControlError, charge};

use super::aircraft::{Aircraft, Parameter};
use super::handle::Change;
use crate::base::dimension::Dimension;

/// One thing that can be set.
#[derive(Debug, Clone, PartialEq)]
pub struct Control {
    /// Its name: that of a switch, of a part, or of a figure.
    pub name: String,
    /// The same for people.
    pub title: String,
    /// What it takes.
    pub form: Form,
    /// What it is while nobody has set it.
    pub usual: String,
}

/// What a control takes.
#[derive(Debug, Clone, PartialEq)]
pub enum Form {
    /// A switch of the aircraft: one of these positions.
    Switch(Vec<String>),
    /// A part by hand: one of these positions.
    Hand(Vec<String>),
    /// Feet on a pair of pedals.
    Feet,
    /// A quantity of one kind.
    Figure(Figure),
    /// Air temperature now, or over the hours.
    Air,
    /// Gas charge at a temperature.
    Precharge,
}

/// The figures that are set as one number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Figure {
    /// Rise over run.
    Slope,
    /// Wind from behind.
    Wind,
    /// Thrust.
    Thrust,
    /// In-limit leaks, 1 is mid-life.
    Wear,
    /// Break-away coefficient of the tyres.
    BreakAway,
}

impl Figure {
    /// All of them.
    const ALL: [Self; 5] = [
        Self::Slope,
        Self::Wind,
        Self::Thrust,
        Self::Wear,
        Self::BreakAway,
    ];

    /// Name, title, kind of quantity (`None` for a plain number), one step, and what it usually is.
    fn about(
        self,
    ) -> (
        &'static str,
        &'static str,
        Option<Dimension>,
        f64,
        &'static str,
    ) {
        match self {
            Self::Slope => ("slope", "Slope", Some(Dimension::Slope), 0.5, "0 %"),
            Self::Wind => (
                "wind",
                "Wind from behind",
                Some(Dimension::Speed),
                5.0,
                "0 kt",
            ),
            Self::Thrust => ("thrust", "Thrust", Some(Dimension::Force), 10.0, "0 kN"),
            Self::Wear => ("wear", "Wear, 1 is mid-life", None, 0.05, "1"),
            Self::BreakAway => (
                "break-away",
                "Break-away of the tyres",
                None,
                0.001,
                "0.008",
            ),
        }
    }

    fn change(self, number: f64) -> Change {
        match self {
            Self::Slope => Change::Slope(number),
            Self::Wind => Change::Wind(number),
            Self::Thrust => Change::Thrust(number),
            Self::Wear => Change::Wear(number),
            Self::BreakAway => Change::BreakAway(number),
        }
    }
}

/// Everything that can be set on an aircraft, faults apart: switches, then what hands and feet
/// reach, then air, ground and gas.
pub fn controls(aircraft: &Aircraft) -> Vec<Control> {
    let mut all: Vec<Control> = aircraft
        .switches
        .iter()
        .zip(&aircraft.as_found.0)
        .map(|(switch, found)| Control {
            name: switch.id.clone(),
            title: spoken(&switch.id),
            form: Form::Switch(switch.positions.clone()),
            usual: switch.positions.get(*found).cloned().unwrap_or_default(),
        })
        .collect();
    for part in &aircraft.parts {
        let form = if part.kind.name == "pedals" {
            Form::Feet
        } else if moved_alone(aircraft, part.kind.name) {
            let hand = part.kind.hand.as_ref();
            let positions = hand.map_or(&[][..], |hand| hand.positions);
            Form::Hand(positions.iter().map(|word| (*word).to_owned()).collect())
        } else {
            continue;
        };
        let usual = match &form {
            Form::Hand(positions) => by_switch(aircraft, part.kind.hand.as_ref())
                .or_else(|| positions.first().cloned())
                .unwrap_or_default(),
            _ => value::FREE.to_owned(),
        };
        all.push(Control {
            name: part.id.clone(),
            title: part.title.clone(),
            form,
            usual,
        });
    }
    all.extend(surroundings(aircraft));
    all
}

/// Whether parts of a kind are moved one by one: nothing moves them all, or there are several.
fn moved_alone(aircraft: &Aircraft, kind: &str) -> bool {
    let mut same = aircraft.parts.iter().filter(|part| part.kind.name == kind);
    let Some(hand) = same.next().and_then(|part| part.kind.hand.as_ref()) else {
        return false;
    };
    hand.follows.is_none() || same.next().is_some()
}

/// Where the switch that a part follows leaves it in an aircraft as found.
fn by_switch(aircraft: &Aircraft, hand: Option<&super::kind::Hand>) -> Option<String> {
    let (switch, map) = hand?.follows.as_ref()?;
    let at = aircraft
        .switches
        .iter()
        .position(|known| known.id == *switch)?;
    let position = aircraft.switches[at]
        .positions
        .get(*aircraft.as_found.0.get(at)?)?;
    let own = map.iter().find(|(there, _)| there == position)?;
    Some(own.1.to_owned())
}

fn surroundings(aircraft: &Aircraft) -> Vec<Control> {
    let place = &aircraft.environment;
    let air = place
        .temperature
        .map_or("15 C".to_owned(), |t| t.to_string());
    let mut all = vec![Control {
        name: "temperature".to_owned(),
        title: "Air temperature".to_owned(),
        form: Form::Air,
        usual: air,
    }];
    for figure in Figure::ALL {
        let (name, title, _, _, usual) = figure.about();
        let own = match figure {
            Figure::Slope => place.slope,
            Figure::Wind => place.wind,
            _ => None,
        };
        all.push(Control {
            name: name.to_owned(),
            title: title.to_owned(),
            form: Form::Figure(figure),
            usual: own.map_or(usual.to_owned(), |own| own.to_string()),
        });
    }
    let store = aircraft
        .parts
        .iter()
        .find(|part| part.kind.name == "accumulator");
    let precharge = store.and_then(|part| {
        let mut given = part.parameters.iter();
        match given.find(|(name, _)| *name == "precharge") {
            Some((_, Parameter::At(pressure, at))) => Some(format!("{pressure} at {at}")),
            _ => None,
        }
    });
    all.extend(precharge.map(|usual| Control {
        name: "precharge".to_owned(),
        title: "Gas charge put in".to_owned(),
        form: Form::Precharge,
        usual,
    }));
    all
}

/// `battery-switch` as people say it.
fn spoken(id: &str) -> String {
    let words = id.replace('-', " ");
    let mut letters = words.chars();
    let first = letters
        .next()
        .map(|letter| letter.to_uppercase().to_string());
    first.unwrap_or_default() + letters.as_str()
}
