//! What is drawn: parts with how they stand, pipes with what they carry.

use std::sync::Arc;

use super::codes::codes;
use crate::diagnosis::agreement::fault_of;
use crate::diagnosis::standing_of_parts::{Standing, standing_of_parts};
use crate::plant::aircraft::{Aircraft, Part};
use crate::plant::error::PlantError;
use crate::plant::handle::{Change, Handle, Leg};
use crate::plant::kind::PortType;
use crate::plant::parking::Parking;
use crate::session::job::{Job, Stage};

/// One of the two sheets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Sheet {
    /// Fluid and gas.
    #[default]
    Fluid,
    /// Volts, signals, and what is moved by hand.
    Signals,
}

impl Sheet {
    /// The other one.
    #[must_use]
    pub fn next(self) -> Self {
        match self {
            Self::Fluid => Self::Signals,
            Self::Signals => Self::Fluid,
        }
    }

    /// Its name.
    pub fn word(self) -> &'static str {
        match self {
            Self::Fluid => "Fluid and gas",
            Self::Signals => "Power, signals and linkage",
        }
    }

    fn shows(self, port: PortType) -> bool {
        let fluid = matches!(port, PortType::Hydraulic | PortType::Gas);
        fluid == (self == Self::Fluid)
    }
}

/// A part in the picture.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawn {
    /// Its place in the aircraft.
    pub place: usize,
    /// Its short name.
    pub code: String,
    /// Its title.
    pub title: String,
    /// Column and row of the grid.
    pub at: (u32, u32),
    /// How it stands.
    pub standing: Standing,
    /// Its most probable fault.
    pub likeliest: Option<(usize, f64)>,
}

/// A pipe, wire, rod or cable between two parts.
#[derive(Debug, Clone, PartialEq)]
pub struct Pipe {
    /// Grid places of its ends.
    pub from: (u32, u32),
    /// The other end.
    pub to: (u32, u32),
    /// Places of the parts at its ends.
    pub parts: (usize, usize),
    /// Whether it is a pipe.
    pub fluid: bool,
    /// Whether a healthy aircraft has pressure, volts or travel on it.
    pub live: bool,
    /// Whether the fault that is shown drains the store through it.
    pub drains: bool,
}

/// Everything that is drawn of one sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Scene {
    /// Columns of the grid.
    pub columns: usize,
    /// Rows of the grid.
    pub rows: usize,
    /// Parts, in the order of the document.
    pub parts: Vec<Drawn>,
    /// Pipes.
    pub pipes: Vec<Pipe>,
    /// The fault that is shown and the way on which it lets go what a healthy aircraft keeps;
    /// no way where it lets nothing go.
    pub drain: Option<(usize, Vec<Leg>)>,
}

/// Below this a net counts as empty: 5 bar, 1 V, or hardly any travel.
fn is_live(port: PortType, level: f64) -> bool {
    match port {
        PortType::Hydraulic | PortType::Gas => level > 5e5,
        PortType::Electrical => level > 1.0,
        PortType::Mechanical | PortType::Signal => level > 0.05,
    }
}

impl Scene {
    /// The scene of a job; `None` where its tree names no aircraft or the plant cannot be played.
    ///
    /// Pressures are those of a healthy aircraft half an hour after the pumps stopped, in the
    /// positions of switches that the job has reached.
    pub fn of(job: &Job, sheet: Sheet) -> Option<Self> {
        let aircraft = job.model().aircraft.as_ref()?;
        let healthy = played(job, aircraft, None, HALF_HOUR).ok()?;
        let (columns, rows) = size(aircraft);
        Some(Self {
            columns,
            rows,
            parts: drawn(job, aircraft, sheet),
            pipes: pipes(aircraft, sheet, &healthy),
            drain: None,
        })
    }

    /// The scene of a plant as it stands, with the parts that have a fault in them.
    pub fn standing(plant: &Handle, sheet: Sheet, faulty: &dyn Fn(&str) -> bool) -> Self {
        let aircraft = plant.aircraft();
        let ids: Vec<&str> = aircraft.parts.iter().map(|part| part.id.as_str()).collect();
        let rows = aircraft.parts.iter().zip(codes(&ids)).enumerate();
        let parts = rows.filter_map(|(place, (part, code))| {
            Some(Drawn {
                place,
                code,
                title: part.title.clone(),
                at: part.at.filter(|_| belongs(part, sheet))?,
                standing: if faulty(&part.id) {
                    Standing::Bad
                } else {
                    Standing::NotChecked
                },
                likeliest: None,
            })
        });
        let (columns, rows) = size(aircraft);
        let mut scene = Self {
            columns,
            rows,
            parts: parts.collect(),
            pipes: pipes(aircraft, sheet, plant),
            drain: None,
        };
        scene.mark_drain(aircraft, &plant.drain());
        scene
    }

    /// A part by its place in the aircraft.
    pub fn part(&self, place: usize) -> Option<&Drawn> {
        self.parts.iter().find(|drawn| drawn.place == place)
    }

    /// The most probable fault of a part, else the most probable cause that is a fault of any.
    pub fn fault_shown(&self, job: &Job, part: Option<usize>) -> Option<usize> {
        let here = part.and_then(|part| self.part(part));
        let here = here.and_then(|drawn| drawn.likeliest);
        let leading = || {
            let causes = job.causes();
            let mut events = causes.iter().map(|row| row.event);
            events.find(|event| fault_of(job.model(), *event).is_some())
        };
        here.map(|(event, _)| event).or_else(leading)
    }

