//! Working a job: from the Start screen, from a report, or where it was left.

use std::sync::Arc;
use std::time::Duration;

use super::open_job::{Failure, OpenJob, load, open};
use crate::authoring::embedded;
use crate::cli::args::Arguments;
use crate::cli::surroundings::{Surroundings, now};
use crate::cli::{exit, output};
use crate::console::plain::Lines;
use crate::console::start::{Choice, JobLine, Report, Start};
use crate::console::state::{Preferences, State};
use crate::console::{app, plain};
use crate::diagnosis::inference::Inference;
use crate::session::entry::Entry;
use crate::session::header::Header;
use crate::session::job::Job;
use crate::session::journal::entry_line;
use crate::session::listed::Listed;
use crate::session::store::{JobFile, Store};

/// What is needed to work jobs.
pub struct Work {
    store: Store,
    full_screen: bool,
    preferences: Preferences,
    guard: Duration,
    notes: Vec<String>,
}

impl Work {
    /// From what was typed and where the program was started.
    pub fn new(arguments: &Arguments, surroundings: &Surroundings) -> anyhow::Result<Self> {
        let settings = &surroundings.settings;
        let plain = arguments.plain || settings.plain == Some(true);
        Ok(Self {
            store: Store::new(surroundings.jobs_folder(arguments.jobs.as_deref())?),
            full_screen: surroundings.full_screen && !plain,
            preferences: settings.preferences(surroundings.colour),
            guard: surroundings.guard(),
            notes: settings.notes.clone(),
        })
    }

    /// The Start screen: go on with a job, or start one from a report.
    pub fn start(&self) -> anyhow::Result<u8> {
        let mut start = Start {
            jobs: self.jobs()?,
            reports: embedded::reports().map(report).collect(),
            marked: 0,
            notes: self.notes.clone(),
            preferences: self.preferences,
        };
        let choice = if self.full_screen {
            app::start(&mut start)?
        } else {
            // Nothing is read ahead here, or the lines would be missing later.
            quiet(with_lines(|lines| start.ask(lines)))?.flatten()
        };
        match choice {
            None => Ok(exit::FINE),
            Some(Choice::New(tree)) => self.new_job(&tree, None),
            Some(Choice::Resume(name)) => self.resume(Some(&name)),
        }
    }

    /// All jobs, those at work first: 1 goes on with the newest of them.
    fn jobs(&self) -> anyhow::Result<Vec<JobLine>> {
        let listed = self.store.list()?;
        let aircraft: Vec<Option<String>> = listed.iter().map(Listed::aircraft).collect();
        let mut jobs: Vec<JobLine> = listed.iter().map(job_line).collect();
        for (place, job) in jobs.iter_mut().enumerate() {
            // A repeat defect is worth knowing before the first question.
            let same = |other: &&Option<String>| other.is_some() && **other == aircraft[place];
            let others = aircraft.iter().filter(same).count();
            if others > 1 {
                job.about
                    .push_str(&format!("; {others} jobs on this aircraft"));
            }
        }
        jobs.sort_by_key(|job| !job.open);
        Ok(jobs)
    }

    /// A new job. Its file is made with the first entry, so that looking leaves nothing behind.
    pub fn new_job(&self, tree: &str, aircraft: Option<&str>) -> anyhow::Result<u8> {
        let model = match load(tree, aircraft) {
            Ok(model) => model,
            Err(code) => return Ok(code),
        };
        let header = Header {
            job: String::new(),
            tree: tree.to_owned(),
            tree_version: model.version.clone(),
            checksum: model.checksum.clone(),
            aircraft: aircraft.map(str::to_owned),
            opened: now(),
            program: env!("CARGO_PKG_VERSION").to_owned(),
        };
        let job = Job::new(Arc::new(Inference::new(model)), Vec::new());
        let mut state = State::new(job, "", now());
        for note in &self.notes {
            state.say(&format!("Note: {note}."));
        }
        self.work(state, header, None)
    }

