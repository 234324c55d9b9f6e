//! The list of part kinds. A new kind is one file here and one row in the list.

use super::kind::Kind;

pub mod accumulator;
pub mod anti_skid_controller;
pub mod anti_skid_module;
pub mod battery_switch;
pub mod bell_crank;
pub mod bleed_port;
pub mod brake;
pub mod breaker;
pub mod cable_run;
pub mod charging_valve;
pub mod check_valve;
pub mod cross_rod;
pub mod display_caption;
pub mod external_power;
pub mod hot_bus;
pub mod indicator;
pub mod indicator_light;
pub mod isolation_valve;
pub mod latch_switch;
pub mod limit_switches;
pub mod line;
pub mod metering_valve;
pub mod park_lever;
pub mod pawl_latch;
pub mod pedals;
pub mod pressure_switch;
pub mod pump;
pub mod quadrant;
pub mod relay;
pub mod relief_valve;
pub mod reservoir;
pub mod shut_off_valve;
pub mod shuttle_valve;
pub mod supply_changer;
pub mod transmitter;
pub mod valve_motor;
pub mod wheels;
pub mod wire;

/// Every kind of part, in the order of the chain from pedal to brake.
pub const KINDS: &[&Kind] = &[
    &pedals::KIND,
    &cross_rod::KIND,
    &bell_crank::KIND,
    &cable_run::KIND,
    &quadrant::KIND,
    &park_lever::KIND,
    &pawl_latch::KIND,
    &latch_switch::KIND,
    &hot_bus::KIND,
    &battery_switch::KIND,
    &external_power::KIND,
    &breaker::KIND,
    &wire::KIND,
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
    &relief_valve::KIND,
    &metering_valve::KIND,
    &anti_skid_module::KIND,
    &anti_skid_controller::KIND,
    &shuttle_valve::KIND,
    &supply_changer::KIND,
    &brake::KIND,
    &wheels::KIND,
    &line::KIND,
    &bleed_port::KIND,
    &pressure_switch::KIND,
];
