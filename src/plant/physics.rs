//! Pure functions of physics, SI throughout. Never knows a part; each names its source.

pub mod brake_stack;
pub mod clearance;
pub mod gas_charge;
pub mod holding;
pub mod metering;
pub mod nitrogen;
pub mod orifice;
pub mod sizing;
pub mod viscosity;
