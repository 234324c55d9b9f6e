//! The aircraft of one job: played as it was parked, and as it stands in the state of a check.

use std::cell::{OnceCell, RefCell};
use std::collections::HashMap;
use std::rc::Rc;
use std::sync::{Arc, Mutex};

use stillwheel::diagnosis::agreement::readings::switches;
use stillwheel::diagnosis::model::Model;
use stillwheel::plant::aircraft::Aircraft;
use stillwheel::plant::error::PlantError;
use stillwheel::plant::handle::{Change, Handle};
use stillwheel::plant::observe::{Observed, Rounds};
use stillwheel::plant::parking::Parking;

use super::draw::{Chances, Parked, Random, number_of};

/// Hours after which an aircraft that still stands is drawn anew.
const PATIENCE: f64 = 72.0;
/// Part of a healthy aircraft's hours within which a fault must have let it go: invented.
const SOONER: f64 = 0.8;
/// How often severity and weather are drawn anew.
const ATTEMPTS: u64 = 8;

/// Causes with which the brake holds, or was off on chocks: what moved it came from outside.
const FROM_OUTSIDE: [&str; 5] = ["slid", "chock-slipped", "thrust", "pushed", "blown"];

/// What all jobs share.
pub struct Yard {
    pub model: Arc<Model>,
    pub aircraft: Arc<Aircraft>,
    known: Mutex<HashMap<String, Option<Observed>>>,
}

impl Yard {
    pub fn new(model: Arc<Model>) -> Self {
        let aircraft = Arc::clone(model.aircraft.as_ref().expect("the demo aircraft"));
        Self {
            model,
            aircraft,
            known: Mutex::default(),
        }
    }
}

/// The aircraft as somebody found it.
pub struct Found {
    /// As the pumps stopped.
    begin: Handle,
    /// As found.
    plant: Handle,
    /// Hours until it moved by itself.
    pub moved: Option<f64>,
    /// Hours until it was found.
    pub hours: f64,
}

/// How the lever fared.
enum Lever {
    Up,
    Down,
    /// Let down after these hours.
    LetDown(f64),
}

/// Positions of switches, by name.
type Switches = Vec<(String, String)>;

/// One job and its aircraft.
pub struct Visit<'a> {
    pub yard: &'a Yard,
    pub parked: Parked,
    pub found: Found,
    /// Draws of severity and weather with which it did not move.
    pub still: u64,
    made: RefCell<HashMap<Switches, Rc<Rounds>>>,
    healthy: OnceCell<Handle>,
}

impl<'a> Visit<'a> {
    /// Draws a job. Severity and weather are drawn anew while the aircraft would not have moved
    /// with them, or hardly sooner than a healthy one: the report says that it moved, and the
    /// hidden cause is to be the reason.
    pub fn draw(yard: &'a Yard, chances: &Chances, key: [u64; 2]) -> Self {
        let mut parked = Parked::draw(&yard.model, chances, key);
        let mut still = 0;
        let found = loop {
            let found = find(yard, &parked).expect("the plant plays every parking");
            let by_itself = moves_by_itself(&yard.model, &parked);
            if !by_itself
                || found
                    .moved
                    .is_some_and(|hours| in_time(yard, &parked, hours))
            {
                break found;
            }
            if still == ATTEMPTS {
                break found;
            }
            still += 1;
            parked.weather(still);
        };
        Self {
            yard,
            parked,
            found,
            still,
            made: RefCell::default(),
            healthy: OnceCell::new(),
        }
    }

    /// A reading of the aircraft as found, with battery on or lever put up where that is needed.
    pub fn as_found(&self, name: &str, battery: bool, lever: bool) -> Option<Observed> {
        let read = || -> Result<Option<Observed>, PlantError> {
            let mut plant = self.found.plant.clone();
            if battery {
                switch(&mut plant, "battery", "connected-on")?;
                plant.step(5.0)?;
            }
            if lever && !plant.latched() {
                plant.set_park_brake()?;
            }
            let mut rounds = Rounds::standing(&plant);
            rounds.fresh = self.found.begin.clone();
            let dropped = rounds.fresh.latched() && !self.found.plant.latched();
            rounds.dropped = dropped.then_some(self.found.hours);
            rounds.observe_one(name)
        };
        read().expect("read")
    }

