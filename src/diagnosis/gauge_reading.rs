//! A reading of a watched gauge as it is typed: a pressure with its unit, perhaps a temperature.

use super::model::Model;
use crate::base::dimension::Dimension;
use crate::base::quantity::{Quantity, QuantityError};
use crate::plant::climate::possible_temperature;
use crate::plant::observe::{GAUGES, Gauge};
use crate::plant::parking::Parking;
use crate::plant::stored_pressure::{StoredError, shown};

/// Where no aircraft says what its pumps give, Pa: wide, it stops slips alone.
const MOST: f64 = 6e7;

/// What the gauges of an aircraft can show.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dial {
    most: f64,
}

/// Why a text is no reading of a gauge.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum DialError {
    /// The pressure cannot be.
    #[error("`{0}` {1}")]
    Pressure(String, StoredError),
    /// It is no pressure, or no temperature behind one.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
    /// No air is so hot or so cold.
    #[error("`{0}` is out of range: a temperature from -70 C to 100 C is possible")]
    Impossible(String),
}

/// What was read, in SI units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shown {
    /// Pa gauge.
    pub pascals: f64,
    /// K, where it was typed behind the reading.
    pub kelvin: Option<f64>,
}

impl Dial {
    /// That of the aircraft in hand.
    pub fn of(model: &Model) -> Self {
        let aircraft = model.aircraft.as_ref();
        let healthy = aircraft.and_then(|aircraft| Parking::usual().begin(aircraft).ok());
        Self {
            most: healthy.map_or(MOST, |healthy| healthy.pump_pressure()),
        }
    }

    /// Reads `184.5 bar`, or `184.5 bar at 8 C`.
    pub fn read(self, typed: &str) -> Result<Shown, DialError> {
        let (value, at) = match typed.split_once(" at ") {
            Some((value, at)) => (value, Some(at)),
            None => (typed, None),
        };
        let kelvin = at
            .map(|at| Quantity::parse(at, Dimension::Temperature))
            .transpose()?
            .map(Quantity::si);
        if let (Some(kelvin), Some(at)) = (kelvin, at)
            && !possible_temperature(kelvin)
        {
            return Err(DialError::Impossible(at.to_owned()));
        }
        let pascals = shown(value, self.most).map_err(|error| match error {
            StoredError::Quantity(error) => DialError::Quantity(error),
            other => DialError::Pressure(value.trim().to_owned(), other),
        })?;
        Ok(Shown { pascals, kelvin })
    }
}

/// The place of a gauge by its name, and its name by its place.
pub fn place_of(name: &str) -> Option<usize> {
    Gauge::find(name)
}

/// The name of a gauge in job files.
pub fn name_of(gauge: usize) -> &'static str {
    GAUGES[gauge].name
}

/// Names of all gauges.
pub fn names() -> Vec<&'static str> {
    GAUGES.iter().map(|gauge| gauge.name).collect()
}

/// `Direct gauge at the gas valve`.
pub fn title_of(gauge: usize) -> &'static str {
    GAUGES[gauge].title
}

/// `gas side`, or `fluid side`.
pub fn side_of(gauge: usize) -> &'static str {
    GAUGES[gauge].side.words()
}

/// Whether a check reads the same fall, so that readings must not count beside its answer.
pub fn tells_the_same(model: &Model, check: usize, gauge: usize) -> bool {
    let reads = model.checks[check].reads.as_deref();
    reads.is_some_and(|reads| GAUGES[gauge].told_by.contains(&reads))
}