    /// Shows on the pipes where one fault lets the store go.
    #[must_use]
    pub fn draining(mut self, job: &Job, event: Option<usize>) -> Self {
        let aircraft = job.model().aircraft.as_ref();
        let (Some(event), Some(aircraft)) = (event, aircraft) else {
            return self;
        };
        let healthy = played(job, aircraft, None, SEEN_BEST);
        let faulty = played(job, aircraft, Some(event), SEEN_BEST);
        let (Ok(healthy), Ok(faulty)) = (healthy, faulty) else {
            return self;
        };
        let legs = faulty.drain_beyond(&healthy);
        self.mark_drain(aircraft, &legs);
        self.drain = Some((event, legs));
        self
    }

    /// Marks the pipes on the way that the store drains.
    fn mark_drain(&mut self, aircraft: &Aircraft, legs: &[Leg]) {
        let way: Vec<usize> = aircraft
            .parts
            .iter()
            .position(|part| part.kind.name == "accumulator")
            .into_iter()
            .chain(legs.iter().map(|leg| leg.part))
            .collect();
        for pipe in self.pipes.iter_mut().filter(|pipe| pipe.fluid) {
            let both = way.windows(2);
            let pair = [pipe.parts.0, pipe.parts.1];
            pipe.drains = both.into_iter().any(|way| {
                let forth = way == pair;
                forth || way == [pair[1], pair[0]]
            });
        }
    }
}

/// Columns and rows of the grid.
fn size(aircraft: &Aircraft) -> (usize, usize) {
    let most = |of: fn(&(u32, u32)) -> u32| {
        let places = aircraft.parts.iter().filter_map(|part| part.at);
        places.map(|at| of(&at) as usize + 1).max().unwrap_or(0)
    };
    (most(|at| at.0), most(|at| at.1))
}

/// Seconds after which a leak is seen best: there is pressure behind it, and the pilots of the
/// isolation valve have not lost theirs.
const SEEN_BEST: f64 = 120.0;
const HALF_HOUR: f64 = 1800.0;

fn played(
    job: &Job,
    aircraft: &Arc<Aircraft>,
    event: Option<usize>,
    seconds: f64,
) -> Result<Handle, PlantError> {
    let mut parking = Parking::usual();
    let rows = aircraft.switches.iter().zip(&job.situation().state.0);
    let positions = rows.map(|(switch, at)| (switch.id.clone(), switch.positions[*at].clone()));
    // It was parked with the lever up; a lever that the work has let down since empties nothing.
    parking.switches = positions.filter(|(switch, _)| switch != "lever").collect();
    if let Some((part, fault)) = event.and_then(|event| fault_of(job.model(), event)) {
        let change = Change::Fault(part.to_owned(), fault.to_owned(), 1.0);
        parking.changes.push(change);
    }
    let mut plant = parking.begin(aircraft)?;
    plant.step(seconds)?;
    Ok(plant)
}

/// Whether any port of a part belongs to a sheet.
fn belongs(part: &Part, sheet: Sheet) -> bool {
    let mut ports = part.kind.ports.iter();
    ports.any(|port| sheet.shows(port.port_type))
}

fn drawn(job: &Job, aircraft: &Aircraft, sheet: Sheet) -> Vec<Drawn> {
    let ids: Vec<&str> = aircraft.parts.iter().map(|part| part.id.as_str()).collect();
    let codes = codes(&ids);
    let next = match job.stage() {
        Stage::Question(proposal) => Some(proposal.check),
        _ => None,
    };
    let standings = standing_of_parts(job.model(), job.evidence(), job.belief(), next);
    let rows = aircraft.parts.iter().zip(codes).zip(standings).enumerate();
    rows.filter_map(|(place, ((part, code), standing))| {
        Some(Drawn {
            place,
            code,
            title: part.title.clone(),
            at: part.at.filter(|_| belongs(part, sheet))?,
            standing: standing.standing,
            likeliest: standing.likeliest,
        })
    })
    .collect()
}

/// Every net as pipes, each part joined to the next one of the net.
fn pipes(aircraft: &Aircraft, sheet: Sheet, healthy: &Handle) -> Vec<Pipe> {
    let mut pipes = Vec::new();
    for (net, joined) in aircraft.graph.nets().iter().enumerate() {
        if !sheet.shows(joined.port_type) {
            continue;
        }
        let places = joined.ports.iter().filter_map(|port| {
            let part = aircraft.parts.get(port.part)?;
            Some((part.at?, port.part))
        });
        let mut places: Vec<((u32, u32), usize)> = places.collect();
        places.sort_unstable();
        places.dedup();
        let live = is_live(joined.port_type, healthy.level_of_net(net));
        let fluid = joined.port_type == PortType::Hydraulic;
        let pair = |pair: &[((u32, u32), usize)]| Pipe {
            from: pair[0].0,
            to: pair[1].0,
            parts: (pair[0].1, pair[1].1),
            live,
            fluid,
            drains: false,
        };
        pipes.extend(places.windows(2).map(pair));
    }
    pipes
}
