//! Where the fluid is, and where it went.

use super::aircraft::Aircraft;
use super::wiring::Wiring;

/// Volumes that arrived since the account was opened, m3.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Account {
    /// For each part that holds a node at a pressure: what arrived there. The last is the open air.
    pub arrived: Vec<f64>,
    /// What was stored when the account was opened.
    pub stored_at_first: f64,
    /// All that went either way, to measure what is amiss against.
    pub moved: f64,
}

/// The account as people read it; volumes in m3.
#[derive(Debug, Clone, PartialEq)]
pub struct Balance {
    /// Fluid held under pressure, against the empty plant at 15 C.
    pub stored: f64,
    /// Change of it since the account was opened.
    pub stored_change: f64,
    /// What each reservoir gained, by its id.
    pub reservoirs: Vec<(String, f64)>,
    /// What left the aircraft.
    pub overboard: f64,
    /// What is amiss: stored and arrived together should not change.
    pub amiss: f64,
}

impl Account {
    /// The balance of an aircraft that stores some fluid now. What arrives at a pump goes to the
    /// reservoir it draws from.
    pub fn balance(&self, aircraft: &Aircraft, wiring: &Wiring, stored: f64) -> Balance {
        let drawn_from = |reservoir: usize, pump: usize| {
            let suction = wiring.net(aircraft, pump, "suction");
            aircraft.parts[pump].kind.name == "pump"
                && suction.is_some()
                && (suction == wiring.net(aircraft, reservoir, "suction"))
        };
        let mut reservoirs = Vec::new();
        for (at, part) in aircraft.parts.iter().enumerate() {
            if part.kind.name == "reservoir" {
                let pumps = (0..aircraft.parts.len()).filter(|pump| drawn_from(at, *pump));
                let through: f64 = pumps.map(|pump| self.at(pump)).sum();
                reservoirs.push((part.id.clone(), self.at(at) + through));
            }
        }
        let all: f64 = self.arrived.iter().sum();
        Balance {
            stored,
            stored_change: stored - self.stored_at_first,
            reservoirs,
            overboard: self.at(aircraft.parts.len()),
            amiss: stored - self.stored_at_first + all,
        }
    }

    fn at(&self, part: usize) -> f64 {
        self.arrived.get(part).copied().unwrap_or(0.0)
    }
}
