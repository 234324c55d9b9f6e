//! What a cause does inside the aircraft: the plant with it, beside the healthy one.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

use super::agreement::fault_of;
use super::evidence::Evidence;
use super::model::Model;
use super::played_times::Typed;
use super::time_to_movement::{LONGEST, SLOPES};
use crate::plant::aircraft::Aircraft;
use crate::plant::error::PlantError;
use crate::plant::handle::{BEYOND, Change, Handle, Passing};
use crate::plant::kind::PortType;

/// Moments at which both are looked at, h: the first at which something differs counts. A leak is
/// seen best at the first.
const MOMENTS: [f64; 4] = [1.0 / 30.0, 0.5, 2.0, 8.0];
/// Hours after the pumps stopped at which the store and the brakes are compared, at the earliest.
const LATER: f64 = 0.5;
/// What differs by less is the same: Pa, V, and a share of travel or signal.
const SAME: (f64, f64, f64) = (3e5, 1.0, 0.05);
/// Gas pressures that differ by more move the signal of the transmitter, Pa.
const FOLLOWS: f64 = 0.2e5;
/// Flows that differ by less than this share are the same.
const SAME_SHARE: f64 = 0.1;

/// Something that stands differently.
#[derive(Debug, Clone, PartialEq)]
pub struct Beside {
    /// The place of its net.
    pub net: usize,
    /// What it carries.
    pub carries: PortType,
    /// On a healthy aircraft: Pa gauge, V, or 0 to 1.
    pub healthy: f64,
    /// With the cause.
    pub with: f64,
}

/// A way through a part on which another amount goes.
#[derive(Debug, Clone, PartialEq)]
pub struct Way {
    /// The place of the part.
    pub part: usize,
    /// The way, in words.
    pub way: &'static str,
    /// Whether it is there to pass fluid on, and not a leak or a return.
    pub serves: bool,
    /// Whether it leads into the open.
    pub overboard: bool,
    /// m3/s on a healthy aircraft, in the direction in which it goes with the cause.
    pub healthy: f64,
    /// m3/s with the cause.
    pub with: f64,
    /// Gauge pressures before and behind it with the cause, Pa.
    pub pressures: (f64, f64),
}

/// Store and brakes at one moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Held {
    /// Hours since the pumps stopped.
    pub hours: f64,
    /// Gas of the store, Pa gauge.
    pub gas: Option<f64>,
    /// Mass of that gas, kg.
    pub gas_mass: Option<f64>,
    /// The lowest of the brakes, Pa gauge.
    pub brake: Option<f64>,
}

/// How long one of the two lasts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lasts {
    /// Hours to movement; `None` where it stood until the search ended.
    pub to_movement: Option<f64>,
    /// Hours until no fluid is left in the store.
    pub to_empty: Option<f64>,
    /// The lowest brake at the moment it moved, Pa gauge.
    pub brake_then: Option<f64>,
}

/// What a cause does, beside a healthy aircraft.
#[derive(Debug, Clone, PartialEq)]
pub struct Mechanism {
    /// Hours at which both were first seen to differ; `None` where they never did.
    pub hours: Option<f64>,
    /// Volts, travel and signals that differ, in the order of the document.
    pub signals: Vec<Beside>,
    /// Ways that carry another amount, the largest difference first.
    pub ways: Vec<Way>,
    /// Store and brakes at the beginning: healthy, with the cause.
    pub first: (Held, Held),
    /// The same later.
    pub later: (Held, Held),
    /// How long they last: healthy, with the cause.
    pub lasts: (Lasts, Lasts),
    /// In-limit leaks of the healthy aircraft, the largest first.
    pub leaks: Vec<Way>,
    /// Rise over run on which they last so long.
    pub slope: f64,
}

/// What was played: each cause under the same facts once.
#[derive(Debug, Default)]
pub struct Mechanisms(Mutex<BTreeMap<Key, Option<Arc<Mechanism>>>>);

type Key = (Option<usize>, [Option<u64>; 6]);

impl Mechanisms {
    /// What an event does under what is known of the parking; without an event a healthy aircraft
    /// beside itself. `None` where the event puts no fault in, or the plant refuses it.
    pub fn of(
        &self,
        model: &Model,
        evidence: &Evidence,
        event: Option<usize>,
    ) -> Option<Arc<Mechanism>> {
        let aircraft = model.aircraft.as_ref()?;
        let fault = match event {
            Some(event) => Some(fault_of(model, event)?),
            None => None,
        };
        let typed = Typed::of(model, evidence);
        // A panic elsewhere leaves at most a result that was not kept.
        let mut known = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let one = known
            .entry((event, typed.key()))
            .or_insert_with(|| mechanism(aircraft, &typed, fault).ok().map(Arc::new));
        one.clone()
    }
}

