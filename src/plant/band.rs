//! The same parking on a tight aircraft, a mid-life one, and one at the worst in its limits.

use std::sync::Arc;

use super::aircraft::Aircraft;
use super::error::PlantError;
use super::handle::Change;
use super::hold::Hold;
use super::parking::Parking;

/// In-limit leaks of a tight aircraft over those of a mid-life one: invented.
pub const TIGHT: f64 = 0.6;
/// The same for the worst that is still in limits: invented.
pub const WORST: f64 = 1.35;

/// How far the search for the movement goes, h: five days.
pub const HORIZON: f64 = 120.0;

/// Hours to movement; `None` where it does not move within the horizon.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// With tight leaks.
    pub tight: Option<f64>,
    /// With mid-life leaks, as the document has them.
    pub mid_life: Option<f64>,
    /// With leaks at the worst in limits.
    pub worst: Option<f64>,
}

/// What a number of hours says about a parking without faults.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// A mid-life aircraft has moved by then.
    Explained,
    /// Only one with leaks between mid-life and the worst in limits has.
    OnlyWorn,
    /// Not even the worst in limits has.
    NotExplained,
    /// Nothing pushes hard enough, whatever the pressure.
    NothingPushes,
}

/// Plays a parking: the hours asked for with mid-life leaks, and the band about them.
pub fn play(
    aircraft: &Arc<Aircraft>,
    parking: &Parking,
    hours: f64,
) -> Result<(Hold, Band), PlantError> {
    let hold = parking.begin(aircraft)?.hold(hours, HORIZON)?;
    let with = |wear: f64| {
        let mut worn = parking.clone();
        // First, so that faults are put in on top of it.
        worn.changes.insert(0, Change::Wear(wear));
        let hold = worn.begin(aircraft)?.hold(0.0, HORIZON)?;
        Ok(hold.hours_to_creep)
    };
    let band = Band {
        tight: with(TIGHT)?,
        mid_life: hold.hours_to_creep,
        worst: with(WORST)?,
    };
    Ok((hold, band))
}

impl Band {
    /// What so many hours mean.
    pub fn verdict(&self, hours: f64) -> Verdict {
        let by = |time: Option<f64>| time.is_some_and(|time| time <= hours);
        if self.tight.is_none() && self.mid_life.is_none() && self.worst.is_none() {
            Verdict::NothingPushes
        } else if by(self.mid_life) {
            Verdict::Explained
        } else if by(self.worst) {
            Verdict::OnlyWorn
        } else {
            Verdict::NotExplained
        }
    }
}
