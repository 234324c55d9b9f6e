//! What the console shows.

use super::glyphs::Lines;
use super::layout::{self, Room, room};
use super::prompt::{Prompt, Wish, prompt, stage};
use super::schematic::{Sheet, Zoom};
use super::theme::Look;
use crate::base::stamp::Stamp;
use crate::diagnosis::ranking::of_100;
use crate::session::follow::Follow;
use crate::session::job::{Job, Stage};
use crate::session::reading::pressure_as_found;
use crate::session::timer::Timer;

/// The screens.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Screen {
    /// The work: fields, conditions, checks, the end.
    Work,
    /// The causes, and what speaks for and against each.
    Why,
    /// One cause: its event.
    Cause(usize),
    /// Every check, and which can be made now.
    Checks,
    /// What other answers would lead to.
    WhatIf,
    /// The aircraft drawn, as the job stands.
    Schematic,
    /// A watched gauge over time.
    Trend,
    /// Every entry.
    Log,
    /// What the next person has to know.
    HandOver,
    /// Where you were.
    Pause,
    /// The ways to end.
    Ends,
    /// Checks, causes, parts, entries and keys by their words.
    Search,
    /// What was said since the start.
    Messages,
    /// The keys.
    Help,
}

/// What the person chose about looks and keys.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Preferences {
    /// The look of the screen.
    pub look: Look,
    /// Whether colours may be sent at all.
    pub colour: bool,
    /// What lines are drawn with.
    pub lines: Lines,
    /// Whether letters are keys; without them there are arrows, Enter, function keys and `:`.
    pub letters: bool,
    /// Whether the screen stands alone at any size.
    pub focus: bool,
}

impl Default for Preferences {
    fn default() -> Self {
        Self {
            look: Look::Mono,
            colour: true,
            lines: Lines::Ascii,
            letters: true,
            focus: false,
        }
    }
}

/// The whole state of the console.
#[derive(Debug)]
pub struct State {
    /// The job.
    pub job: Job,
    /// Its name; empty before anything was saved.
    pub name: String,
    /// Whether it can be read only, because another console holds it.
    pub read_only: bool,
    /// The screen that is shown.
    pub screen: Screen,
    /// Which of the things that can be marked is marked. No answer is marked before an arrow was
    /// pressed: a mark would push an answer.
    pub marked: Option<usize>,
    /// The first row shown of a page on which nothing can be marked.
    pub scroll: usize,
    /// What is being typed.
    pub input: String,
    /// What the person asked for beside what the job proposes.
    pub wish: Wish,
    /// Chance of each event before the last entry; empty where there was none.
    pub before: Vec<f64>,
    /// The sheet of the schematic.
    pub sheet: Sheet,
    /// How close the schematic is looked at.
    pub zoom: Zoom,
    /// The file whose readings are followed.
    pub follow: Option<Follow>,
    /// What just happened; stays until the next action.
    pub message: String,
    /// Everything that was said.
    pub messages: Vec<String>,
    /// The time of the last event.
    pub now: Stamp,
    /// Columns and rows of the window.
    pub size: (u16, u16),
    /// Looks and keys.
    pub preferences: Preferences,
}

impl State {
    /// The console at the start of a job.
    pub fn new(job: Job, name: &str, now: Stamp) -> Self {
        let mut state = Self {
            job,
            name: name.to_owned(),
            read_only: false,
            screen: Screen::Work,
            marked: None,
            scroll: 0,
            input: String::new(),
            wish: Wish::default(),
            before: Vec::new(),
            sheet: Sheet::default(),
            zoom: Zoom::default(),
            follow: None,
            message: String::new(),
            messages: Vec::new(),
            now,
            size: (80, 24),
            preferences: Preferences::default(),
        };
        state.say("Aid only. Work to the approved maintenance data.");
        state
    }

    /// Shows a message and keeps it.
    pub fn say(&mut self, message: &str) {
        message.clone_into(&mut self.message);
        self.messages
            .push(format!("{} {message}", self.now.clock()));
    }

    /// What is asked now.
    pub fn prompt(&self) -> Option<Prompt> {
        prompt(&self.job, self.wish)
    }

    /// Where the work stands, the person's own choice before the job's.
    pub fn stage(&self) -> Stage {
        stage(&self.job, self.wish)
    }

    /// What the window has room for.
    pub fn room(&self) -> Room {
        room(self.size.0, self.size.1, self.preferences.focus)
    }

    /// Columns and rows of the screen between the top line and the message.
    pub fn screen_size(&self) -> (usize, usize) {
        let area = ratatui::layout::Rect::new(0, 0, self.size.0, self.size.1);
        let screen = layout::frame(area, self.room()).screen;
        (usize::from(screen.width), usize::from(screen.height))
    }

    /// Whether something is being typed: a field, a command after a colon, or words to search for.
    pub fn typing(&self) -> bool {
        match self.screen {
            Screen::Search => true,
            Screen::Trend => !self.input.is_empty(),
            Screen::Work => {
                let wanted = self.prompt().is_some_and(|prompt| prompt.typed.is_some());
                wanted || self.input.starts_with(':')
            }
            _ => false,
        }
    }

    /// Whether a question with answers by key is on the screen.
    pub fn asks(&self) -> bool {
        let asked = self
            .prompt()
            .is_some_and(|prompt| !prompt.choices.is_empty());
        self.screen == Screen::Work && asked
    }

    /// Whether the person is at something else than what the job asks.
    pub fn wish_is_open(&self) -> bool {
        self.wish.chosen.is_some() || self.wish.handing.is_some()
    }

    /// Points of 100 by which the last entry moved an event; 0 where nothing was entered yet.
    pub fn change(&self, event: usize) -> i64 {
        let now = self.job.belief().and_then(|b| b.events.get(event));
        match (now, self.before.get(event)) {
            (Some(now), Some(before)) => i64::from(of_100(*now)) - i64::from(of_100(*before)),
            _ => 0,
        }
    }

    /// A timer that is over and that nobody heard yet.
    pub fn alarm(&self) -> Option<&Timer> {
        self.job
            .timers()
            .iter()
            .find(|timer| timer.left(self.now) <= 0)
    }

    /// The next moment at which the screen changes without a key: a timer ends, a reading gets
    /// old, a followed file is looked at.
    pub fn next_moment(&self) -> Option<Stamp> {
        let timers = self.job.timers().iter().map(Timer::ends);
        let reading = pressure_as_found(&self.job).map(|reading| reading.old_from());
        // What is overdue is looked at soon.
        let soon = Stamp::from_seconds(self.now.seconds() + 1);
        let follow = self.follow.as_ref().map(|follow| follow.next.max(soon));
        let all = timers.chain(reading).chain(follow);
        all.filter(|at| *at > self.now).min()
    }
}
