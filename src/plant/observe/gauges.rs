//! Gauges that somebody watches while the store runs down.

use super::gas::{gauge_bar, indicator_bar};
use crate::base::unit::BAR;
use crate::plant::handle::Handle;

/// A gauge that can be watched.
#[derive(Debug)]
pub struct Gauge {
    /// Its name in job files and in what is typed.
    pub name: &'static str,
    /// What it is, in words.
    pub title: &'static str,
    /// The side it is on.
    pub side: Side,
    /// How far two readings of it may be apart where nothing changed, Pa: two standard deviations
    /// of their difference. Judgement; what it is off by itself goes out of a difference.
    pub apart: f64,
    /// Whether it shows the store itself, so that its fall tells a volume.
    pub of_store: bool,
    /// Whether it needs the battery.
    pub powered: bool,
    /// Observables that tell the same fall, so that both must not count.
    pub told_by: &'static [&'static str],
    read: fn(&Handle) -> Option<f64>,
}

/// The side of the piston.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Gas: it reads the precharge when no fluid is left.
    Gas,
    /// Fluid: it reads 0 when none is left.
    Fluid,
}

impl Side {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Gas => "gas side",
            Self::Fluid => "fluid side",
        }
    }
}

/// Every gauge that can be watched; the first is meant where none is named.
pub static GAUGES: [Gauge; 4] = [
    Gauge {
        name: "gas-gauge",
        title: "Direct gauge at the gas valve",
        side: Side::Gas,
        apart: 3.0 * BAR,
        of_store: true,
        powered: false,
        told_by: &["gas-at-30-min-bar", "gas-fall-30-to-60-min-bar"],
        read: |plant| gauge_bar(plant).map(|bar| bar * BAR),
    },
    Gauge {
        name: "indicator",
        title: "Flight-deck pressure indicator",
        side: Side::Gas,
        apart: 5.0 * BAR,
        of_store: true,
        powered: true,
        told_by: &["gas-at-30-min-bar", "gas-fall-30-to-60-min-bar"],
        read: |plant| indicator_bar(plant).map(|bar| bar * BAR),
    },
    Gauge {
        name: "store-fluid",
        title: "Test gauge on the fluid side of the store",
        side: Side::Fluid,
        apart: 3.0 * BAR,
        of_store: true,
        powered: false,
        told_by: &["gas-at-30-min-bar", "gas-fall-30-to-60-min-bar"],
        read: |plant| plant.sample().fluid,
    },
    Gauge {
        name: "brake",
        title: "Test gauge at the first brake",
        side: Side::Fluid,
        apart: 3.0 * BAR,
        of_store: false,
        powered: false,
        told_by: &[],
        read: |plant| plant.sample().brakes.first().map(|(_, pressure)| *pressure),
    },
];

impl Gauge {
    /// The place of a gauge by its name.
    pub fn find(name: &str) -> Option<usize> {
        GAUGES.iter().position(|gauge| gauge.name == name)
    }

    /// What it shows, Pa gauge; `None` where the aircraft has none, or it is dead.
    pub fn read(&self, plant: &Handle) -> Option<f64> {
        (self.read)(plant)
    }
}

impl Handle {
    /// Mass of the gas of the first store, kg.
    pub fn gas_mass(&self) -> Option<f64> {
        let store = self.parts_of("accumulator").next()?;
        Some(self.view(store).memory.gas?.mass)
    }

    /// Volume of the gas of the first store, m3.
    pub fn gas_volume(&self) -> Option<f64> {
        let store = self.parts_of("accumulator").next()?;
        Some(self.view(store).memory.gas?.volume)
    }
}
