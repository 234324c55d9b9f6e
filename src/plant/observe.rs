//! What can be seen, heard and measured: one list of observables.
//!
//! An observable is what a check reads. Some are a look, some take hours or disturb the brake;
//! those are tried on a clone, so that reading all of them disturbs nothing.

mod electrical;
mod flight_deck;
mod gas;
mod gauges;
mod list;
mod rounds;
mod survey;
mod trial;

pub use gauges::{GAUGES, Gauge, Side};
pub use list::OBSERVABLES;
pub(super) use rounds::RUN_DOWN;
pub use rounds::Rounds;

use super::aircraft::Aircraft;
use super::error::PlantError;

/// What was read.
#[derive(Debug, Clone, PartialEq)]
pub enum Reading {
    /// A number in the unit of the observable.
    Number(f64),
    /// A word.
    Word(String),
    /// It cannot be read in this state.
    Dead,
}

impl Reading {
    /// A word.
    pub fn word(text: impl Into<String>) -> Self {
        Self::Word(text.into())
    }

    fn number(value: Option<f64>) -> Self {
        value.map_or(Self::Dead, Self::Number)
    }
}

/// The pumps that a reading needs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pumps {
    /// It does not matter.
    Any,
    /// Off, for hours or for a stored pressure that falls.
    Off,
    /// To be had, by ground power.
    Running,
}

/// How an observable is read: from all rounds, for one part.
#[derive(Debug, Clone, Copy)]
enum Read {
    /// From what stands there.
    Look(fn(&Rounds, usize) -> Reading),
    /// By letting time pass, on a clone.
    Wait(fn(&Rounds, usize) -> Result<Reading, PlantError>),
    /// By moving lever, pedals or pumps, on a clone.
    Try(fn(&Rounds, usize) -> Result<Reading, PlantError>),
}

/// One row of the list.
#[derive(Debug, Clone, Copy)]
pub struct Observable {
    /// Its name; for one of each part of a kind, what follows the name of the part.
    pub name: &'static str,
    /// What it is, in words.
    pub title: &'static str,
    /// The kind of part it is read at; without one in the aircraft there is no such observable.
    pub kind: &'static str,
    /// Whether every part of the kind has its own, or only the first.
    pub each: bool,
    /// Unit of a number.
    pub unit: &'static str,
    /// Distance from the healthy reading beyond which a number is high or low; four times is much.
    /// Judgement, from the accuracy of the instruments.
    pub edge: f64,
    /// A parameter of the part that tells its own edge, and how many SI units one unit is.
    pub own_edge: Option<(&'static str, f64)>,
    /// Whether it is a pressure of the gas side, which moves with temperature alone.
    pub gas_side: bool,
    /// The pumps it needs.
    pub pumps: Pumps,
    read: Read,
}

impl Observable {
    /// Whether it is read by moving lever, pedals or pumps, which costs stored pressure.
    pub fn moves_fluid(&self) -> bool {
        matches!(self.read, Read::Try(_))
    }

    /// Whether it takes time or moves something, and is tried on a clone.
    pub fn is_tried(&self) -> bool {
        !matches!(self.read, Read::Look(_))
    }

    /// Hours after the pumps stopped at which it is read; `None` where it is read at any time.
    pub fn hours_after_pumps(&self) -> Option<f64> {
        let found = READ_LATER.iter().find(|(name, _)| *name == self.name);
        found.map(|(_, hours)| *hours)
    }

