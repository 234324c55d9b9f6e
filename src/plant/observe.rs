//! What can be seen, heard and measured: one list of observables.
//!
//! An observable is what a check reads. Some are a look, some take hours or disturb the brake;
//! those are tried on a clone, so that reading all of them disturbs nothing.

mod electrical;
mod flight_deck;
mod gas;
mod rounds;
mod survey;
mod trial;

pub use rounds::Rounds;

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
type Read = fn(&Rounds, usize) -> Result<Reading, PlantError>;

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
    /// The pumps it needs.
    pub pumps: Pumps,
    read: Read,
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
    /// The reading.
    pub reading: Reading,
}

const fn row(
    name: &'static str,
    title: &'static str,
    kind: &'static str,
    measure: (&'static str, f64),
    pumps: Pumps,
    read: Read,
) -> Observable {
    Observable {
        name,
        title,
        kind,
        each: false,
        unit: measure.0,
        edge: measure.1,
        pumps,
        read,
    }
}

const fn each(row: Observable) -> Observable {
    Observable { each: true, ..row }
}

const WORD: (&str, f64) = ("", 0.0);

/// Every observable, in the order in which a technician meets them.
pub const OBSERVABLES: &[Observable] = &[
    row(
        "park-lever",
        "Park lever",
        "pawl-latch",
        WORD,
        Pumps::Any,
        flight_deck::lever,
    ),
    row(
        "park-lever-stays",
        "Park lever over the night",
        "pawl-latch",
        WORD,
        Pumps::Any,
        flight_deck::lever_stays,
    ),
    row(
        "pedal-effort-left-n",
        "Effort on the left pedal",
        "metering-valve",
        ("N", 25.0),
        Pumps::Any,
        flight_deck::effort_left,
    ),
    row(
        "pedal-effort-right-n",
        "Effort on the right pedal",
        "metering-valve",
        ("N", 25.0),
        Pumps::Any,
        flight_deck::effort_right,
    ),
    row(
        "park-light",
        "Park-brake light",
        "indicator-light",
        WORD,
        Pumps::Any,
        electrical::light,
    ),
    row(
        "held-caption",
        "Caption BRAKE HELD",
        "display-caption",
        WORD,
        Pumps::Any,
        electrical::caption,
    ),
    row(
        "valve-breaker",
        "Park-valve breaker",
        "breaker",
        WORD,
        Pumps::Any,
        electrical::breaker,
    ),
    row(
        "pressure-indicator-bar",
        "Flight-deck pressure indicator, gas side",
        "indicator",
        ("bar", 8.0),
        Pumps::Any,
        gas::indicator,
    ),
    row(
        "gas-gauge-bar",
        "Direct gauge at the gas valve, gas side",
        "charging-valve",
        ("bar", 5.0),
        Pumps::Any,
        gas::gauge,
    ),
    row(
        "indicator-minus-gauge-bar",
        "Indicator less direct gauge",
        "indicator",
        ("bar", 12.0),
        Pumps::Any,
        gas::difference,
    ),
    row(
        "gas-fall-30-to-60-min-bar",
        "Fall on the gas side, 30 to 60 min after pumps off",
        "charging-valve",
        ("bar", 3.0),
        Pumps::Off,
        gas::fall_in_half_an_hour,
    ),
    row(
        "gas-at-8-h-bar",
        "Direct gauge after 8 h, gas side",
        "charging-valve",
        ("bar", 6.0),
        Pumps::Off,
        gas::at_eight_hours,
    ),
    row(
        "brakes-clamped",
        "Brakes that look clamped",
        "brake",
        WORD,
        Pumps::Any,
        survey::clamped,
    ),
    row(
        "position-indicator",
        "Position indicator of the park valve",
        "shut-off-valve",
        WORD,
        Pumps::Any,
        electrical::position,
    ),
    row(
        "valve-motor-on-release",
        "Park-valve motor as the lever goes down",
        "valve-motor",
        WORD,
        Pumps::Any,
        trial::motor_on_release,
    ),
    row(
        "valve-motor-on-set",
        "Park-valve motor as the lever goes up again",
        "valve-motor",
        WORD,
        Pumps::Any,
        trial::motor_on_set,
    ),
    row(
        "close-volts",
        "Volts at the close pin, motor connected",
        "valve-motor",
        ("V", 2.0),
        Pumps::Any,
        electrical::close_volts,
    ),
    row(
        "closed-contact",
        "Contact of the closed limit switch",
        "limit-switches",
        WORD,
        Pumps::Any,
        electrical::closed_contact,
    ),
    row(
        "park-relay",
        "Park relay",
        "relay",
        WORD,
        Pumps::Any,
        electrical::relay,
    ),
    row(
        "wet",
        "Fluid outside",
        "brake",
        WORD,
        Pumps::Any,
        survey::wet,
    ),
    each(row(
        "gain-l",
        "gain over 8 h",
        "reservoir",
        ("L", 0.4),
        Pumps::Off,
        survey::gain,
    )),
    row(
        "heard",
        "Loudest at the contact probe, 10 min after pumps off",
        "metering-valve",
        WORD,
        Pumps::Off,
        survey::heard,
    ),
    row(
        "return-flow-ml-min",
        "Flow from the opened return below the park valve",
        "shut-off-valve",
        ("mL/min", 3.0),
        Pumps::Off,
        survey::return_flow,
    ),
    row(
        "knee-bar",
        "Where the gas side stops in a pump-down, 10 min later",
        "accumulator",
        ("bar", 4.0),
        Pumps::Off,
        trial::knee,
    ),
    row(
        "applications",
        "Applications from full to 70 bar",
        "accumulator",
        ("", 1.5),
        Pumps::Off,
        trial::applications,
    ),
    each(row(
        "bar",
        "test gauge, pumps on",
        "bleed-port",
        ("bar", 8.0),
        Pumps::Running,
        survey::bleed_port,
    )),
    row(
        "transmitter-ohm",
        "Transmitter at its connector",
        "transmitter",
        ("ohm", 50.0),
        Pumps::Any,
        gas::transmitter,
    ),
    row(
        "indicator-at-1386-ohm-bar",
        "Indicator with 1386 ohm in place of the transmitter",
        "indicator",
        ("bar", 8.0),
        Pumps::Any,
        gas::indicator_alone,
    ),
    row(
        "gas-valve-bubbles",
        "Leak fluid on the gas valve",
        "charging-valve",
        WORD,
        Pumps::Any,
        gas::bubbles,
    ),
    row(
        "oil-at-gas-valve",
        "Mist from the cracked gas valve",
        "accumulator",
        WORD,
        Pumps::Off,
        gas::oil,
    ),
    row(
        "clamped-by-pedals-main",
        "Clamped by pedals alone, main pump",
        "brake",
        WORD,
        Pumps::Running,
        trial::pedals_main,
    ),
    row(
        "clamped-by-pedals-second",
        "Clamped by pedals alone, second pump",
        "brake",
        WORD,
        Pumps::Running,
        trial::pedals_second,
    ),
    row(
        "light-after-release",
        "Park-brake light after release",
        "indicator-light",
        WORD,
        Pumps::Any,
        trial::light_after_release,
    ),
    row(
        "dragging-after-release",
        "Wheels that drag after release",
        "brake",
        WORD,
        Pumps::Any,
        trial::dragging,
    ),
    row(
        "largest-clearance-mm",
        "Largest running clearance",
        "brake",
        ("mm", 0.6),
        Pumps::Any,
        survey::clearance,
    ),
    row(
        "gas-fall-second-pump-bar",
        "Fall on the gas side in 30 min, second pump on, main off",
        "charging-valve",
        ("bar", 3.0),
        Pumps::Running,
        trial::second_pump_fall,
    ),
    row(
        "gas-fall-released-bar",
        "Fall on the gas side in 30 min, lever down",
        "charging-valve",
        ("bar", 3.0),
        Pumps::Off,
        trial::released_fall,
    ),
    row(
        "gas-fall-pedals-held-bar",
        "Fall on the gas side in 2 min, pedals held, lever down",
        "charging-valve",
        ("bar", 10.0),
        Pumps::Off,
        trial::held_fall,
    ),
];

impl Rounds {
    /// Reads every observable that the aircraft has.
    pub fn observe(&self) -> Result<Vec<Observed>, PlantError> {
        let mut all = Vec::new();
        for row in OBSERVABLES {
            for at in self.now.parts_of(row.kind) {
                all.push(self.read(row, at)?);
                if !row.each {
                    break;
                }
            }
        }
        Ok(all)
    }

    fn read(&self, row: &Observable, at: usize) -> Result<Observed, PlantError> {
        let part = &self.now.aircraft().parts[at];
        let possible = match row.pumps {
            Pumps::Any => true,
            Pumps::Off => !self.pumps_on,
            Pumps::Running => self.pumps_on,
        };
        let (name, title) = if row.each {
            let title = format!("{}, {}", part.title, row.title);
            (format!("{}-{}", part.id, row.name), title)
        } else {
            (row.name.to_owned(), row.title.to_owned())
        };
        Ok(Observed {
            name,
            title,
            unit: row.unit,
            edge: row.edge,
            reading: if possible {
                (row.read)(self, at)?
            } else {
                Reading::Dead
            },
        })
    }
}
