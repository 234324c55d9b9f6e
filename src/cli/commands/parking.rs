//! What was typed about a parking, for `hold` and `readings`.

use std::sync::Arc;

use super::rank::{SHORT_STATES, complain_of, halves};
use crate::authoring::desk::Desk;
use crate::authoring::document;
use crate::base::dimension::Dimension;
use crate::base::quantity::{Quantity, QuantityError};
use crate::base::suggestion::nearest;
use crate::base::unit::Unit;
use crate::cli::args::ParkingArguments;
use crate::cli::{exit, output};
use crate::plant::aircraft::Aircraft;
use crate::plant::control;
use crate::plant::error::PlantError;
use crate::plant::handle::{Change, Handle};
use crate::plant::parking::Parking;
use crate::plant::stored_pressure::{StoredError, stored};
use crate::report::parking_text::{Described, pressure};

/// Everything that was typed, read.
#[derive(Debug)]
pub struct Typed {
    /// The aircraft.
    pub aircraft: Arc<Aircraft>,
    /// How it is parked.
    pub parking: Parking,
    /// The same in words.
    pub about: Described,
    /// Hours that were asked for.
    pub hours: Option<f64>,
}

/// Reads the arguments, or complains and gives the exit code.
pub fn read(arguments: &ParkingArguments) -> Result<Typed, u8> {
    let mut desk = Desk::default();
    let Some(aircraft) = document::aircraft(&mut desk, &arguments.aircraft) else {
        return Err(complain_of(&mut desk));
    };
    let aircraft = Arc::new(aircraft);
    // What the document lacks matters before what was typed.
    let healthy = Parking::usual()
        .begin(&aircraft)
        .map_err(|error| refused(&error))?;
    typed(arguments, &aircraft, &healthy).map_err(|message| {
        output::complain(&format!("error: {message}\n"));
        exit::COMMAND_LINE
    })
}

/// Says why the plant refused, and gives the exit code.
pub fn refused(error: &PlantError) -> u8 {
    output::complain(&format!("error: {error}\n"));
    match error {
        PlantError::Missing { .. }
        | PlantError::TwoSupplies { .. }
        | PlantError::NoPressure { .. }
        | PlantError::NeverSettles { .. } => exit::PROBLEMS,
        _ => exit::COMMAND_LINE,
    }
}

fn typed(
    arguments: &ParkingArguments,
    aircraft: &Arc<Aircraft>,
    healthy: &Handle,
) -> Result<Typed, String> {
    let mut parking = Parking::usual();
    let quantity = |text: &Option<String>, option, dimension| {
        let read = |text: &String| read_quantity(text, option, dimension);
        text.as_ref().map(read).transpose()
    };
    let temperature = quantity(
        &arguments.temperature,
        "--temperature",
        Dimension::Temperature,
    )?;
    let slope = quantity(&arguments.slope, "--slope", Dimension::Slope)?;
    let wind = quantity(&arguments.wind, "--wind", Dimension::Speed)?;
    parking
        .changes
        .extend(temperature.map(|t| Change::Temperature(t.si())));
    parking.changes.extend(slope.map(|s| Change::Slope(s.si())));
    parking.changes.extend(wind.map(|w| Change::Wind(w.si())));
    if let Some(text) = &arguments.precharge {
        parking.changes.push(precharge(text, healthy)?);
    }
    for text in &arguments.fault {
        parking.changes.push(fault(text, aircraft)?);
    }
    if let Some(text) = &arguments.state {
        parking.switches = switches(text, aircraft)?;
    }
    let charge = arguments.charge.as_ref();
    parking.charge = charge
        .map(|text| stored_after(text, "--charge", healthy))
        .transpose()?;
    let hours = quantity(&arguments.hours, "--hours", Dimension::Time)?;
    let hours = hours.map(|time| time.si() / 3600.0);
    if hours.is_some_and(|hours| !(0.0..=240.0).contains(&hours)) {
        return Err("--hours is more than ten days or below 0; write 14 h".to_owned());
    }
    let about = Described {
        title: aircraft.title.clone(),
        note: aircraft.note.clone(),
        state: state_words(aircraft, &parking),
        charge: pressure(parking.charge.unwrap_or(healthy.pump_pressure())),
        temperature: or_own(temperature, aircraft.environment.temperature, "15 C"),
        slope: standing(aircraft, slope, wind),
        faults: fault_titles(aircraft, &parking),
    };
    Ok(Typed {
        aircraft: Arc::clone(aircraft),
        parking,
        about,
        hours,
    })
}

/// A quantity after an option, or what is wrong with it and how it is written.
fn read_quantity(text: &str, option: &str, dimension: Dimension) -> Result<Quantity, String> {
    Quantity::parse(text, dimension).map_err(|error| {
        let symbols = Unit::symbols_of(dimension);
        let near = match &error {
            QuantityError::UnknownUnit(symbol) => Unit::like(symbol),
            _ => None,
        };
        match near {
            Some(near) => format!("{option}: {error}; did you mean `{near}`?"),
            None => format!(
                "{option}: {error}; units accepted here: {}",
                symbols.join(", ")
            ),
        }
    })
}