    /// Its full name at a part of its kind.
    pub fn full_name(&self, part: &str) -> String {
        if self.each {
            format!("{part}-{}", self.name)
        } else {
            self.name.to_owned()
        }
    }
}

/// Observables that are read at their own time, with its hours after the pumps stopped.
const READ_LATER: [(&str, f64); 8] = [
    ("heard", TEN_MINUTES),
    ("return-flow-ml-min", TEN_MINUTES),
    ("gas-at-30-min-bar", HALF_AN_HOUR),
    ("gas-fall-30-to-60-min-bar", HALF_AN_HOUR),
    ("gas-at-8-h-bar", EIGHT_HOURS),
    ("indicator-at-8-h-bar", EIGHT_HOURS),
    ("position-at-8-h", EIGHT_HOURS),
    ("gain-l", EIGHT_HOURS),
];
const TEN_MINUTES: f64 = 1.0 / 6.0;
const HALF_AN_HOUR: f64 = 0.5;
const EIGHT_HOURS: f64 = 8.0;

/// Every reading that an aircraft has: its full name, its row, and the place of the part it is
/// read at.
pub fn readings_of(
    aircraft: &Aircraft,
) -> impl Iterator<Item = (String, &'static Observable, usize)> + '_ {
    OBSERVABLES.iter().flat_map(move |row| {
        let parts = aircraft.parts.iter().enumerate();
        let parts = parts.filter(|(_, part)| part.kind.name == row.kind);
        let count = if row.each { usize::MAX } else { 1 };
        parts
            .take(count)
            .map(move |(at, part)| (row.full_name(&part.id), row, at))
    })
}

/// What was read of one observable.
#[derive(Debug, Clone, PartialEq)]
pub struct Observed {
    /// Full name.
    pub name: String,
    /// What it is, in words.
    pub title: String,
    /// Unit of a number.
    pub unit: &'static str,
    /// Edge of its classes.
    pub edge: f64,
    /// Hours after the pumps stopped at which it is read, where it has a time of its own.
    pub due: Option<f64>,
    /// The reading.
    pub reading: Reading,
}

impl Rounds {
    /// Reads every observable that the aircraft has.
    pub fn observe(&self) -> Result<Vec<Observed>, PlantError> {
        self.observe_where(|_| true)
    }

    /// Reads the observables that are wanted, in the order of the list.
    pub fn observe_where(
        &self,
        wanted: impl Fn(&Observable) -> bool,
    ) -> Result<Vec<Observed>, PlantError> {
        readings_of(self.now.aircraft())
            .filter(|(_, row, _)| wanted(row))
            .map(|(_, row, at)| self.read(row, at))
            .collect()
    }

    /// Reads one observable by its full name; `None` where the aircraft has none of that name.
    pub fn observe_one(&self, name: &str) -> Result<Option<Observed>, PlantError> {
        let found = readings_of(self.now.aircraft()).find(|(known, ..)| known == name);
        found.map(|(_, row, at)| self.read(row, at)).transpose()
    }

    /// The edge of an observable at a part: that of the part where it tells one.
    fn edge(&self, row: &Observable, at: usize) -> f64 {
        let own = row.own_edge.map_or(0.0, |(parameter, unit)| {
            self.now.view(at).value(parameter) / unit
        });
        if own > 0.0 { own } else { row.edge }
    }

    fn read(&self, row: &Observable, at: usize) -> Result<Observed, PlantError> {
        let part = &self.now.aircraft().parts[at];
        let possible = match row.pumps {
            Pumps::Any => true,
            Pumps::Off => !self.pumps_on,
            Pumps::Running => self.pumps_on,
        };
        let title = if row.each {
            format!("{}, {}", part.title, row.title)
        } else {
            row.title.to_owned()
        };
        Ok(Observed {
            name: row.full_name(&part.id),
            title,
            unit: row.unit,
            edge: self.edge(row, at),
            due: row.hours_after_pumps(),
            reading: match row.read {
                _ if !possible => Reading::Dead,
                Read::Look(look) => look(self, at),
                Read::Wait(check) | Read::Try(check) => check(self, at)?,
            },
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_read_later_is_in_the_list() {
        for (name, hours) in READ_LATER {
            let row = OBSERVABLES.iter().find(|row| row.name == name);
            let found = row.and_then(Observable::hours_after_pumps);
            assert!(found == Some(hours), "{name}");
        }
    }
}
