//! An aircraft as its document describes it.

use super::graph::PartGraph;
use super::kind::Kind;
use super::procedure::{Access, Action};
use super::state::{Needs, Setting, State, Switch};
use crate::base::physical::{Mass, Rate};
use crate::base::quantity::Quantity;

/// A whole aircraft.
#[derive(Debug, Clone)]
pub struct Aircraft {
    /// Name in commands and trees.
    pub id: String,
    /// Name as people read it.
    pub title: String,
    /// What a reader should know first.
    pub note: String,
    /// Mass as parked.
    pub mass: Option<Mass>,
    /// The fluid.
    pub fluid: Option<Fluid>,
    /// Where it stands unless somebody says otherwise.
    pub environment: Environment,
    /// What can be switched.
    pub switches: Vec<Switch>,
    /// The state a job starts in.
    pub as_found: State,
    /// What changes a state.
    pub actions: Vec<Action>,
    /// Set-ups that checks share.
    pub accesses: Vec<Access>,
    /// The parts.
    pub parts: Vec<Part>,
    /// How the parts are joined.
    pub graph: PartGraph,
    /// Roles that trees ask for, each with the place of the part that plays it.
    pub roles: Vec<(String, usize)>,
}

/// The hydraulic fluid.
#[derive(Debug, Clone, PartialEq)]
pub struct Fluid {
    /// Density at 15 C, kg/m3.
    pub density: f64,
    /// Thermal expansion, per kelvin.
    pub expansion: f64,
    /// Stiffness, Pa.
    pub bulk_modulus: f64,
    /// Two points of kinematic viscosity: kelvin and m2/s.
    pub viscosity: [(f64, f64); 2],
}

/// Where the aircraft stands.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Environment {
    /// Air temperature.
    pub temperature: Option<Quantity>,
    /// Slope along the aircraft.
    pub slope: Option<Quantity>,
    /// Wind along the aircraft.
    pub wind: Option<Quantity>,
}

/// One part.
#[derive(Debug, Clone)]
pub struct Part {
    /// Its name.
    pub id: String,
    /// Its kind.
    pub kind: &'static Kind,
    /// What it is called.
    pub title: String,
    /// Column and row on the grid of the schematic.
    pub at: Option<(u32, u32)>,
    /// Parameters: the document's, and the kind's own where it says nothing.
    pub parameters: Vec<(&'static str, Parameter)>,
    /// What can be wrong with it.
    pub faults: Vec<Fault>,
}

/// The value of a parameter.
#[derive(Debug, Clone, PartialEq)]
pub enum Parameter {
    /// A quantity.
    Quantity(Quantity),
    /// A quantity that holds at a temperature: `76 bar at 20 C`.
    At(Quantity, Quantity),
    /// A plain number.
    Number(f64),
    /// One of the words the kind accepts.
    Word(String),
}

/// A way in which a part can be wrong.
#[derive(Debug, Clone)]
pub struct Fault {
    /// Its name, one of the fault names of the part's kind.
    pub id: String,
    /// What is wrong, as a technician would say it.
    pub title: String,
    /// How often.
    pub rate: Rate,
    /// How bad; 1 is the usual case.
    pub severity: f64,
    /// Parameters it overrides.
    pub overrides: Vec<(&'static str, Parameter)>,
    /// Where the rate comes from.
    pub source: Option<String>,
}

impl Aircraft {
    /// The part that plays a role: the bound one, or the part of that name.
    pub fn part_for(&self, role: &str) -> Option<&Part> {
        let bound = self.roles.iter().find(|(name, _)| name == role);
        match bound {
            Some((_, index)) => self.parts.get(*index),
            None => self.parts.iter().find(|part| part.id == role),
        }
    }

    /// The place of a switch and of one of its positions.
    pub fn setting(&self, switch: &str, position: &str) -> Option<Setting> {
        let index = self.switches.iter().position(|s| s.id == switch)?;
        let positions = &self.switches.get(index)?.positions;
        let position = positions.iter().position(|p| p == position)?;
        Some(Setting {
            switch: index,
            position,
        })
    }

    /// `battery connected-off, lever up`: what a state needs, in words.
    pub fn needs_in_words(&self, needs: &Needs) -> Vec<String> {
        let describe = |(switch, positions): &(usize, Vec<usize>)| {
            let switch = self.switches.get(*switch)?;
            let words: Vec<&str> = positions
                .iter()
                .filter_map(|p| switch.positions.get(*p).map(String::as_str))
                .collect();
            Some(format!("{} {}", switch.id, words.join(" or ")))
        };
        needs.0.iter().filter_map(describe).collect()
    }
}

impl Part {
    /// The fault with this name.
    pub fn fault(&self, id: &str) -> Option<&Fault> {
        self.faults.iter().find(|fault| fault.id == id)
    }
}
