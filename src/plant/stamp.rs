//! How a part puts itself into the hydraulic network.

use super::solver::law::Law;
use super::solver::network::{Element, Network, Pin};
use super::solver::store::Store;
use super::view::View;

/// Conductance of an open passage, m3/(s Pa): 20 cm3/s per bar. On the scale of hours anything
/// from a hole of 1 mm2 up gives the same; a finite one keeps flows readable in every part.
pub const OPEN: f64 = 2e-10;

/// Where a part puts its elements, stores and pins.
#[derive(Debug)]
pub struct Stamp<'a> {
    /// The part.
    pub part: usize,
    /// Nets of its ports.
    pub view: View<'a>,
    /// The network being built.
    pub network: &'a mut Network,
    /// The node of the open air.
    pub outside: usize,
    /// A node that two parts hold at a pressure of their own: the node and both.
    pub clash: &'a mut Option<(usize, usize, usize)>,
    /// Whether the part stood in the network already: it then puts its stores and pins where they
    /// were, and its ways stay.
    pub again: bool,
}

impl Stamp<'_> {
    /// The node of a port; `None` for an open port.
    fn node(&self, port: &str) -> Option<usize> {
        self.view.node(port)
    }

    fn join(&mut self, ends: (Option<usize>, Option<usize>), law: Law, how: (&'static str, bool)) {
        if let (Some(from), Some(to)) = ends
            && from != to
            && !self.again
        {
            self.network.elements.push(Element {
                from,
                to,
                law,
                part: self.part,
                way: how.0,
                serves: how.1,
            });
        }
    }

    /// A way that is there to pass fluid on.
    pub fn serve(&mut self, from: &str, to: &str, law: Law, way: &'static str) {
        let ends = (self.node(from), self.node(to));
        self.join(ends, law, (way, true));
    }

    /// A leak, a nozzle or a return.
    pub fn leak(&mut self, from: &str, to: &str, law: Law, way: &'static str) {
        let ends = (self.node(from), self.node(to));
        self.join(ends, law, (way, false));
    }

    /// A leak into the open.
    pub fn spill(&mut self, from: &str, law: Law, way: &'static str) {
        let ends = (self.node(from), Some(self.outside));
        self.join(ends, law, (way, false));
    }

    /// A store at a port.
    pub fn store(&mut self, port: &str, store: Store) {
        let Some(node) = self.node(port) else {
            return;
        };
        let part = self.part;
        let mut stores = self.network.stores.iter_mut();
        let stood = stores.find(|(at, owner, _)| self.again && (*at, *owner) == (node, part));
        match stood {
            Some((.., old)) => *old = store,
            None => self.network.stores.push((node, part, store)),
        }
    }

    /// Holds the node of a port at a pressure (Pa), falling with a time constant (s) if it has one.
    pub fn pin(&mut self, port: &str, pressure: f64, run_down: Option<f64>) {
        let Some(node) = self.node(port) else {
            return;
        };
        match self.network.pins[node] {
            // A part may hold several ports on one net.
            Some(pin) if pin.account != self.part => {
                self.clash.get_or_insert((node, pin.account, self.part));
            }
            _ => {
                self.network.pins[node] = Some(Pin {
                    pressure,
                    run_down,
                    account: self.part,
                });
            }
        }
    }
}