    /// A reading in the state into which a check brings the aircraft.
    pub fn made(&self, check: usize, name: &str) -> Option<Observed> {
        let state = switches(&self.yard.model, check);
        let faults = faults(self.yard, &self.parked);
        let key = format!("{faults:?} {} {state:?} {name}", self.parked.kelvin);
        if let Some(known) = self.yard.known.lock().expect("no panic").get(&key) {
            return known.clone();
        }
        let rounds = self.rounds(check);
        let observed = rounds.observe_one(name).expect("read");
        let mut known = self.yard.known.lock().expect("no panic");
        known.insert(key, observed.clone());
        observed
    }

    /// The same as a number.
    pub fn number(&self, check: usize, name: &str) -> Option<f64> {
        number(self.made(check, name))
    }

    /// A number that a healthy aircraft reads in the same state and weather.
    pub fn healthy_number(&self, check: usize, name: &str) -> Option<f64> {
        let mut parked = self.parked.clone();
        parked.events.fill(false);
        let healthy = Visit {
            yard: self.yard,
            parked,
            found: Found {
                begin: self.found.begin.clone(),
                plant: self.found.plant.clone(),
                ..self.found
            },
            still: 0,
            made: RefCell::default(),
            healthy: OnceCell::new(),
        };
        healthy.number(check, name)
    }

    /// The parking in the state of a check, played once a job.
    pub fn rounds(&self, check: usize) -> Rc<Rounds> {
        let state = switches(&self.yard.model, check);
        if let Some(rounds) = self.made.borrow().get(&state) {
            return Rc::clone(rounds);
        }
        let mut parking = Parking::usual();
        parking.switches.clone_from(&state);
        parking.changes = faults(self.yard, &self.parked);
        parking
            .changes
            .push(Change::Temperature(self.parked.kelvin));
        let rounds = Rounds::play(&self.yard.aircraft, &parking, None).expect("played");
        let rounds = Rc::new(rounds);
        self.made.borrow_mut().insert(state, Rc::clone(&rounds));
        rounds
    }

    /// Litres that a reservoir gained over the parking, more than a healthy aircraft's would.
    pub fn gain_litres(&self, reservoir: &str) -> f64 {
        let healthy = self.healthy.get_or_init(|| {
            let mut parking = Parking::usual();
            parking.changes = vec![
                Change::Temperature(self.parked.kelvin),
                Change::Slope(self.parked.slope),
            ];
            let mut plant = parking.begin(&self.yard.aircraft).expect("it begins");
            plant.step(self.found.hours * 3600.0).expect("played");
            plant
        });
        let gained = |plant: &Handle| {
            let balance = plant.balance();
            let mut rows = balance.reservoirs.iter();
            rows.find(|(name, _)| name == reservoir)
                .map_or(0.0, |(_, gained)| gained * 1e3)
        };
        gained(&self.found.plant) - gained(healthy)
    }
}

pub fn number(observed: Option<Observed>) -> Option<f64> {
    use stillwheel::plant::observe::Reading::Number;
    match observed?.reading {
        Number(number) => Some(number),
        _ => None,
    }
}

fn switch(plant: &mut Handle, switch: &str, position: &str) -> Result<(), PlantError> {
    plant.set(&Change::Switch(switch.to_owned(), position.to_owned()))
}

/// Whether the hidden causes let it roll without help.
fn moves_by_itself(model: &Model, parked: &Parked) -> bool {
    let outside = FROM_OUTSIDE.iter().any(|id| parked.acts(model, id));
    !outside && !parked.acts.is_empty()
}

/// Whether it moved clearly sooner than a healthy one would, where a fault is to be the reason.
fn in_time(yard: &Yard, parked: &Parked, hours: f64) -> bool {
    let mut causes = parked.acts.iter().map(|at| &yard.model.causes[*at]);
    if !causes.all(|cause| cause.fault.is_some()) {
        return true;
    }
    let mut parking = Parking::usual();
    parking.changes = vec![
        Change::Temperature(parked.kelvin),
        Change::Slope(parked.slope),
    ];
    let healthy = parking
        .begin(&yard.aircraft)
        .and_then(|mut plant| plant.hold(0.0, PATIENCE));
    let healthy = healthy.expect("played").hours_to_creep;
    hours < SOONER * healthy.unwrap_or(PATIENCE)
}