fn mechanism(
    aircraft: &Arc<Aircraft>,
    typed: &Typed,
    fault: Option<(&str, &str)>,
) -> Result<Mechanism, PlantError> {
    let slope = typed.slope.unwrap_or(SLOPES[0]);
    let begin = |fault: Option<(&str, &str)>| {
        let mut parking = typed.parking(1.0, slope);
        parking.changes.extend(
            fault.map(|(part, fault)| Change::Fault(part.to_owned(), fault.to_owned(), 1.0)),
        );
        parking.begin(aircraft)
    };
    let (healthy, with) = (begin(None)?, begin(fault)?);
    let lasts = (lasts(healthy.clone())?, lasts(with.clone())?);
    let first = (held(&healthy), held(&with));
    let (mut a, mut b) = (healthy, with);
    let (mut hours, mut signals, mut ways) = (None, Vec::new(), Vec::new());
    for moment in MOMENTS {
        a.step((moment - a.hours()) * 3600.0)?;
        b.step((moment - b.hours()) * 3600.0)?;
        signals = signals_beside(&a, &b);
        ways = ways_beside(&a, &b);
        if !signals.is_empty() || !ways.is_empty() || differ(&held(&a), &held(&b)) {
            hours = Some(moment);
            break;
        }
    }
    let later = (LATER - a.hours()).max(0.0) * 3600.0;
    a.step(later)?;
    b.step(later)?;
    Ok(Mechanism {
        hours,
        signals,
        ways,
        first,
        later: (held(&a), held(&b)),
        lasts,
        // By then what the other supply had left in its lines is gone.
        leaks: lost(&a),
        slope,
    })
}

fn lasts(mut plant: Handle) -> Result<Lasts, PlantError> {
    let hold = plant.hold(0.0, LONGEST)?;
    Ok(Lasts {
        to_movement: hold.hours_to_creep,
        to_empty: hold.hours_to_bottom,
        brake_then: hold.hours_to_creep.and(held(&plant).brake),
    })
}

fn held(plant: &Handle) -> Held {
    let sample = plant.sample();
    let brakes = sample.brakes.iter().map(|(_, pressure)| *pressure);
    Held {
        hours: plant.hours(),
        gas: sample.gas,
        gas_mass: plant.gas_mass(),
        brake: brakes.reduce(f64::min),
    }
}

/// Whether store or brakes stand differently.
fn differ(one: &Held, other: &Held) -> bool {
    !is_same(one.gas, other.gas, SAME.0) || !is_same(one.brake, other.brake, SAME.0)
}

fn is_same(one: Option<f64>, other: Option<f64>, within: f64) -> bool {
    match one.zip(other) {
        Some((one, other)) => (one - other).abs() <= within,
        None => one.is_none() && other.is_none(),
    }
}

/// Volts, travel and signals that differ; a signal that only follows the gas says nothing.
fn signals_beside(healthy: &Handle, with: &Handle) -> Vec<Beside> {
    let follows = !is_same(held(healthy).gas, held(with).gas, FOLLOWS);
    let on = |level: f64| level > 0.5;
    let nets = healthy.aircraft().graph.nets().iter().enumerate();
    let beside = nets.filter_map(|(net, joined)| {
        let same = match joined.port_type {
            PortType::Electrical => SAME.1,
            PortType::Mechanical | PortType::Signal => SAME.2,
            PortType::Hydraulic | PortType::Gas => return None,
        };
        let (a, b) = (healthy.level_of_net(net), with.level_of_net(net));
        if joined.port_type == PortType::Signal && on(a) == on(b) && follows {
            return None;
        }
        ((a - b).abs() > same).then_some(Beside {
            net,
            carries: joined.port_type,
            healthy: a,
            with: b,
        })
    });
    beside.collect()
}

/// Ways that carry another amount: leaks and returns first, what only passes it on after them.
fn ways_beside(healthy: &Handle, with: &Handle) -> Vec<Way> {
    let theirs = healthy.flows();
    let flows = with.flows();
    let mut ways: Vec<Way> = flows
        .iter()
        .filter_map(|passing| {
            let same = theirs.iter().find(|their| their.is_same_way(passing));
            let way = way_of(with, passing, same.map_or(0.0, |their| their.flow));
            let apart = (way.with - way.healthy).abs();
            let differs = apart > BEYOND && apart > SAME_SHARE * way.healthy.abs();
            differs.then_some(way)
        })
        .collect();
    let apart = |way: &Way| (way.with - way.healthy).abs();
    ways.sort_by(|a, b| {
        let larger = apart(b).total_cmp(&apart(a));
        a.serves.cmp(&b.serves).then(larger)
    });
    ways
}

/// A flow in the direction in which it goes.
fn way_of(plant: &Handle, passing: &Passing, healthy: f64) -> Way {
    let back = passing.flow < 0.0;
    let sign = if back { -1.0 } else { 1.0 };
    let (from, to) = passing.pressures;
    let ends = passing.ends;
    Way {
        part: passing.part,
        way: passing.way,
        serves: passing.serves,
        overboard: plant.is_outside(if back { ends.0 } else { ends.1 }),
        healthy: sign * healthy,
        with: sign * passing.flow,
        pressures: if back { (to, from) } else { (from, to) },
    }
}

/// What leaves a healthy aircraft where fluid should stay: leaks and returns, the largest first.
fn lost(healthy: &Handle) -> Vec<Way> {
    let flows = healthy.flows();
    let leaks = flows.iter().filter(|passing| !passing.serves);
    let mut leaks: Vec<Way> = leaks.map(|p| way_of(healthy, p, p.flow)).collect();
    leaks.retain(|way| way.with > BEYOND / 10.0);
    leaks.sort_by(|a, b| b.with.total_cmp(&a.with));
    leaks
}
