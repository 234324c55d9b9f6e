//! The network as the parts stamp it, and what it holds.

use super::Handle;
use super::passage::moment;
use crate::plant::error::PlantError;
use crate::plant::kinds::brake;
use crate::plant::solver::network::{Network, Pin};
use crate::plant::solver::store::Store;
use crate::plant::stamp::Stamp;

impl Handle {
    /// Stamps every part into the network anew.
    pub(super) fn assemble(&mut self) -> Result<(), PlantError> {
        let mut network = std::mem::take(&mut self.network);
        let clash = self.stamp_all(&mut network);
        self.network = network;
        self.solver.meet_network();
        match clash {
            None => Ok(()),
            Some((net, first, second)) => Err(PlantError::TwoSupplies {
                net: self.wiring.node_name(&self.aircraft, net),
                first: self.aircraft.parts[first].id.clone(),
                second: self.aircraft.parts[second].id.clone(),
            }),
        }
    }

    /// Stamps every part into a network; a node that two parts hold, and both, come back.
    fn stamp_all(&self, network: &mut Network) -> Option<(usize, usize, usize)> {
        let outside = self.wiring.outside;
        network.elements.clear();
        network.stores.clear();
        network.pins.clear();
        network.pins.resize(outside + 1, None);
        let mut clash = None;
        for (at, part) in self.aircraft.parts.iter().enumerate() {
            let view = self.view(at);
            let mut stamp = Stamp {
                part: at,
                view,
                network: &mut *network,
                outside,
                clash: &mut clash,
                again: false,
            };
            part.kind.behaviour.stamp(&view, &mut stamp);
        }
        self.finish(network);
        clash
    }

    /// Carries the network on where only what changes with every step did: run-down pumps and
    /// gas. Stamping all parts would give the same.
    pub(super) fn carry_on(&mut self) {
        let outside = self.wiring.outside;
        let mut network = std::mem::take(&mut self.network);
        let mut clash = None;
        for (at, part) in self.aircraft.parts.iter().enumerate() {
            let behaviour = part.kind.behaviour;
            if behaviour.stamps_every_step() {
                let view = self.view(at);
                let mut stamp = Stamp {
                    part: at,
                    view,
                    network: &mut network,
                    outside,
                    clash: &mut clash,
                    again: true,
                };
                behaviour.stamp(&view, &mut stamp);
            }
        }
        self.network = network;
        debug_assert!(self.is_as_assembled(), "the network was carried on wrongly");
    }

    /// Whether stamping all parts gives the network as it stands.
    fn is_as_assembled(&self) -> bool {
        let mut other = Network::default();
        self.stamp_all(&mut other).is_none() && other == self.network
    }

    /// What stands on every mechanical net: valves follow it.
    pub(super) fn travels_standing(&self) -> Vec<u64> {
        let nets = self.wiring.mechanical.iter();
        nets.map(|net| self.levels.value[*net].to_bits()).collect()
    }

    /// The open air, and a trace of volume in every node, so that none is without any.
    fn finish(&self, network: &mut Network) {
        let air = self.aircraft.parts.len();
        network.pins[self.wiring.outside] = Some(Pin {
            pressure: 0.0,
            run_down: None,
            account: air,
        });
        for node in 0..self.wiring.outside {
            if network.pins[node].is_none() {
                let trace = Store::Line {
                    volume: 2e-6,
                    bulk_modulus: self.fluid.bulk_modulus,
                    expansion: self.fluid.expansion,
                    swelling: 0.0,
                };
                network.stores.push((node, air, trace));
            }
        }
    }

    /// Fluid held now, m3.
    pub(super) fn stored(&self) -> f64 {
        let (elsewhere, behind_gas) = self.stored_by_node();
        let all = elsewhere.iter().chain(&behind_gas).chain(&self.left_over);
        all.sum()
    }

    /// Fluid held now in every free node, m3: in lines and brakes, and behind gas.
    pub(super) fn stored_by_node(&self) -> (Vec<f64>, Vec<f64>) {
        let moment = moment(self.climate.now(), 0.0);
        let mut both = [
            vec![0.0; self.pressures.len()],
            vec![0.0; self.pressures.len()],
        ];
        for (node, _, store) in &self.network.stores {
            if self.network.pins[*node].is_none() {
                let gas = usize::from(matches!(store, Store::Gas(_)));
                both[gas][*node] += store.volume(self.pressures[*node], &moment).0;
            }
        }
        let [elsewhere, behind_gas] = both;
        (elsewhere, behind_gas)
    }

    /// Opens the account anew: what is stored now is the beginning.
    pub fn open_account(&mut self) {
        self.account.arrived = vec![0.0; self.aircraft.parts.len() + 1];
        self.account.stored_at_first = self.stored();
        self.account.moved = 0.0;
    }

    /// Works out anew how every brake clamps, after its settings changed.
    pub(super) fn fit_clamps(&mut self) {
        let brakes = self.aircraft.parts.iter().enumerate();
        let brakes = brakes.filter(|(_, part)| part.kind.name == "brake");
        self.clamps = brakes.map(|(at, _)| brake::clamp(&self.view(at))).collect();
    }
}