/// The faults that stay in the aircraft while it is worked on.
fn faults(yard: &Yard, parked: &Parked) -> Vec<Change> {
    let model = &yard.model;
    let part = |role: &str| {
        let part = yard.aircraft.part_for(role);
        part.map(|part| part.id.clone()).expect("a bound role")
    };
    let fault = |role: &str, fault: &str, severity: f64| {
        Change::Fault(part(role), fault.to_owned(), severity)
    };
    let mut changes = Vec::new();
    for event in (0..parked.events.len()).filter(|at| parked.events[*at]) {
        let severity = parked.severity[event];
        let cause = &model.causes[event];
        changes.extend(match (&cause.fault, cause.id.as_str()) {
            (Some((role, name)), _) => Some(fault(role, name, severity)),
            // A split hose empties like a very leaky seal of the same brake: invented.
            (None, "hose-split") => Some(fault("wet-brake", "seal-leak", 10.0 * severity)),
            // A pin holds the quadrant where it should not stand.
            (None, "rig-pin-left-in") => Some(fault("quadrant", "out-of-rig", 1.0)),
            (None, "gas-added-over-fluid") => Some(fault("accumulator", "overcharged", severity)),
            _ => None,
        });
    }
    changes
}

/// How it was parked, and how it was found.
fn find(yard: &Yard, parked: &Parked) -> Result<Found, PlantError> {
    let model = &yard.model;
    let mut random = Random::of(&[parked.key[0], parked.key[1], number_of("story")]);
    let acts = |ids: &[&str]| ids.iter().any(|id| parked.acts(model, id));
    let mut parking = Parking::usual();
    parking.changes = faults(yard, parked);
    parking.changes.push(Change::Temperature(parked.kelvin));
    parking.changes.push(Change::Slope(parked.slope));
    let unfed = [
        "set-with-nothing-feeding",
        "set-before-pumps-ran",
        "set-on-the-wrong-supply",
    ];
    if acts(&unfed) {
        parking.charge = Some(0.0);
    } else if acts(&["set-on-part-empty-store", "store-used-up"]) {
        parking.charge = Some(random.between(80e5, 110e5));
    }
    let cut_off = acts(&["set-with-battery-disconnected"]);
    if cut_off {
        let battery = ("battery".to_owned(), "disconnected".to_owned());
        parking.switches.push(battery);
    }
    let half = acts(&["part-set", "mat-under-pedals"]);
    let short_of_latch = half && random.chance(0.5);
    if half && !short_of_latch {
        // Up on half-pressed pedals: both commands fall short, as with a quadrant out of rig.
        let quadrant = yard.aircraft.part_for("quadrant").expect("a bound role");
        let short = random.between(1.0, 1.2);
        let short = Change::Fault(quadrant.id.clone(), "out-of-rig".to_owned(), short);
        parking.changes.push(short);
    }
    let share = random.between(0.1, 0.9);
    let lever = if short_of_latch || acts(&["never-set", "chock-slipped"]) {
        Lever::Down
    } else if acts(&[
        "let-go-by-a-person",
        "other-seat-over-pressed",
        "tow-crew-did-not-reset",
    ]) {
        Lever::LetDown(share * parked.hours)
    } else {
        Lever::Up
    };
    if matches!(lever, Lever::Down) {
        let down = ("lever".to_owned(), "down".to_owned());
        parking.switches.push(down);
    }
    let begin = parking.begin(&yard.aircraft)?;
    let mut plant = begin.clone();
    let mut moved = None;
    if let Lever::LetDown(hours) = lever {
        moved = plant.hold(hours, hours)?.hours_to_creep;
        plant.release_park_brake()?;
    }
    let gone = plant.hours();
    let rest = (parked.hours - gone).max(0.1);
    let horizon = if moves_by_itself(model, parked) {
        PATIENCE
    } else {
        rest
    };
    let hold = plant.hold(rest, horizon)?;
    moved = moved.or(hold.hours_to_creep.map(|hours| hours + gone));
    if cut_off {
        // By morning the battery is back.
        switch(&mut plant, "battery", "connected-off")?;
        plant.step(10.0)?;
    }
    let hours = plant.hours();
    if parked.acts.is_empty() || FROM_OUTSIDE.iter().any(|id| parked.acts(model, id)) {
        // What pushed it, or what nobody has a name for, came at some time of the parking.
        moved = Some(share * hours);
    }
    Ok(Found {
        begin,
        plant,
        moved,
        hours,
    })
}
