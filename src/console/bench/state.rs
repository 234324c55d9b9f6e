//! What the bench shows.

use std::sync::Arc;

use super::readings::{Shown, Tried};
use crate::console::schematic::{Sheet, Zoom};
use crate::console::state::Preferences;
use crate::plant::aircraft::Aircraft;
use crate::plant::control::{Control, Form, controls};
use crate::plant::course::{Course, Play};
use crate::plant::error::PlantError;

/// The panes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pane {
    /// What can be set.
    Controls,
    /// What can be wrong.
    Faults,
    /// What can be read.
    Readings,
    /// The aircraft drawn.
    Schematic,
    /// Pressures over time.
    Plot,
    /// Fluid and forces.
    Account,
    /// Keys and commands.
    Help,
}

impl Pane {
    /// All panes, in the order in which one key steps through them; help has a key of its own.
    pub const ALL: [Self; 7] = [
        Self::Controls,
        Self::Faults,
        Self::Readings,
        Self::Schematic,
        Self::Plot,
        Self::Account,
        Self::Help,
    ];

    /// Its heading.
    pub fn word(self) -> &'static str {
        match self {
            Self::Controls => "Controls",
            Self::Faults => "Faults",
            Self::Readings => "Readings",
            Self::Schematic => "Schematic",
            Self::Plot => "Plot",
            Self::Account => "Account",
            Self::Help => "Help",
        }
    }

    /// The next one.
    #[must_use]
    pub fn next(self) -> Self {
        let around = &Self::ALL[..Self::ALL.len() - 1];
        let at = around.iter().position(|pane| *pane == self);
        at.map_or(Self::Controls, |at| around[(at + 1) % around.len()])
    }

    /// Its place among all.
    pub fn place(self) -> usize {
        Self::ALL.iter().position(|pane| *pane == self).unwrap_or(0)
    }

    /// Whether it is one of what is set, which stands on the left of a wide window.
    pub fn sets(self) -> bool {
        matches!(self, Self::Controls | Self::Faults)
    }
}

/// Speeds that the keys step through, times real time.
pub const SPEEDS: [u32; 8] = [1, 5, 10, 30, 60, 200, 500, 1000];

/// A fault of the aircraft.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FaultRow {
    /// `PART/FAULT`.
    pub name: String,
    /// Its part, by its place.
    pub part: usize,
    /// What is wrong.
    pub title: String,
}

/// The whole state of the bench.
#[derive(Debug)]
pub struct State {
    /// The aircraft and its twin, as far as they were played.
    pub play: Play,
    /// What can be set.
    pub controls: Vec<Control>,
    /// What can be wrong.
    pub faults: Vec<FaultRow>,
    /// What the readings show now.
    pub shown: Vec<Shown>,
    /// What was tried last.
    pub tried: Option<Tried>,
    /// Whether time passes.
    pub running: bool,
    /// How many times real time.
    pub speed: u32,
    /// Real milliseconds times the speed that are not a tenth of a second of the plant yet.
    pub spare: u64,
    /// A step, in tenths of a second.
    pub step: u64,
    /// The pane that keys speak to.
    pub pane: Pane,
    /// The pane on the left of a wide window.
    pub left: Pane,
    /// The pane beside it.
    pub right: Pane,
    /// The marked line, or the first row shown, of each pane.
    pub marks: [usize; Pane::ALL.len()],
    /// Words that the faults shown hold.
    pub filter: String,
    /// Whether only readings that differ from the twin are shown.
    pub only_different: bool,
    /// The sheet of the schematic.
    pub sheet: Sheet,
    /// How close the schematic is looked at.
    pub zoom: Zoom,
    /// What is being typed, with its colon.
    pub input: Option<String>,
    /// What just happened.
    pub message: String,
    /// Everything that was said since somebody listened last.
    pub said: Vec<String>,
    /// The file of the course.
    pub file: Option<String>,
    /// Whether the course changed since it was saved.
    pub unsaved: bool,
    /// Columns and rows of the window.
    pub size: (u16, u16),
    /// Looks and keys.
    pub preferences: Preferences,
}

/// The first words.
const NOTE: &str =
    "A model of an invented aircraft, not approved data; nothing here releases an aircraft.";

impl State {
    /// The bench at the end of a course.
    ///
    /// Errors: what the plant refuses.
    pub fn new(aircraft: &Arc<Aircraft>, course: &Course) -> Result<Self, PlantError> {
        let faults = aircraft.parts.iter().enumerate().flat_map(|(at, part)| {
            part.faults.iter().map(move |fault| FaultRow {
                name: format!("{}/{}", part.id, fault.id),
                part: at,
                title: fault.title.clone(),
            })
        });
        let mut state = Self {
            play: Play::new(aircraft, course)?,
            controls: controls(aircraft),
            faults: faults.collect(),
            shown: Vec::new(),
            tried: None,
            running: false,
            speed: 60,
            spare: 0,
            step: 600,
            pane: Pane::Controls,
            left: Pane::Controls,
            right: Pane::Readings,
            marks: [0; Pane::ALL.len()],
            filter: String::new(),
            only_different: false,
            sheet: Sheet::default(),
            zoom: Zoom::Far,
            input: None,
            message: String::new(),
            said: Vec::new(),
            file: None,
            unsaved: false,
            size: (80, 24),
            preferences: Preferences::default(),
        };
        state.look();
        state.say(NOTE);
        Ok(state)
    }

    /// Shows a message and keeps it.
    pub fn say(&mut self, message: &str) {
        message.clone_into(&mut self.message);
        self.said.push(message.to_owned());
    }

    /// The marked line of the pane that keys speak to.
    pub fn marked(&self) -> usize {
        self.marks[self.pane.place()]
    }

    /// The faults that are listed: those that hold the words of the filter.
    pub fn listed(&self) -> Vec<&FaultRow> {
        let wanted = crate::base::text::folded(&self.filter);
        let words: Vec<&str> = wanted.split_whitespace().collect();
        let holds = |row: &&FaultRow| {
            let text = crate::base::text::folded(&format!("{} {}", row.name, row.title));
            words.iter().all(|word| text.contains(word))
        };
        self.faults.iter().filter(holds).collect()
    }

    /// The severity of a fault as it was written; `None` where it is not in.
    pub fn severity(&self, name: &str) -> Option<String> {
        let faults = self.play.course().faults();
        let found = faults.iter().find(|(known, _)| *known == name);
        found.map(|(_, severity)| (*severity).to_owned())
    }

    /// What a control is set to.
    pub fn value(&self, control: &Control) -> String {
        let course = self.play.course();
        course.value(self.play.aircraft(), &self.controls, control)
    }

    /// The positions of all switches, as commands take them.
    pub fn switches(&self) -> String {
        let switches = self.controls.iter();
        let switches = switches.filter(|control| matches!(control.form, Form::Switch(_)));
        let words = switches.map(|control| format!("{} {}", control.name, self.value(control)));
        words.collect::<Vec<_>>().join(", ")
    }

    /// The faults that are in, as commands take them.
    pub fn faults_in(&self) -> Vec<String> {
        let faults = self.play.course().faults();
        let words = faults.iter().map(|(name, severity)| match *severity {
            "1" => (*name).to_owned(),
            severity => format!("{name}={severity}"),
        });
        words.collect()
    }

    /// Goes to a pane.
    pub fn go_to(&mut self, pane: Pane) {
        self.pane = pane;
        if pane.sets() {
            self.left = pane;
        } else {
            self.right = pane;
        }
    }
}
