//! The first screen: go on with an open job, or start a new one.

use std::io;

use ratatui::Frame;

use super::event::Key;
use super::layout::{Room, frame, room};
use super::page::{Page, Role};
use super::plain::Lines;
use super::state::Preferences;
use super::view::{paint_frame, too_small};
use crate::base::text::{plural, width};

/// What was chosen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Choice {
    /// Go on with this job.
    Resume(String),
    /// A new job on the tree with this id.
    New(String),
}

/// One report that a new job can start from.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Report {
    /// Id of the tree that answers it.
    pub tree: String,
    /// Its words.
    pub words: String,
}

/// One job of the list.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct JobLine {
    /// Its name.
    pub name: String,
    /// The aircraft as it was typed.
    pub aircraft: String,
    /// A line about it.
    pub about: String,
    /// Whether it is still at work.
    pub open: bool,
}

/// The jobs, those at work first and the newest of them on top.
#[derive(Debug, Clone, Default)]
pub struct Start {
    /// The jobs.
    pub jobs: Vec<JobLine>,
    /// The reports a new job can start from, in the order of their keys.
    pub reports: Vec<Report>,
    /// The marked job.
    pub marked: usize,
    /// What is to be said: of settings that are not understood.
    pub notes: Vec<String>,
    /// Looks.
    pub preferences: Preferences,
}

/// What a key of this screen does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Act {
    Newest,
    New(usize),
    Open,
    Up,
    Down,
    Look,
    Lines,
    Quit,
}

/// The keys of this screen: dispatch and the bottom line read them.
const KEYS: &[(&[Key], &str, Act)] = &[
    (&[Key::Char('1')], "1 newest", Act::Newest),
    (
        &[Key::Char('3'), Key::Char('n')],
        "3/5 new job",
        Act::New(0),
    ),
    (&[Key::Char('5')], "", Act::New(1)),
    (&[Key::Up], "", Act::Up),
    (&[Key::Down], "Up Down mark", Act::Down),
    (&[Key::Enter], "Enter open marked", Act::Open),
    (&[Key::Char('d')], "d look", Act::Look),
    (&[Key::Char('g')], "g lines", Act::Lines),
    (&[Key::Char('q'), Key::Control('c')], "q quit", Act::Quit),
];

impl Start {
    /// Takes a key: `Some(None)` leaves, `Some(Some(..))` is the choice.
    pub fn press(&mut self, key: Key) -> Option<Option<Choice>> {
        let key = match key {
            Key::Typed(c) => Key::Char(c.to_ascii_lowercase()),
            other => other,
        };
        let (_, _, act) = KEYS.iter().find(|(keys, _, _)| keys.contains(&key))?;
        let job = |place: usize| {
            self.jobs
                .get(place)
                .map(|job| Choice::Resume(job.name.clone()))
        };
        match act {
            Act::Newest => job(0).map(Some),
            Act::New(place) => {
                let report = self.reports.get(*place)?;
                Some(Some(Choice::New(report.tree.clone())))
            }
            Act::Open => job(self.marked).map(Some),
            Act::Quit => Some(None),
            Act::Up => {
                self.marked = self.marked.saturating_sub(1);
                None
            }
            Act::Down => {
                self.marked = (self.marked + 1).min(self.jobs.len().saturating_sub(1));
                None
            }
            Act::Look => {
                self.preferences.look = self.preferences.look.next();
                None
            }
            Act::Lines => {
                self.preferences.lines = self.preferences.lines.next();
                None
            }
        }
    }

    /// Draws the screen.
    pub fn view(&self, window: &mut Frame<'_>) {
        let area = window.area();
        if area.is_empty() {
            return;
        }
        if room(area.width, area.height, true) == Room::Nothing {
            return too_small(window, area);
        }
        let parts = frame(area, Room::One);
        let page = self.page(usize::from(parts.screen.width));
        let marked = Some(self.marked);
        let at_work = self.jobs.iter().filter(|job| job.open).count();
        let top = format!("Stillwheel  {} at work", plural(at_work, "job"));
        // Where no job was begun yet, there is none to mark or to go on with.
        let of_jobs = |act: &Act| matches!(act, Act::Newest | Act::Down | Act::Open);
        let shown = || {
            KEYS.iter()
                .filter(|(_, _, act)| !self.jobs.is_empty() || !of_jobs(act))
                .map(|(_, words, _)| *words)
                .filter(|w| !w.is_empty())
        };
        let mut keys = shown().collect::<Vec<_>>().join("  ");
        if width(&keys) > usize::from(area.width) {
            let bare = shown().filter_map(|words| words.split(' ').next());
            keys = bare.collect::<Vec<_>>().join(" ");
        }
        let said = "Aid only. Work to the approved maintenance data of your aircraft.";
        let texts = [top.as_str(), said, &keys];
        paint_frame(window, &page, marked, texts, &self.preferences);
    }

    fn page(&self, columns: usize) -> Page {
        let mut page = Page::new(columns);
        if let Some(newest) = self.jobs.first() {
            page.row_of(Role::Strong, &format!("  1  Go on: {}", newest.line()));
        }
        for (key, words) in self.new_jobs() {
            page.row_of(Role::Strong, &format!("  {key}  New: {words}"));
        }
        for note in &self.notes {
            page.row_of(Role::Caution, &format!("NOTE  {note}"));
        }
        page.rule();
        let mut heading = "";
        for (place, job) in self.jobs.iter().enumerate() {
            let group = if job.open { "At work" } else { "Ended" };
            if group != heading {
                page.row(group);
                heading = group;
            }
            page.item(place, &job.line());
        }
        page
    }

    /// The reports with the keys that start a job on them.
    fn new_jobs(&self) -> impl Iterator<Item = (char, &str)> {
        KEYS.iter()
            .filter_map(|(keys, _, act)| match (act, keys.first()) {
                (Act::New(place), Some(Key::Char(key))) => {
                    Some((*key, self.reports.get(*place)?.words.as_str()))
                }
                _ => None,
            })
    }

    /// The same line by line. `None` where the input ends or the person leaves.
    pub fn ask(&mut self, lines: &mut Lines<'_>) -> io::Result<Option<Choice>> {
        for note in &self.notes {
            lines.say(&format!("NOTE {note}"))?;
        }
        loop {
            for job in self.jobs.iter().take(5) {
                lines.say(&format!("JOB {}", job.line()))?;
            }
            if !self.jobs.is_empty() {
                lines.say("  1 = go on with the newest job")?;
            }
            for (key, words) in self.new_jobs() {
                lines.say(&format!("  {key} = new job: {words}"))?;
            }
            lines.say("Answer (q quit):")?;
            let Some(line) = lines.read()? else {
                return Ok(None);
            };
            let key = line.chars().next().map_or(Key::Up, Key::Char);
            if let Some(done) = self.press(key) {
                return Ok(done);
            }
        }
    }
}

impl JobLine {
    fn line(&self) -> String {
        let aircraft = if self.aircraft.is_empty() {
            "no aircraft yet"
        } else {
            &self.aircraft
        };
        format!("{}  {aircraft}, {}", self.name, self.about)
    }
}
