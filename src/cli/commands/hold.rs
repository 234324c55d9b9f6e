//! `hold AIRCRAFT`: pressure over the hours, and when it can move.

use super::parking::{self, Typed};
use crate::cli::args::HoldArguments;
use crate::cli::{exit, output};
use crate::plant::band;
use crate::report::hold_json::hold_json;
use crate::report::hold_text::hold_text;

/// Hours that are printed where none are asked for.
const USUAL_HOURS: f64 = 24.0;

/// Plays the parking and prints.
pub fn run(arguments: &HoldArguments) -> anyhow::Result<u8> {
    let typed = match parking::read(&arguments.parking) {
        Ok(typed) => typed,
        Err(code) => return Ok(code),
    };
    let Typed {
        aircraft,
        parking,
        about,
        hours,
        ..
    } = typed;
    let played = band::play(&aircraft, &parking, hours.unwrap_or(USUAL_HOURS));
    let (hold, band) = match played {
        Ok(played) => played,
        Err(error) => return Ok(parking::refused(&error)),
    };
    if arguments.parking.json {
        output::print_json(&hold_json(&aircraft.id, &hold, &band))?;
    } else {
        output::print(&hold_text(&about, &hold, &band, hours))?;
    }
    Ok(exit::FINE)
}
