//! A file that another program appends readings to: what came since it was last looked at.
//!
//! One line is a time, a value and its unit, perhaps the name of a gauge. What cannot be read is
//! named with its line and left out. A file that is gone, shorter or not there yet is looked at
//! again.

use std::fs::File;
use std::io::{self, Read, Seek, SeekFrom};
use std::path::{Path, PathBuf};

use super::entry::What;
use super::job::Job;
use super::watch::Taken;
use crate::base::stamp::Stamp;

/// Bytes read in one look; the rest comes with the next.
const AT_ONCE: u64 = 1 << 20;
/// A line longer than this is none, in bytes.
const LONGEST_LINE: usize = 400;
/// How many lines that cannot be read are named in one look.
const NAMED: usize = 3;
/// Seconds from one look to the next.
pub const EVERY: i64 = 2;

/// A file that is followed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Follow {
    path: PathBuf,
    gauge: Option<usize>,
    read: u64,
    lines: usize,
    /// The beginning of a line whose end is not written yet.
    torn: Vec<u8>,
    state: Seen,
    /// When it is looked at next.
    pub next: Stamp,
}

/// How the file was when it was last looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Seen {
    NotYet,
    There,
    Gone,
}

/// What a look found.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Looked {
    /// Readings, where there are new ones.
    pub entry: Option<What>,
    /// What is to be said, for people.
    pub said: Vec<String>,
    /// Whether there is more to read at once.
    pub more: bool,
}

impl Follow {
    /// Follows a file; readings without a gauge are of this one.
    pub fn new(path: &str, gauge: Option<usize>, now: Stamp) -> Self {
        Self {
            path: PathBuf::from(path),
            gauge,
            read: 0,
            lines: 0,
            torn: Vec::new(),
            state: Seen::NotYet,
            next: now,
        }
    }

    /// The name of the file, without the way to it.
    pub fn name(&self) -> String {
        let name = self.path.file_name().unwrap_or(self.path.as_os_str());
        let visible = name.to_string_lossy();
        visible.chars().filter(|c| !c.is_control()).collect()
    }

    /// Reads what was appended since the last look.
    pub fn look(&mut self, job: &Job, now: Stamp) -> Looked {
        let mut looked = Looked::default();
        self.next = Stamp::from_seconds(now.seconds() + EVERY);
        let bytes = match self.appended(&mut looked) {
            Ok(bytes) => bytes,
            Err(error) => {
                self.missing(&error, &mut looked);
                return looked;
            }
        };
        self.state = Seen::There;
        looked.more = bytes.len() as u64 == AT_ONCE;
        self.torn.extend(bytes);
        if !self.torn.contains(&b'\n') {
            return looked;
        }
        let known = job.watch().known();
        let mut values: Vec<Taken> = Vec::new();
        let mut bad: Vec<String> = Vec::new();
        for line in self.whole_lines() {
            match self.reading(job, &line.1, now) {
                Ok(Some(taken)) if !known.contains(&(taken.at, taken.gauge)) => values.push(taken),
                Ok(_) => {}
                Err(reason) => bad.push(format!("line {}: {reason}", line.0)),
            }
        }
        let count = bad.len();
        for named in bad.into_iter().take(NAMED) {
            looked
                .said
                .push(format!("{}, {named}. Left out.", self.name()));
        }
        if count > NAMED {
            looked.said.push(format!(
                "{}: {} more lines cannot be read and are left out.",
                self.name(),
                count - NAMED
            ));
        }
        looked.entry = (!values.is_empty()).then(|| What::Readings {
            values,
            from: Some(self.name()),
        });
        looked
    }

    /// The bytes behind what was read; from the start where the file is another or shorter.
    fn appended(&mut self, looked: &mut Looked) -> io::Result<Vec<u8>> {
        // A pipe or a device would keep the console waiting.
        if !std::fs::metadata(&self.path)?.is_file() {
            return Err(io::Error::other("it is not a plain file"));
        }
        let mut file = File::open(&self.path)?;
        let length = file.metadata()?.len();
        if length < self.read || self.state == Seen::Gone {
            if self.state != Seen::Gone {
                let name = self.name();
                looked
                    .said
                    .push(format!("{name} was begun anew; it is read from its start."));
            }
            self.read = 0;
            self.lines = 0;
            self.torn.clear();
        }
        file.seek(SeekFrom::Start(self.read))?;
        let mut bytes = Vec::new();
        file.take(AT_ONCE).read_to_end(&mut bytes)?;
        self.read += bytes.len() as u64;
        Ok(bytes)
    }

    /// Says once that the file cannot be read.
    fn missing(&mut self, error: &io::Error, looked: &mut Looked) {
        let name = self.name();
        let (seen, said) = match self.state {
            Seen::Gone => return,
            Seen::There => (
                Seen::Gone,
                format!("{name} is gone ({}). What was read is kept.", plain(error)),
            ),
            Seen::NotYet => (
                Seen::Gone,
                format!("{name} cannot be read yet ({}).", plain(error)),
            ),
        };
        self.state = seen;
        looked.said.push(format!(
            "{said} It is looked at again; :follow off ends that."
        ));
    }

    /// Takes the whole lines, with their numbers, and leaves what has no end yet.
    fn whole_lines(&mut self) -> Vec<(usize, String)> {
        let mut found = Vec::new();
        let end = self.torn.iter().rposition(|byte| *byte == b'\n');
        let Some(end) = end else {
            // A line without an end that is too long for one is dropped as it comes.
            self.torn.truncate(LONGEST_LINE + 1);
            return found;
        };
        let rest = self.torn.split_off(end + 1);
        let whole = std::mem::replace(&mut self.torn, rest);
        for line in whole.split_inclusive(|byte| *byte == b'\n') {
            self.lines += 1;
            let line = line.get(..line.len().min(LONGEST_LINE + 1)).unwrap_or(line);
            found.push((self.lines, String::from_utf8_lossy(line).into_owned()));
        }
        found
    }

    /// The reading of a line; `None` for an empty one and for one that is a remark.
    fn reading(&self, job: &Job, line: &str, now: Stamp) -> Result<Option<Taken>, String> {
        let clean: String = line.chars().filter(|c| !c.is_control()).collect();
        let words = clean.trim();
        if words.is_empty() || words.starts_with('#') {
            return Ok(None);
        }
        if line.len() > LONGEST_LINE {
            return Err("it is too long for a reading".to_owned());
        }
        let timed = words.split(' ').next().unwrap_or_default();
        if !timed.contains(':') {
            return Err(format!(
                "`{timed}` is no time; 02:31:20 or 2026-11-25T02:31:20Z would be"
            ));
        }
        let mut taken = job.reading_taken(words, now)?;
        if super::watch::gauge_behind(words).1.is_none() {
            taken.gauge = self.gauge.unwrap_or(0);
        }
        Ok(Some(taken))
    }

    /// Where it is, for messages.
    pub fn path(&self) -> &Path {
        &self.path
    }
}

fn plain(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "it is not there".to_owned(),
        io::ErrorKind::PermissionDenied => "it may not be read".to_owned(),
        _ => error.to_string(),
    }
}
