//! A part as its behaviour sees it at one moment.

use super::aircraft::Fluid;
use super::kind::Kind;
use super::levels::Levels;
use super::memory::Memory;
use super::setting::PartNow;

/// One part, its settings, its memory, and what stands on its nets.
#[derive(Debug, Clone, Copy)]
pub struct View<'a> {
    /// Its kind.
    pub kind: &'static Kind,
    /// Parameters, faults and hand positions as they are now.
    pub now: &'a PartNow,
    /// What it remembers.
    pub memory: &'a Memory,
    /// Nets of its ports.
    pub nets: &'a [Option<usize>],
    /// Hydraulic node of each net.
    pub nodes: &'a [Option<usize>],
    /// What stands on the other nets.
    pub levels: &'a Levels,
    /// Gauge pressure of every hydraulic node, Pa.
    pub pressures: &'a [f64],
    /// The fluid of the aircraft.
    pub fluid: &'a Fluid,
    /// Temperature of fluid and gas, K.
    pub temperature: f64,
}

impl View<'_> {
    fn net(&self, port: &str) -> Option<usize> {
        let at = self.kind.ports.iter().position(|spec| spec.name == port)?;
        self.nets.get(at).copied().flatten()
    }

    /// Whether a port is joined to anything.
    pub fn joined(&self, port: &str) -> bool {
        self.net(port).is_some()
    }

    /// What stands on the net of a port; 0 on an open one.
    pub fn level(&self, port: &str) -> f64 {
        self.net(port)
            .and_then(|net| self.levels.value.get(net))
            .copied()
            .unwrap_or(0.0)
    }

    /// Whether enough volts stand on the net of a port for a relay or a motor.
    pub fn live(&self, port: &str) -> bool {
        self.level(port) >= PULL_IN
    }

    /// Where something on the net of a port is jammed.
    pub fn jammed(&self, port: &str) -> Option<f64> {
        self.net(port)
            .and_then(|net| self.levels.jammed.get(net))
            .copied()
            .flatten()
    }

    /// Share of gas lost per second on the net of a port.
    pub fn loss(&self, port: &str) -> f64 {
        self.net(port)
            .and_then(|net| self.levels.loss.get(net))
            .copied()
            .unwrap_or(0.0)
    }

    /// Hydraulic node of a port.
    pub fn node(&self, port: &str) -> Option<usize> {
        let net = self.net(port)?;
        self.nodes.get(net).copied().flatten()
    }

    /// Gauge pressure at a hydraulic port, Pa; 0 at an open one.
    pub fn pressure(&self, port: &str) -> f64 {
        self.node(port)
            .and_then(|node| self.pressures.get(node))
            .copied()
            .unwrap_or(0.0)
    }

    /// A parameter in SI units.
    pub fn value(&self, name: &str) -> f64 {
        self.now.value(self.kind, name)
    }

    /// The temperature a parameter is stated at, K.
    pub fn stated_at(&self, name: &str) -> f64 {
        self.now.stated_at(self.kind, name)
    }

    /// Whether a fault is in.
    pub fn has(&self, fault: &str) -> bool {
        self.now.severity(fault) > 0.0
    }

    /// The position a hand left it in.
    pub fn hand(&self) -> &'static str {
        let hand = self.kind.hand.as_ref();
        hand.and_then(|hand| hand.positions.get(self.now.hand))
            .copied()
            .unwrap_or("")
    }
}

/// Volts below which relays drop out and motors stand: 16 V, from memory.
const PULL_IN: f64 = 16.0;