/// What was typed, else what the aircraft has, else a word.
fn or_own(typed: Option<Quantity>, own: Option<Quantity>, none: &str) -> String {
    typed
        .or(own)
        .map_or_else(|| none.to_owned(), |quantity| quantity.to_string())
}

/// What pushes it, in words.
fn standing(aircraft: &Aircraft, slope: Option<Quantity>, wind: Option<Quantity>) -> String {
    let place = &aircraft.environment;
    let mut words = format!("{} slope", or_own(slope, place.slope, "no"));
    if let Some(wind) = wind.or(place.wind).filter(|wind| wind.si() != 0.0) {
        words.push_str(&format!(" with {wind} of wind"));
    }
    words
}

fn fault_titles(aircraft: &Aircraft, parking: &Parking) -> Vec<String> {
    let changes = parking.changes.iter();
    changes
        .filter_map(|change| title(change, aircraft))
        .collect()
}

/// A stored pressure after an option, or what is wrong with it.
fn stored_after(text: &str, option: &str, healthy: &Handle) -> Result<f64, String> {
    stored(text, healthy.pump_pressure()).map_err(|error| match error {
        StoredError::Quantity(_) => {
            let read = read_quantity(text, option, Dimension::GaugePressure);
            read.map_or_else(|said| said, |_| error.to_string())
        }
        _ => format!("{option} {error}"),
    })
}

fn precharge(text: &str, healthy: &Handle) -> Result<Change, String> {
    let (value, at) = text.split_once(" at ").unwrap_or((text, "20 C"));
    let pressure = stored_after(value, "--precharge", healthy)?;
    let at = read_quantity(at, "--precharge", Dimension::Temperature)?;
    Ok(Change::Precharge(pressure, at.si()))
}

fn fault(text: &str, aircraft: &Aircraft) -> Result<Change, String> {
    let (name, severity) = text.split_once('=').unwrap_or((text, "1"));
    control::fault(aircraft, name, severity).map_err(|error| error.to_string())
}

/// `what` is the beginning of the message: `there is no part`.
fn unknown<'a>(what: &str, name: &str, known: impl Iterator<Item = &'a str>) -> String {
    let known: Vec<&str> = known.collect();
    match nearest(name, known.iter().copied()) {
        Some(near) => format!("{what} `{name}`; did you mean `{near}`?"),
        None if known.is_empty() => format!("{what} `{name}`, and no other"),
        None => format!("{what} `{name}`; there are: {}", known.join(", ")),
    }
}

fn switches(typed: &str, aircraft: &Aircraft) -> Result<Vec<(String, String)>, String> {
    let short = SHORT_STATES
        .iter()
        .find(|(name, _)| name.eq_ignore_ascii_case(typed));
    let positions = short.map_or(typed, |(_, positions)| *positions);
    let mut found = Vec::new();
    if !positions.contains('=') {
        let known = SHORT_STATES.iter().map(|(name, _)| *name);
        let message = unknown("there is no state", typed, known);
        return Err(format!("{message} or write SWITCH=POSITION"));
    }
    for part in positions.split(',') {
        let (switch, position) = halves(part, "--state")?;
        let Some(known) = aircraft.switches.iter().find(|known| known.id == switch) else {
            let known = aircraft.switches.iter().map(|known| known.id.as_str());
            return Err(unknown("there is no switch", switch, known));
        };
        if aircraft.setting(switch, position).is_none() {
            let positions = known.positions.iter().map(String::as_str);
            let what = format!("switch `{switch}` has no position");
            return Err(unknown(&what, position, positions));
        }
        found.push((switch.to_owned(), position.to_owned()));
    }
    Ok(found)
}

/// The positions of all switches, as `--state` would take them.
fn state_words(aircraft: &Aircraft, parking: &Parking) -> String {
    let word = |(at, switch): (usize, &crate::plant::state::Switch)| {
        let typed = parking.switches.iter().find(|(name, _)| *name == switch.id);
        let own = aircraft
            .as_found
            .0
            .get(at)
            .and_then(|p| switch.positions.get(*p));
        let position = typed.map(|(_, position)| position).or(own);
        format!("{} {}", switch.id, position.map_or("", String::as_str))
    };
    let all: Vec<String> = aircraft.switches.iter().enumerate().map(word).collect();
    all.join(", ")
}

fn title(change: &Change, aircraft: &Aircraft) -> Option<String> {
    let Change::Fault(part, fault, severity) = change else {
        return None;
    };
    let title = &aircraft.part_for(part)?.fault(fault)?.title;
    Some(if (severity - 1.0).abs() < 1e-12 {
        title.clone()
    } else {
        format!("{title} (severity {severity})")
    })
}
