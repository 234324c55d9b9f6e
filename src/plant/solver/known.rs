//! Steps that were solved before.
//!
//! Parkings that differ in nothing but switches and lamps take the same steps, and a step depends
//! on nothing but what the solver is given. So it is enough to compare that, bit for bit: no
//! argument about what can touch the fluid is needed, and nothing shared differs from what would
//! have been worked out.

use std::sync::{Arc, Mutex, PoisonError};

use rustc_hash::FxHashMap;

use super::network::Network;
use super::step::{Conditions, Stepped};
use super::store::Store;

/// Steps that several plants share; a clone shares the same.
#[derive(Debug, Clone, Default)]
pub struct KnownSteps(Arc<Mutex<Known>>);

#[derive(Debug, Default)]
struct Known {
    /// Every network met, with the gas and the pins of the moment at which it was met.
    networks: Vec<Network>,
    steps: FxHashMap<Box<[u64]>, Result<Stepped, usize>>,
}

/// What the solver is given for a step.
#[derive(Debug, Clone, Copy)]
pub struct Given<'a> {
    /// The network.
    pub network: &'a Network,
    /// Pressures at the beginning, Pa.
    pub pressures: &'a [f64],
    /// What the step before left over in every node, m3.
    pub left_over: &'a [f64],
    /// At the beginning, at the first stage and at the end.
    pub conditions: &'a [Conditions; 3],
    /// Length of the step, s.
    pub seconds: f64,
}

/// Whether two networks are the same but for gas and pinned pressures, which change all the time
/// and are compared with each step.
fn alike(a: &Network, b: &Network) -> bool {
    let store = |(one, other): (&(usize, usize, Store), &(usize, usize, Store))| {
        let both_gas = matches!((&one.2, &other.2), (Store::Gas(_), Store::Gas(_)));
        (one.0, one.1) == (other.0, other.1) && (both_gas || one.2 == other.2)
    };
    a.pins.len() == b.pins.len()
        && a.stores.len() == b.stores.len()
        && a.elements == b.elements
        && a.stores.iter().zip(&b.stores).all(store)
}

impl Known {
    /// The place of a network among those met.
    fn place(&mut self, network: &Network) -> usize {
        let found = self.networks.iter().position(|known| alike(known, network));
        found.unwrap_or_else(|| {
            self.networks.push(network.clone());
            self.networks.len() - 1
        })
    }
}

/// Everything a step depends on, as numbers; the place stands for the network.
fn key(place: usize, given: &Given<'_>, key: &mut Vec<u64>) {
    key.clear();
    key.extend([place as u64, given.seconds.to_bits()]);
    for Conditions { fluid, moment } in given.conditions {
        let numbers = [
            fluid.density,
            fluid.thinness,
            fluid.temperature,
            moment.fluid,
            moment.gas,
            moment.seconds,
        ];
        key.extend(numbers.map(f64::to_bits));
    }
    for (node, pin) in given.network.pins.iter().enumerate() {
        if let Some(pin) = pin {
            let runs_down = pin.run_down.map_or(u64::MAX, f64::to_bits);
            key.extend([node as u64, pin.pressure.to_bits(), runs_down]);
        }
    }
    for (.., store) in &given.network.stores {
        if let Store::Gas(piston) = store {
            let charge = &piston.charge;
            let numbers = [
                charge.mass,
                charge.volume,
                charge.temperature,
                piston.room,
                piston.least,
                piston.friction,
                piston.lag,
                piston.loss,
            ];
            key.extend(numbers.map(f64::to_bits));
        }
    }
    let both = given.pressures.iter().chain(given.left_over);
    key.extend(both.map(|number| number.to_bits()));
}

/// What one solver keeps beside the steps that are shared.
#[derive(Debug, Clone, Default)]
pub struct Sharing {
    steps: Option<KnownSteps>,
    /// The place of the network, until it is stamped anew.
    place: Option<usize>,
    key: Vec<u64>,
}

impl Sharing {
    /// Shares these steps from now on.
    pub fn share(&mut self, steps: &KnownSteps) {
        self.steps = Some(steps.clone());
        self.place = None;
    }

    /// Looks for the network again before the next step.
    pub fn forget_network(&mut self) {
        self.place = None;
    }

    /// The step, where it was solved before.
    pub fn find(&mut self, given: &Given<'_>) -> Option<Result<Stepped, usize>> {
        let steps = self.steps.as_ref()?;
        let mut known = steps.0.lock().unwrap_or_else(PoisonError::into_inner);
        let place = self.place.unwrap_or_else(|| known.place(given.network));
        self.place = Some(place);
        let there = known.networks.get(place);
        debug_assert!(there.is_some_and(|known| alike(known, given.network)));
        key(place, given, &mut self.key);
        known.steps.get(self.key.as_slice()).cloned()
    }

    /// Keeps a step that was looked for and not found.
    pub fn keep(&mut self, solved: &Result<Stepped, usize>) {
        if let Some(steps) = &self.steps {
            let mut known = steps.0.lock().unwrap_or_else(PoisonError::into_inner);
            let key = self.key.as_slice().into();
            known.steps.insert(key, solved.clone());
        }
    }
}
