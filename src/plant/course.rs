//! What was done to a parked aircraft, and when; played, it always gives the same.
//!
//! Time is counted in tenths of a second, which files and keys share, so that a course that was
//! written down and read again comes out digit for digit.

mod play;
mod side;

pub use play::Play;
pub use side::{Point, Seen, Side};

use super::aircraft::Aircraft;
use super::control::{Control, Form};
use super::handle::Change;
use super::parking::Parking;

/// Tenths of a second in an hour.
pub const HOUR: u64 = 36_000;
/// The longest course: ten days.
pub const LONGEST: u64 = 240 * HOUR;

/// One thing that was set.
#[derive(Debug, Clone, PartialEq)]
pub struct Done {
    /// When, in tenths of a second since the beginning.
    pub at: u64,
    /// The control, or `PART/FAULT`.
    pub name: String,
    /// The value as it was written; for a fault its severity.
    pub value: String,
    /// What it does.
    pub change: Change,
}

/// The charge of the store at the beginning, as it was written and in Pa gauge.
#[derive(Debug, Clone, PartialEq)]
pub struct Charge {
    /// As written.
    pub text: String,
    /// Pa gauge.
    pub pascals: f64,
}

/// A whole course.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Course {
    /// Charge at the beginning; what the pumps give where nothing is said.
    pub charge: Option<Charge>,
    /// What was set before it began; `at` means nothing here.
    pub begin: Vec<Done>,
    /// What was set since, in order.
    pub then: Vec<Done>,
    /// How far it was played, in tenths of a second.
    pub until: u64,
}

impl Course {
    /// Everything that was set, in order.
    pub fn all(&self) -> impl Iterator<Item = &Done> {
        self.begin.iter().chain(&self.then)
    }

    /// The parking at its beginning, with or without faults.
    pub fn parking(&self, faults: bool) -> Parking {
        let mut parking = Parking::usual();
        let begin = self.begin.iter().map(|done| done.change.clone());
        parking.changes = begin
            .filter(|change| faults || !matches!(change, Change::Fault(..)))
            .collect();
        parking.charge = self.charge.as_ref().map(|charge| charge.pascals);
        parking
    }

    /// The faults that are in: `PART/FAULT` and severity, in the order they were put in.
    pub fn faults(&self) -> Vec<(&str, &str)> {
        let mut found: Vec<(&str, &str)> = Vec::new();
        for done in self.all() {
            if let Change::Fault(_, _, severity) = done.change {
                found.retain(|(name, _)| *name != done.name);
                if severity > 0.0 {
                    found.push((&done.name, &done.value));
                }
            }
        }
        found
    }

    /// What a control is set to. A switch whose parts were moved by hand since says so.
    pub fn value(&self, aircraft: &Aircraft, controls: &[Control], control: &Control) -> String {
        let mut value = control.usual.clone();
        for done in self.all() {
            if done.name == control.name {
                value.clone_from(&done.value);
            } else if let Some(own) = carried(aircraft, &done.change, &control.name) {
                own.clone_into(&mut value);
            }
        }
        if let Form::Switch(_) = control.form {
            let position = Change::Switch(control.name.clone(), value.clone());
            let differs = |other: &&Control| {
                let own = carried(aircraft, &position, &other.name);
                own.is_some_and(|own| self.value(aircraft, controls, other) != own)
            };
            let mut hands = controls.iter().filter(|c| matches!(c.form, Form::Hand(_)));
            if hands.any(|hand| differs(&hand)) {
                return "in part".to_owned();
            }
        }
        value
    }

    /// The beginning of another course: parked anew with everything as it is set now, feet off.
    #[must_use]
    pub fn anew(&self, aircraft: &Aircraft, charge: Option<Charge>) -> Self {
        let mut begin: Vec<Done> = Vec::new();
        for done in self.all() {
            begin.retain(|known| {
                let moved = carried(aircraft, &done.change, &known.name).is_some();
                known.name != done.name && !moved
            });
            begin.push(Done {
                at: 0,
                ..done.clone()
            });
        }
        begin.retain(|done| match done.change {
            Change::Feet(..) => false,
            Change::Fault(_, _, severity) => severity > 0.0,
            _ => true,
        });
        for done in &mut begin {
            rebase(done);
        }
        Self {
            charge: charge.or_else(|| self.charge.clone()),
            begin,
            ..Self::default()
        }
    }
}

/// Weather that was set later on begins anew with the course.
fn rebase(done: &mut Done) {
    if let Change::Weather(points, _) = &mut done.change {
        let first = points.first().map_or(0.0, |point| point.0);
        for point in points {
            point.0 -= first;
        }
    }
}

/// Where a switch carries a part that follows it.
fn carried(aircraft: &Aircraft, change: &Change, part: &str) -> Option<&'static str> {
    let Change::Switch(switch, position) = change else {
        return None;
    };
    let part = aircraft.parts.iter().find(|known| known.id == part)?;
    let (followed, map) = part.kind.hand.as_ref()?.follows.as_ref()?;
    if followed != switch {
        return None;
    }
    let own = map.iter().find(|(there, _)| there == position)?;
    Some(own.1)
}

/// `2 h 05 min`, `14 s` or `3 min 20.5 s` for tenths of a second.
pub fn clock(tenths: u64) -> String {
    let (hours, minutes) = (tenths / HOUR, tenths % HOUR / 600);
    let (seconds, tenth) = (tenths % 600 / 10, tenths % 10);
    let exact = if tenth == 0 {
        format!("{seconds} s")
    } else {
        format!("{seconds}.{tenth} s")
    };
    match (hours, minutes, tenths % 600) {
        (0, 0, _) => exact,
        (0, _, 0) => format!("{minutes} min"),
        (0, _, _) => format!("{minutes} min {exact}"),
        (_, 0, 0) => format!("{hours} h"),
        (_, _, 0) => format!("{hours} h {minutes} min"),
        _ => format!("{hours} h {minutes} min {exact}"),
    }
}

#[cfg(test)]
mod tests {
    use super::clock;

    #[test]
    fn times_are_said_as_short_as_they_are_exact() {
        for (tenths, said) in [
            (0, "0 s"),
            (35, "3.5 s"),
            (600, "1 min"),
            (7_235, "12 min 3.5 s"),
            (288_000, "8 h"),
            (558_360, "15 h 30 min 36 s"),
        ] {
            assert_eq!(clock(tenths), said);
        }
    }
}
