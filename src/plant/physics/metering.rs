//! Metering valve with feedback: the brake pressure works against the pedal.

/// Pressure over which the spool goes from shut to wide open, Pa: 3 bar, invented.
pub const BAND: f64 = 3e5;

/// Pedal travel lost before the spool moves, as a share of full travel: invented.
pub const DEAD_TRAVEL: f64 = 0.15;

/// Command in Pa for a travel at the spool (0 to 1) and the command of a full pedal in Pa.
pub fn command(travel: f64, full: f64) -> f64 {
    ((travel.min(1.0) - DEAD_TRAVEL) / (1.0 - DEAD_TRAVEL)).max(0.0) * full
}

/// How far a port is open (0 to 1), and how that changes with the excess, for an excess in Pa.
///
/// Source: the feedback chamber that balances pedal load is general practice (a patent of 1984
/// describes it); the linear spool is invented.
pub fn opening(excess: f64) -> (f64, f64) {
    if excess <= 0.0 {
        (0.0, 0.0)
    } else if excess >= BAND {
        (1.0, 0.0)
    } else {
        (excess / BAND, 1.0 / BAND)
    }
}
