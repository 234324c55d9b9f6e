//! What a kind of part does: drive its nets, stamp itself into the hydraulic network, remember.

use std::fmt::Debug;

use super::levels::Drive;
use super::memory::Memory;
use super::stamp::Stamp;
use super::view::View;

/// The behaviour of one kind. Every method has a default of "nothing".
pub trait Behaviour: Debug + Sync {
    /// What the part remembers before anything happened.
    fn begin(&self, _part: &View<'_>, _memory: &mut Memory) {}

    /// What changes in the memory when a fault goes in or out while the plant runs.
    fn refit(&self, _part: &View<'_>, _memory: &mut Memory) {}

    /// What the part puts on its mechanical, electrical, signal and gas nets.
    fn drive(&self, _part: &View<'_>, _drive: &mut Drive<'_>) {}

    /// What the part is in the hydraulic network.
    fn stamp(&self, _part: &View<'_>, _stamp: &mut Stamp<'_>) {}

    /// Whether the part does nothing but stand in the hydraulic network. Nothing that drives,
    /// remembers or works in several ways is asked of such a part, and most parts are such.
    fn only_stamps(&self) -> bool {
        false
    }

    /// Whether what the part stamps changes with every step: a pressure that runs down, gas. What
    /// all others stamp changes with their mode, their position and the travel at their ports
    /// alone. Such a part puts at most one store on a net.
    fn stamps_every_step(&self) -> bool {
        false
    }

    /// Ports that the part holds at a pressure of its own, whatever flows there; it pins these and
    /// no others.
    fn holds(&self) -> &'static [&'static str] {
        &[]
    }

    /// What the part remembers after some seconds; the view holds the pressures at their end.
    fn advance(&self, _part: &View<'_>, _memory: &mut Memory, _seconds: f64) {}

    /// Seconds until the part changes by itself; a step ends there.
    fn alarm(&self, _part: &View<'_>) -> Option<f64> {
        None
    }

    /// In which of its ways of working the part is; a step is shortened until it holds one change.
    fn mode(&self, _part: &View<'_>) -> u8 {
        0
    }
}

/// A kind that does nothing of its own.
#[derive(Debug)]
pub struct Passive;

impl Behaviour for Passive {
    fn only_stamps(&self) -> bool {
        true
    }
}
