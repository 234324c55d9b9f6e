//! The list of part kinds. A new kind is one file here and one row in the list.

use super::kind::Kind;

pub mod accumulator;
pub mod anti_skid_module;
pub mod battery_switch;
pub mod brake;
pub mod breaker;
pub mod charging_valve;
pub mod check_valve;
pub mod display_caption;
pub mod hot_bus;
pub mod indicator;
pub mod indicator_light;
pub mod isolation_valve;
pub mod latch_switch;
pub mod limit_switches;
pub mod metering_valve;
pub mod park_lever;
pub mod pawl_latch;
pub mod pedals;
pub mod pump;
pub mod relay;
pub mod reservoir;
pub mod shut_off_valve;
pub mod transmitter;
pub mod valve_motor;

/// Every kind of part, in the order of the chain from pedal to brake.
pub const KINDS: &[&Kind] = &[
    &pedals::KIND,
    &park_lever::KIND,
    &pawl_latch::KIND,
    &latch_switch::KIND,
    &hot_bus::KIND,
    &battery_switch::KIND,
    &breaker::KIND,
    &shut_off_valve::KIND,
    &valve_motor::KIND,
    &limit_switches::KIND,
    &relay::KIND,
    &indicator_light::KIND,
    &display_caption::KIND,
    &pump::KIND,
    &reservoir::KIND,
    &check_valve::KIND,
    &isolation_valve::KIND,
    &accumulator::KIND,
    &charging_valve::KIND,
    &transmitter::KIND,
    &indicator::KIND,
    &metering_valve::KIND,
    &anti_skid_module::KIND,
    &brake::KIND,
];
