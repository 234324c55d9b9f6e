//! Checks that move something or take time, each on a clone of the plant.

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

pub(super) fn motor_on_release(rounds: &Rounds, at: usize) -> Result<Reading, PlantError> {
    let mut plant = rounds.now.clone();
    plant.release_park_brake()?;
    Ok(motor(&rounds.now, &plant, at, 1))
}

pub(super) fn motor_on_set(rounds: &Rounds, at: usize) -> Result<Reading, PlantError> {
    let mut plant = rounds.now.clone();
    plant.release_park_brake()?;
    let down = plant.clone();
    plant.set_park_brake()?;
    Ok(motor(&down, &plant, at, 0))
}

/// Pumped down until a whole application brings no more fluid, and read ten minutes later.
pub(super) fn knee(rounds: &Rounds, _: usize) -> Result<Reading, PlantError> {
    let mut plant = rounds.released.clone();
    for _ in 0..ENOUGH {
        plant.apply_pedals()?;
        if plant.bottomed() {
            break;
        }
    }
    plant.step(600.0)?;
    Ok(Reading::number(gauge_bar(&plant)))
}

pub(super) fn applications(rounds: &Rounds, _: usize) -> Result<Reading, PlantError> {
    let mut plant = rounds.released.clone();
    let mut count = 0;
    while count < ENOUGH && plant.apply_pedals()? >= COUNTED_TO {
        count += 1;
    }
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

fn let_go(rounds: &Rounds) -> Result<Handle, PlantError> {
    let mut plant = rounds.fresh.clone();
    plant.release_park_brake()?;
    plant.step(20.0)?;
    Ok(plant)
}

pub(super) fn light_after_release(rounds: &Rounds, at: usize) -> Result<Reading, PlantError> {
    let plant = let_go(rounds)?;
    Ok(Reading::word(if lit(&plant, at) { "lit" } else { "dark" }))
}

pub(super) fn dragging(rounds: &Rounds, _: usize) -> Result<Reading, PlantError> {
    let brakes = let_go(rounds)?.sample().brakes;
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
