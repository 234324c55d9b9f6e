//! Which faults move the aircraft, and which causes say so.

use std::sync::Arc;

use super::{Finding, NotCompared, fault_of};
use crate::diagnosis::cause::Part;
use crate::diagnosis::model::Model;
use crate::plant::aircraft::Aircraft;
use crate::plant::band::{HORIZON, WORST};
use crate::plant::error::PlantError;
use crate::plant::handle::Change;
use crate::plant::parking::Parking;

/// Slopes on which it is tried, rise over run: stands are seldom steeper than the first.
const SLOPES: [f64; 2] = [0.01, 0.02];

/// A healthy aircraft at the worst in its limits, and whatever is tried beside it.
struct Yard<'a> {
    aircraft: &'a Arc<Aircraft>,
    healthy: [f64; 2],
}

/// Compares causes and faults with what moves.
pub fn compare(
    model: &Model,
    aircraft: &Arc<Aircraft>,
    found: &mut Vec<Finding>,
) -> Result<(), NotCompared> {
    let mut healthy = [HORIZON; 2];
    for (hours, slope) in healthy.iter_mut().zip(SLOPES) {
        let worst = vec![Change::Wear(WORST), Change::Slope(slope)];
        *hours = stands(aircraft, worst, HORIZON)?.unwrap_or(HORIZON);
    }
    let yard = Yard { aircraft, healthy };
    for (event, cause) in model.causes.iter().enumerate() {
        let Some((part, fault)) = fault_of(model, event).filter(|_| cause.part == Part::Cause)
        else {
            continue;
        };
        if yard.moves(part, fault)?.is_none() {
            found.push(Finding::DoesNotMove {
                cause: event,
                healthy: healthy[0],
            });
        }
    }
    yard.not_in_tree(model, found)
}

/// Hours until it moves, within a horizon.
fn stands(
    aircraft: &Arc<Aircraft>,
    changes: Vec<Change>,
    horizon: f64,
) -> Result<Option<f64>, PlantError> {
    let mut parking = Parking::usual();
    parking.changes = changes;
    let hold = parking.begin(aircraft)?.hold(0.0, horizon)?;
    Ok(hold.hours_to_creep)
}

impl Yard<'_> {
    /// Hours after which a fault has moved it where it moves sooner than the healthy one.
    fn moves(&self, part: &str, fault: &str) -> Result<Option<f64>, NotCompared> {
        for (slope, healthy) in SLOPES.into_iter().zip(self.healthy) {
            let put_in = Change::Fault(part.to_owned(), fault.to_owned(), 1.0);
            let changes = vec![put_in, Change::Slope(slope)];
            let hours = stands(self.aircraft, changes, healthy);
            let hours = hours.map_err(|error| NotCompared::Fault {
                fault: format!("{part}/{fault}"),
                error,
            })?;
            if let Some(hours) = hours.filter(|hours| *hours < healthy) {
                return Ok(Some(hours));
            }
        }
        Ok(None)
    }

    /// Faults of the aircraft that move it and that no cause names. A cause speaks for all parts
    /// of its kind: one wet brake stands for eight.
    fn not_in_tree(&self, model: &Model, found: &mut Vec<Finding>) -> Result<(), NotCompared> {
        let kind = |part: &str| self.aircraft.part_for(part).map(|part| part.kind.name);
        let mut known: Vec<(Option<&str>, &str)> = (0..model.causes.len())
            .filter(|event| model.causes[*event].part == Part::Cause)
            .filter_map(|event| fault_of(model, event))
            .map(|(part, fault)| (kind(part), fault))
            .collect();
        for part in &self.aircraft.parts {
            for fault in &part.faults {
                let this = (Some(part.kind.name), fault.id.as_str());
                if known.contains(&this) {
                    continue;
                }
                if let Some(hours) = self.moves(&part.id, &fault.id)? {
                    known.push(this);
                    found.push(Finding::NotInTree {
                        part: part.id.clone(),
                        fault: fault.id.clone(),
                        title: fault.title.clone(),
                        hours,
                    });
                }
            }
        }
        Ok(())
    }
}
