//! How a parking begins: the brake is set, and the last pump stops with the store at some charge.

use super::Handle;
use super::pace::Pace;
use super::passage::moment;
use crate::base::pressure::ATMOSPHERE;
use crate::plant::error::PlantError;
use crate::plant::kinds::accumulator;
use crate::plant::physics::gas_charge::Wall;
use crate::plant::physics::holding::Motion;
use crate::plant::solver::network::{Network, Pin};
use crate::plant::solver::step::Conditions;
use crate::plant::solver::store::Store;

/// The beginning of a parking.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Start {
    /// Gauge pressure of the fluid in the store and at the pumps, Pa.
    pub charge: f64,
}

/// Share of its pressure at rest at which a shut return stands when the pump stops: invented.
const RETURN_SHARE: f64 = 0.95;
/// Seconds for pawl, switches and motor to come to rest.
const SETTLING: f64 = 12.0;

impl Handle {
    /// Begins anew with the switches as they are: pedals pressed, lever raised, valve driven, feet
    /// off, and the pressures of the moment at which the pumps stop (or run, if they are on).
    ///
    /// Everything with an open way to a pump stands at the charge; a brake without one is
    /// released; a shut return stands just below what feeds it. Time is 0.
    pub fn park(&mut self, start: Start) -> Result<(), PlantError> {
        // Whatever the weather was set to, the aircraft has stood in it.
        self.climate.soak(0.0);
        self.charge_up(start)?;
        self.press_pedals(1.0);
        self.rest()?;
        self.press_pedals(0.0);
        self.rest()?;
        self.spread(start)?;
        self.left_over.fill(0.0);
        self.seconds = 0.0;
        self.pace = Pace::default();
        self.motion = Motion::default();
        self.settle_levels()?;
        self.assemble()?;
        self.open_account();
        Ok(())
    }

    fn charge_up(&mut self, start: Start) -> Result<(), PlantError> {
        self.pressures.fill(0.0);
        self.begin_memory();
        for at in 0..self.memory.len() {
            if self.aircraft.parts[at].kind.name == "pump" {
                self.memory[at].pressure = start.charge;
            }
            let piston = accumulator::piston(&self.view(at));
            if let (Some(piston), Some(gas)) = (piston, &mut self.memory[at].gas) {
                let temperature = self.climate.now();
                let long_after = Wall {
                    temperature,
                    lag: piston.lag,
                    seconds: 1e9,
                    loss: 0.0,
                };
                let absolute = start.charge + piston.friction + ATMOSPHERE;
                gas.temperature = temperature;
                let path = gas.path(long_after);
                gas.volume = path.volume_at(absolute, piston.least, piston.room).0;
            }
        }
        self.settle_levels()
    }

    /// Presses or frees the pedals of the first seat.
    fn press_pedals(&mut self, travel: f64) {
        let seat = self
            .aircraft
            .parts
            .iter()
            .position(|p| p.kind.name == "pedals");
        if let Some(seat) = seat {
            self.now[seat].feet = [travel; 2];
        }
    }

    /// Lets pawl, switches and motor come to rest while no fluid moves.
    fn rest(&mut self) -> Result<(), PlantError> {
        self.settle_levels()?;
        let mut passed = 0.0;
        while passed < SETTLING {
            let parts = 0..self.aircraft.parts.len();
            let alarms =
                parts.filter_map(|at| self.aircraft.parts[at].kind.behaviour.alarm(&self.view(at)));
            let seconds = alarms.fold(1.0, f64::min).max(1e-3);
            for at in 0..self.memory.len() {
                let mut memory = self.memory[at];
                let kind = self.aircraft.parts[at].kind;
                // Fluid does not move here, so what only fluid moves is left as it is.
                if memory.gas.is_none() && kind.name != "pump" {
                    kind.behaviour.advance(&self.view(at), &mut memory, seconds);
                    memory.held_for = 0.0;
                    self.memory[at] = memory;
                }
            }
            self.settle_levels()?;
            passed += seconds;
        }
        Ok(())
    }

    /// Puts the pressures of the beginning into every node.
    fn spread(&mut self, start: Start) -> Result<(), PlantError> {
        // Twice, because valves with pilots look at the pressures of the pumps.
        for _ in 0..2 {
            self.assemble()?;
            for (node, pin) in self.network.pins.iter().enumerate() {
                if let Some(pin) = pin {
                    self.pressures[node] = pin.pressure;
                }
            }
        }
        let mut network = self.network.clone();
        let stores = network.stores.clone();
        for (node, part, store) in &stores {
            if matches!(store, Store::Gas(_)) && network.pins[*node].is_none() {
                network.pins[*node] = Some(Pin {
                    pressure: start.charge,
                    run_down: None,
                    account: *part,
                });
                self.pressures[*node] = start.charge;
            }
        }
        network
            .stores
            .retain(|(_, _, store)| !matches!(store, Store::Gas(_)));
        let temperature = self.climate.now();
        let condition = Conditions {
            fluid: self.fluid_at(temperature),
            moment: moment(temperature, 0.0),
        };
        let at_rest = self
            .solver
            .at_rest(&network, &self.pressures, &condition)
            .map_err(|node| self.no_pressure(node))?;
        let served = served(&network);
        let braked = |node: usize| {
            stores
                .iter()
                .any(|(at, _, store)| *at == node && matches!(store, Store::Brake(_)))
        };
        for node in 0..self.wiring.outside {
            self.pressures[node] = if served[node] {
                at_rest[node]
            } else if braked(node) {
                0.0
            } else {
                RETURN_SHARE * at_rest[node]
            };
        }
        Ok(())
    }
}

/// The nodes that something feeds through ways that are there to pass fluid on.
fn served(network: &Network) -> Vec<bool> {
    let mut served: Vec<bool> = network.pins.iter().map(Option::is_some).collect();
    loop {
        let before = served.clone();
        for element in network.elements.iter().filter(|element| element.serves) {
            if served[element.from] || served[element.to] {
                // A pinned node does not feed backwards through a valve that only lets in.
                served[element.to] |= served[element.from];
                served[element.from] |= served[element.to] && !one_way(element);
            }
        }
        if served == before {
            return served;
        }
    }
}

fn one_way(element: &crate::plant::solver::network::Element) -> bool {
    use crate::plant::solver::law::Law;
    matches!(element.law, Law::OneWay { .. } | Law::MeterIn { .. })
}
