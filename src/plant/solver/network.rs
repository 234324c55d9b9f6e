//! Nodes with one pressure each, and what joins and fills them.

use super::law::Law;
use super::store::Store;

/// A node held at a pressure from outside: a running or dying pump, a reservoir, the open air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pin {
    /// Gauge pressure at the beginning of the step, Pa.
    pub pressure: f64,
    /// Time constant of its fall, s; `None` for a steady pressure.
    pub run_down: Option<f64>,
    /// The part whose account what arrives here goes to.
    pub account: usize,
}

impl Pin {
    /// Pressure some seconds into the step, Pa.
    pub fn at(&self, seconds: f64) -> f64 {
        match self.run_down {
            Some(tau) if tau > 0.0 => self.pressure * (-seconds / tau).exp(),
            Some(_) => 0.0,
            None => self.pressure,
        }
    }
}

/// What joins two nodes, and the part it belongs to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Element {
    /// First node.
    pub from: usize,
    /// Second node.
    pub to: usize,
    /// Its law.
    pub law: Law,
    /// The part it belongs to.
    pub part: usize,
    /// What it is, in words: `seat`, `supply to brake`.
    pub way: &'static str,
    /// Whether it is there to pass fluid on, and not a leak or a return.
    pub serves: bool,
}

/// A network at one moment.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Network {
    /// For each node the pin that holds it, if any.
    pub pins: Vec<Option<Pin>>,
    /// What joins the nodes.
    pub elements: Vec<Element>,
    /// Stores with their nodes and parts.
    pub stores: Vec<(usize, usize, Store)>,
}

impl Network {
    /// The number of nodes.
    pub fn len(&self) -> usize {
        self.pins.len()
    }

    /// Whether there is no node.
    pub fn is_empty(&self) -> bool {
        self.pins.is_empty()
    }
}
