//! Checks that move something or take time, each on a clone of the plant.

use std::cell::OnceCell;

use super::electrical::lit;
use super::gas::gauge_bar;
use super::survey::clamped_words;
use super::{Reading, Rounds};
use crate::plant::error::PlantError;
use crate::plant::handle::{Change, Handle};

/// Applications after which a count is given up.
const ENOUGH: u32 = 40;
/// Pressure down to which applications are counted, Pa.
const COUNTED_TO: f64 = 70e5;
/// Pressure above which a released brake drags, Pa.
const DRAGS: f64 = 10e5;

fn fell(before: &Handle, after: &Handle) -> Reading {
    let both = gauge_bar(before).zip(gauge_bar(after));
    Reading::number(both.map(|(first, last)| first - last))
}

/// What the motor did between two moments, one way (0 towards shut, 1 towards open).
fn motor(before: &Handle, after: &Handle, at: usize, way: usize) -> Reading {
    let (old, new) = (before.view(at).memory, after.view(at).memory);
    Reading::word(if new.stalled[way] > old.stalled[way] + 0.5 {
        "stalls"
    } else if new.ran[way] > old.ran[way] + 0.5 {
        "runs"
    } else {
        "silent"
    })
}

/// Trials that several readings share.
#[derive(Debug, Clone, Default)]
pub(super) struct Tried {
    release: OnceCell<Release>,
    pump_down: OnceCell<PumpDown>,
}

/// The lever let down, and raised again.
#[derive(Debug, Clone)]
struct Release {
    /// Lever down, the motor at rest.
    down: Handle,
    /// Some time later: whatever lets go has let go.
    free: Handle,
    /// Set again from `down`.
    set: Handle,
}

/// The store pumped down with the pedals.
#[derive(Debug, Clone)]
struct PumpDown {
    /// Applications that still reached the pressure counted to.
    applications: u32,
    /// Where the gas side stops, ten minutes later, bar.
    knee: Option<f64>,
}

/// What was tried already, or tries it now.
fn once<T>(
    cell: &OnceCell<T>,
    trial: impl FnOnce() -> Result<T, PlantError>,
) -> Result<&T, PlantError> {
    if let Some(tried) = cell.get() {
        return Ok(tried);
    }
    let tried = trial()?;
    Ok(cell.get_or_init(|| tried))
}

fn release(rounds: &Rounds) -> Result<&Release, PlantError> {
    once(&rounds.tried.release, || {
        let mut down = rounds.now.clone();
        down.release_park_brake()?;
        let mut free = down.clone();
        free.step(20.0)?;
        let mut set = down.clone();
        set.set_park_brake()?;
        Ok(Release { down, free, set })
    })
}

/// Pumped down until a whole application brings no more fluid, and as long as applications count.
fn pump_down(rounds: &Rounds) -> Result<&PumpDown, PlantError> {
    once(&rounds.tried.pump_down, || {
        let mut plant = rounds.released.clone();
        let (mut applications, mut counting) = (0, true);
        let mut empty = None;
        for _ in 0..ENOUGH {
            counting &= plant.apply_pedals()? >= COUNTED_TO;
            applications += u32::from(counting);
            if empty.is_none() && plant.bottomed() {
                empty = Some(plant.clone());
            }
            if !counting && empty.is_some() {
                break;
            }
        }
        let mut rested = empty.unwrap_or(plant);
        rested.step(600.0)?;
        let knee = gauge_bar(&rested);
        Ok(PumpDown { applications, knee })
    })
}

pub(super) fn motor_on_release(rounds: &Rounds, at: usize) -> Result<Reading, PlantError> {
    Ok(motor(&rounds.now, &release(rounds)?.down, at, 1))
}

pub(super) fn motor_on_set(rounds: &Rounds, at: usize) -> Result<Reading, PlantError> {
    let trial = release(rounds)?;
    Ok(motor(&trial.down, &trial.set, at, 0))
}

pub(super) fn knee(rounds: &Rounds, _: usize) -> Result<Reading, PlantError> {
    Ok(Reading::number(pump_down(rounds)?.knee))
}

pub(super) fn applications(rounds: &Rounds, _: usize) -> Result<Reading, PlantError> {
    let count = pump_down(rounds)?.applications;
    Ok(Reading::Number(f64::from(count)))
}

/// One pump alone, lever down, pedals pressed for half a minute.
fn pressed(rounds: &Rounds, alone: usize) -> Result<Reading, PlantError> {
    let mut plant = rounds.released.clone();
    one_pump(&mut plant, alone)?;
    plant.step(400.0)?;
    plant.feet(1.0)?;
    plant.step(30.0)?;
    Ok(clamped_words(&plant))
}

/// Lets one pump run and stops the others.
fn one_pump(plant: &mut Handle, alone: usize) -> Result<(), PlantError> {
    let pumps: Vec<usize> = plant.parts_of("pump").collect();
    for (number, at) in pumps.into_iter().enumerate() {
        let id = plant.aircraft().parts[at].id.clone();
        let position = if number == alone { "on" } else { "off" };
        plant.set(&Change::Hand(id, position.to_owned()))?;
    }
    Ok(())
}

pub(super) fn pedals_main(rounds: &Rounds, _: usize) -> Result<Reading, PlantError> {
    pressed(rounds, 0)
}

pub(super) fn pedals_second(rounds: &Rounds, _: usize) -> Result<Reading, PlantError> {
    pressed(rounds, 1)
}

pub(super) fn light_after_release(rounds: &Rounds, at: usize) -> Result<Reading, PlantError> {
    let plant = &release(rounds)?.free;
    Ok(Reading::word(if lit(plant, at) { "lit" } else { "dark" }))
}

pub(super) fn dragging(rounds: &Rounds, _: usize) -> Result<Reading, PlantError> {
    let brakes = release(rounds)?.free.sample().brakes;
    let drag = brakes
        .iter()
        .filter(|(_, pressure)| *pressure > DRAGS)
        .count();
    Ok(Reading::word(format!("{drag} of {}", brakes.len())))
}

pub(super) fn second_pump_fall(rounds: &Rounds, _: usize) -> Result<Reading, PlantError> {
    let mut plant = rounds.fresh.clone();
    one_pump(&mut plant, 1)?;
    // From the moment the main pump stops, as whoever switches it off would count.
    let before = plant.clone();
    plant.step(1800.0)?;
    Ok(fell(&before, &plant))
}

pub(super) fn released_fall(rounds: &Rounds, _: usize) -> Result<Reading, PlantError> {
    // From the moment the pumps stop, as with the lever up.
    let mut plant = rounds.fresh_released.clone();
    plant.step(1800.0)?;
    Ok(fell(&rounds.fresh_released, &plant))
}

/// Pedals held down while the pumps fill the store, and still held for two minutes without them.
pub(super) fn held_fall(rounds: &Rounds, _: usize) -> Result<Reading, PlantError> {
    let mut plant = rounds.released.clone();
    every_pump(&mut plant, "on")?;
    plant.feet(1.0)?;
    plant.step(600.0)?;
    every_pump(&mut plant, "off")?;
    let before = plant.clone();
    plant.step(120.0)?;
    Ok(fell(&before, &plant))
}

fn every_pump(plant: &mut Handle, position: &str) -> Result<(), PlantError> {
    let pumps: Vec<usize> = plant.parts_of("pump").collect();
    for at in pumps {
        let id = plant.aircraft().parts[at].id.clone();
        plant.set(&Change::Hand(id, position.to_owned()))?;
    }
    Ok(())
}
