//! `readings AIRCRAFT`: every observable in one state, with any faults put in.

use super::parking::{self, Typed};
use crate::cli::args::ReadingsArguments;
use crate::cli::{exit, output};
use crate::plant::error::PlantError;
use crate::plant::handle::Change;
use crate::plant::observe::{Observed, Rounds};
use crate::report::readings::{readings_json, readings_text};

/// Plays the parking, reads everything and prints.
pub fn run(arguments: &ReadingsArguments) -> anyhow::Result<u8> {
    let typed = match parking::read(&arguments.parking) {
        Ok(typed) => typed,
        Err(code) => return Ok(code),
    };
    let (observed, healthy) = match both(&typed) {
        Ok(both) => both,
        Err(error) => return Ok(parking::refused(&error)),
    };
    if arguments.parking.json {
        let faults = &arguments.parking.fault;
        output::print_json(&readings_json(&typed.about.state, faults, &observed))?;
    } else {
        output::print(&readings_text(
            &typed.aircraft,
            &typed.about,
            typed.hours,
            &observed,
            &healthy,
        ))?;
    }
    Ok(exit::FINE)
}

/// Readings as asked for, and those of the same parking without its faults.
fn both(typed: &Typed) -> Result<(Vec<Observed>, Vec<Observed>), PlantError> {
    let read = |parking| Rounds::play(&typed.aircraft, parking, typed.hours)?.observe();
    let mut healthy = typed.parking.clone();
    healthy
        .changes
        .retain(|change| !matches!(change, Change::Fault(..)));
    let good = read(&healthy)?;
    if healthy == typed.parking {
        return Ok((good.clone(), good));
    }
    Ok((read(&typed.parking)?, good))
}
