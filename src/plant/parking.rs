//! A parking as somebody describes it: switches, faults, charge, weather; and the plant at its
//! beginning.

use std::sync::Arc;

use super::aircraft::Aircraft;
use super::error::{PlantError, pressure_words};
use super::handle::{Change, Handle, Start};

/// How the aircraft was parked.
#[derive(Debug, Clone, PartialEq)]
pub struct Parking {
    /// Positions of switches, by name; others stay as the document finds them.
    pub switches: Vec<(String, String)>,
    /// Everything else that is set before it begins: faults, weather, slope, precharge.
    pub changes: Vec<Change>,
    /// Charge of the store as the pumps stop, Pa gauge; `None` for what the pumps give.
    pub charge: Option<f64>,
}

impl Parking {
    /// Lever up, pumps just stopped, battery connected and off: nothing else said.
    pub fn usual() -> Self {
        Self {
            switches: Vec::new(),
            changes: Vec::new(),
            charge: None,
        }
    }

    /// The plant at the beginning of the parking.
    ///
    /// Errors: a switch, part or fault that is not there; a charge the pumps cannot give; a
    /// document that lacks a pump, an accumulator or a brake.
    pub fn begin(&self, aircraft: &Arc<Aircraft>) -> Result<Handle, PlantError> {
        let mut handle = Handle::new(Arc::clone(aircraft))?;
        for needed in ["pump", "accumulator", "brake"] {
            if handle.parts_of(needed).next().is_none() {
                return Err(handle.missing(&format!("part of kind `{needed}`")));
            }
        }
        let found = aircraft.switches.iter().zip(&aircraft.as_found.0);
        for (switch, position) in found {
            let position = switch.positions.get(*position).cloned().unwrap_or_default();
            handle.set(&Change::Switch(switch.id.clone(), position))?;
        }
        for change in &self.changes {
            handle.set(change)?;
        }
        for (switch, position) in &self.switches {
            handle.set(&Change::Switch(switch.clone(), position.clone()))?;
        }
        let given = handle.pump_pressure();
        let usual = if handle.can_charge() { given } else { 0.0 };
        let charge = self.charge.unwrap_or(usual);
        if !(0.0..=given).contains(&charge) {
            return Err(PlantError::OutOfRange {
                what: "a charge",
                value: pressure_words(charge),
                wanted: "from 0 to what the pumps give",
            });
        }
        handle.park(Start { charge })?;
        Ok(handle)
    }
}

impl Handle {
    /// Whether a pump that works reaches the store through a check valve that opens. Where no such
    /// way is drawn the store is charged by other means, and nothing stands in its way.
    fn can_charge(&self) -> bool {
        let net = |at: usize, port: &str| self.wiring.net(&self.aircraft, at, port);
        let stores: Vec<_> = self
            .parts_of("accumulator")
            .filter_map(|at| net(at, "fluid"))
            .collect();
        let mut ways = 0;
        let mut open = 0;
        for valve in self.parts_of("check-valve") {
            if !net(valve, "out").is_some_and(|out| stores.contains(&out)) {
                continue;
            }
            for pump in self.parts_of("pump") {
                if net(pump, "out").is_some() && net(pump, "out") == net(valve, "in") {
                    ways += 1;
                    let blocked = self.view(valve).has("stuck-shut");
                    let dead = self.view(pump).has("no-output");
                    open += usize::from(!blocked && !dead);
                }
            }
        }
        ways == 0 || open > 0
    }

    /// The highest pressure that a pump is made for, Pa.
    pub fn pump_pressure(&self) -> f64 {
        self.parts_of("pump")
            .map(|at| self.view(at).value("pressure"))
            .fold(0.0, f64::max)
    }
}