    /// A job where it was left; the newest where none is named.
    pub fn resume(&self, name: Option<&str>) -> anyhow::Result<u8> {
        let Some(name) = newest(&self.store, name)? else {
            output::complain("error: there is no job to go on with\n");
            return Ok(exit::FILE);
        };
        let OpenJob {
            header,
            job,
            file,
            notes,
        } = match open(&self.store, &name) {
            Ok(open) => open,
            Err(Failure::Tree(code)) => return Ok(code),
            Err(Failure::Other(error)) => return Err(error),
        };
        let mut state = State::new(job, &name, now());
        state.read_only = file.is_none();
        state.say(&format!("Job {name} goes on where it was left."));
        for note in notes {
            state.say(&format!("Note: {note}."));
        }
        self.work(state, header, file)
    }

    fn work(
        &self,
        mut state: State,
        mut header: Header,
        mut file: Option<JobFile>,
    ) -> anyhow::Result<u8> {
        let model = Arc::clone(state.job.model());
        let store = &self.store;
        let mut save = |entry: &Entry| -> Result<(), String> {
            if file.is_none() {
                file = Some(
                    store
                        .create(&mut header)
                        .map_err(|error| error.to_string())?,
                );
            }
            let open = file.as_mut().ok_or("there is no job file")?;
            open.append(&entry_line(entry, &model))
                .map_err(|error| error.to_string())
        };
        if self.full_screen {
            state.preferences = self.preferences;
            app::run(&mut state, &now, self.guard, &mut save)?;
            if file.is_some() {
                output::print(&left(&header.job, store))?;
            }
        } else {
            quiet(with_lines(|lines| plain::run(&mut state, lines, &mut save)))?;
        }
        Ok(exit::FINE)
    }
}

/// Where the work lies, for whoever left it.
fn left(job: &str, store: &Store) -> String {
    format!(
        "Job {job} is kept in {}.\nGo on with: stillwheel resume {job}\n",
        store.folder().display()
    )
}

fn report((tree, words): (&str, &str)) -> Report {
    Report {
        tree: tree.to_owned(),
        words: words.to_owned(),
    }
}

fn job_line(listed: &Listed) -> JobLine {
    let entries = plural_of(listed.lines.len());
    let last = listed.last().map_or(String::new(), |at| {
        let text = at.to_string();
        let day = text.get(5..10).unwrap_or_default().to_owned();
        format!(", last {day} {}", at.clock())
    });
    let (about, open) = match (&listed.header, listed.ended()) {
        (Err(reason), _) => (format!("cannot be opened: {reason}"), false),
        (Ok(_), Some(end)) => (format!("ended as {}", end.replace('-', " ")), false),
        (Ok(_), None) => (format!("{entries}{last}"), true),
    };
    JobLine {
        name: listed.name.clone(),
        aircraft: listed.aircraft().unwrap_or_default(),
        about,
        open,
    }
}

fn plural_of(entries: usize) -> String {
    match entries {
        1 => "1 entry".to_owned(),
        count => format!("{count} entries"),
    }
}

/// The job that was named, or the newest that can be opened.
pub fn newest(store: &Store, name: Option<&str>) -> anyhow::Result<Option<String>> {
    if let Some(name) = name {
        return Ok(Some(name.to_owned()));
    }
    let jobs = store.list()?;
    let usable = jobs.into_iter().find(|job| job.header.is_ok());
    Ok(usable.map(|job| job.name))
}

/// Runs something on the standard input and output.
pub fn with_lines<T>(run: impl FnOnce(&mut Lines<'_>) -> std::io::Result<T>) -> std::io::Result<T> {
    let mut input = std::io::stdin().lock();
    let mut out = std::io::stdout().lock();
    run(&mut Lines {
        input: &mut input,
        out: &mut out,
        clock: &now,
    })
}

/// A reader that went away is no error; what was saved is saved.
pub fn quiet<T>(result: std::io::Result<T>) -> std::io::Result<Option<T>> {
    match result {
        Err(error) if error.kind() == std::io::ErrorKind::BrokenPipe => Ok(None),
        other => other.map(Some),
    }
}
