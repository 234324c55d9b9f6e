//! `readings AIRCRAFT`: every observable in one state, with any faults put in.

use super::parking::{self, Typed};
use super::rank::complain_of;
use super::{bench, work};
use crate::cli::args::ReadingsArguments;
use crate::cli::{exit, output};
use crate::console::bench::plain;
use crate::console::bench::state::State;
use crate::plant::error::PlantError;
use crate::plant::handle::Change;
use crate::plant::observe::{Observed, Rounds};
use crate::report::readings::{readings_json, readings_text};

/// Plays the parking, reads everything and prints.
pub fn run(arguments: &ReadingsArguments) -> anyhow::Result<u8> {
    if let Some(file) = &arguments.bench {
        return on_bench(file, arguments.parking.json);
    }
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

/// Plays a course of the bench and reads everything at its end.
fn on_bench(file: &str, json: bool) -> anyhow::Result<u8> {
    let on_bench = match bench::read(file) {
        Ok(on_bench) => on_bench,
        Err(mut desk) => return Ok(complain_of(&mut desk)),
    };
    let state = State::new(&on_bench.aircraft, &on_bench.course).and_then(|mut state| {
        state.try_all()?;
        Ok(state)
    });
    let state = match state {
        Ok(state) => state,
        Err(error) => return Ok(parking::refused(&error)),
    };
    if json {
        let read = match state.observed() {
            Ok(read) => read,
            Err(error) => return Ok(parking::refused(&error)),
        };
        output::print_json(&readings_json(&state.switches(), &state.faults_in(), &read))?;
    } else {
        work::quiet(work::with_lines(|lines| plain::report(&state, lines)))?;
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
