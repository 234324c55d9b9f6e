//! What a part remembers from one moment to the next.

use super::physics::gas_charge::GasCharge;

/// The memory of one part. Each kind uses the fields that mean something for it.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Memory {
    /// How far a shaft, a ball or a lever is along its way: 0 open or down, 1 closed or up.
    pub position: f64,
    /// Whether a latch holds.
    pub engaged: bool,
    /// Seconds a latch has held, or a shuttle has stayed where it is.
    pub held_for: f64,
    /// Whether a shuttle has gone to its second side.
    pub second_side: bool,
    /// Pressure a pump still gives, Pa.
    pub pressure: f64,
    /// The gas of an accumulator.
    pub gas: Option<GasCharge>,
    /// Seconds a motor has run towards closed and towards open.
    pub ran: [f64; 2],
    /// Seconds a motor was powered against a stop, towards closed and towards open.
    pub stalled: [f64; 2],
    /// Reading an instrument sticks at, Pa.
    pub stuck_reading: Option<f64>,
}

impl Memory {
    /// Whether everything that moves stands where it stood in another memory.
    pub fn stands_like(&self, other: &Self) -> bool {
        self.position.to_bits() == other.position.to_bits()
            && self.engaged == other.engaged
            && self.second_side == other.second_side
    }
}
