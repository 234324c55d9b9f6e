//! Job files on disk. A line is on disk before anybody is told that it is saved.

use std::fs::{File, OpenOptions, TryLockError};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use super::header::Header;
use super::journal::{header_line, read_header};
use super::listed::Listed;

/// Ending of job files.
const ENDING: &str = "jsonl";

/// The folder of all jobs.
#[derive(Debug, Clone)]
pub struct Store {
    folder: PathBuf,
}

/// A job that was opened.
#[derive(Debug)]
pub struct Opened {
    /// Its header.
    pub header: Header,
    /// The whole lines after the header.
    pub lines: Vec<String>,
    /// What was wrong with the file, for people.
    pub problems: Vec<String>,
    /// The file to append to; `None` where another console holds the job.
    pub file: Option<JobFile>,
}

/// The file of a job, held by this console alone.
#[derive(Debug)]
pub struct JobFile {
    file: File,
    /// Where the file is.
    pub path: PathBuf,
    /// Whole bytes; what lies behind them was never confirmed as saved.
    good: u64,
}

/// Why a job cannot be opened or made.
#[derive(Debug, thiserror::Error)]
pub enum StoreError {
    /// The system refused.
    #[error("{path}: {error}")]
    System {
        /// The file or folder.
        path: String,
        /// What the system said.
        error: io::Error,
    },
    /// The file cannot be used.
    #[error("job {name} cannot be opened: {reason}")]
    Unusable {
        /// The job.
        name: String,
        /// Why not.
        reason: String,
    },
}

fn at(path: &Path) -> impl Fn(io::Error) -> StoreError + '_ {
    move |error| StoreError::System {
        path: path.display().to_string(),
        error,
    }
}

impl Store {
    /// The store in a folder; the folder is made when the first job is.
    pub fn new(folder: PathBuf) -> Self {
        Self { folder }
    }

    /// The folder.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    fn path(&self, name: &str) -> PathBuf {
        self.folder.join(format!("{name}.{ENDING}"))
    }

    /// All jobs, newest name first. A folder that is not there holds none.
    pub fn list(&self) -> Result<Vec<Listed>, StoreError> {
        let entries = match std::fs::read_dir(&self.folder) {
            Ok(entries) => entries,
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
            Err(error) => return Err(at(&self.folder)(error)),
        };
        let mut jobs = Vec::new();
        for entry in entries.flatten() {
            let path = entry.path();
            let name = path
                .file_stem()
                .map(|stem| stem.to_string_lossy().into_owned());
            if let (Some(name), Some(ENDING)) = (name, path.extension().and_then(|e| e.to_str())) {
                let bytes = std::fs::read(&path).unwrap_or_default();
                let (lines, _) = whole_lines(&bytes);
                let (first, rest) = lines.split_first().map_or(("", &[][..]), |(f, r)| (f, r));
                jobs.push(Listed {
                    name,
                    header: read_header(first),
                    lines: rest.to_vec(),
                });
            }
        }
        jobs.sort_by(|a, b| b.name.cmp(&a.name));
        Ok(jobs)
    }

    /// Makes a new job, with a name from the moment it was opened, and writes its header.
    pub fn create(&self, header: &mut Header) -> Result<JobFile, StoreError> {
        std::fs::create_dir_all(&self.folder).map_err(at(&self.folder))?;
        let base = header.opened.compact();
        for number in 1.. {
            let name = if number == 1 {
                base.clone()
            } else {
                format!("{base}-{number}")
            };
            let path = self.path(&name);
            let made = OpenOptions::new()
                .read(true)
                .append(true)
                .create_new(true)
                .open(&path);
            match made {
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {}
                Err(error) => return Err(at(&path)(error)),
                Ok(file) => {
                    header.job = name;
                    // Whether the lock is had is not asked: nobody else knows the name yet.
                    let _ = file.try_lock();
                    let mut job = JobFile {
                        file,
                        path,
                        good: 0,
                    };
                    let written = job.append(&header_line(header));
                    written.map_err(at(&job.path))?;
                    sync_folder(&self.folder);
                    return Ok(job);
                }
            }
        }
        Err(StoreError::Unusable {
            name: base,
            reason: "no name is free".to_owned(),
        })
    }

    /// Opens a job. Where another console holds it, it can be read only.
    pub fn open(&self, name: &str) -> Result<Opened, StoreError> {
        let path = self.path(name);
        let mut problems = Vec::new();
        let writable = OpenOptions::new().read(true).append(true).open(&path);
        let (mut file, mut may_write) = match writable {
            Ok(file) => (file, true),
            Err(error) if error.kind() == io::ErrorKind::PermissionDenied => {
                problems.push("the file cannot be written, so the job can only be read".to_owned());
                (File::open(&path).map_err(at(&path))?, false)
            }
            Err(error) if error.kind() == io::ErrorKind::NotFound => {
                return Err(StoreError::Unusable {
                    name: name.to_owned(),
                    reason: format!("there is none of that name in {}", self.folder.display()),
                });
            }
            Err(error) => return Err(at(&path)(error)),
        };
        if may_write && let Err(TryLockError::WouldBlock) = file.try_lock() {
            problems.push("another console holds this job, so it can only be read".to_owned());
            may_write = false;
        }
        let mut bytes = Vec::new();
        file.read_to_end(&mut bytes).map_err(at(&path))?;
        let (mut lines, good) = whole_lines(&bytes);
        if good < bytes.len() {
            problems.push(
                "the last line was torn and was never confirmed as saved; it is left out"
                    .to_owned(),
            );
        }
        let unusable = |reason: String| StoreError::Unusable {
            name: name.to_owned(),
            reason,
        };
        if lines.is_empty() {
            return Err(unusable("it has no whole line".to_owned()));
        }
        let header = read_header(&lines.remove(0)).map_err(unusable)?;
        let file = may_write.then_some(JobFile {
            file,
            path,
            good: good as u64,
        });
        Ok(Opened {
            header,
            lines,
            problems,
            file,
        })
    }
}

/// The whole lines of a file and the bytes they take. A last line without its end is whole if it
/// is a whole JSON value: only the line end was lost.
fn whole_lines(bytes: &[u8]) -> (Vec<String>, usize) {
    let mut lines = Vec::new();
    let mut good = 0;
    for piece in bytes.split_inclusive(|byte| *byte == b'\n') {
        let text = String::from_utf8_lossy(piece);
        let ended = piece.ends_with(b"\n");
        let text = text.trim_end_matches(['\n', '\r']);
        let whole = || serde_json::from_str::<serde_json::Value>(text).is_ok();
        if !ended && !whole() {
            break;
        }
        lines.push(text.to_owned());
        good += piece.len();
    }
    (lines, good)
}

/// Makes the name of a new file last. Systems that cannot do this lose nothing by it.
fn sync_folder(folder: &Path) {
    if let Ok(folder) = File::open(folder) {
        let _ = folder.sync_all();
    }
}

impl Drop for JobFile {
    /// The lock ends here and not with the last copy of the file's handle: a program that another
    /// thread is just starting holds one for a moment.
    fn drop(&mut self) {
        let _ = self.file.unlock();
    }
}

impl JobFile {
    /// Appends a line and has it on disk before it returns.
    ///
    /// Errors: nothing counts as written; the next append takes the place of what was left half.
    pub fn append(&mut self, line: &str) -> io::Result<()> {
        if !self.path.exists() {
            // Writing into a file that was removed would look like saving and be none.
            return Err(io::Error::new(
                io::ErrorKind::NotFound,
                "the job file is gone",
            ));
        }
        let length = self.file.seek(SeekFrom::End(0))?;
        if length > self.good {
            self.file.set_len(self.good)?;
        }
        let mut text = String::new();
        if self.good > 0 && !self.ends_with_line_end()? {
            text.push('\n');
        }
        text.push_str(line);
        text.push('\n');
        let written = self
            .file
            .write_all(text.as_bytes())
            .and_then(|()| self.file.sync_data());
        if let Err(error) = written {
            // Whatever was left half is cut off; if that fails too, the next open leaves it out.
            let _ = self.file.set_len(self.good);
            return Err(error);
        }
        self.good += text.len() as u64;
        Ok(())
    }

    fn ends_with_line_end(&mut self) -> io::Result<bool> {
        self.file.seek(SeekFrom::Start(self.good - 1))?;
        let mut last = [0];
        self.file.read_exact(&mut last)?;
        Ok(last == *b"\n")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::stamp::Stamp;

    #[test]
    fn a_closed_job_is_free_at_once_though_its_handle_was_copied() {
        let folder = tempfile::tempdir().unwrap();
        let store = Store::new(folder.path().to_owned());
        let mut header = Header {
            job: String::new(),
            tree: "tree".to_owned(),
            tree_version: None,
            checksum: String::new(),
            aircraft: None,
            opened: Stamp::from_seconds(0),
            program: String::new(),
        };
        let job = store.create(&mut header).unwrap();
        // What a program that is just being started by another thread holds for a moment.
        let copy = job.file.try_clone().unwrap();
        assert!(
            store.open(&header.job).unwrap().file.is_none(),
            "it is held"
        );
        drop(job);
        let again = store.open(&header.job).unwrap();
        assert!(again.file.is_some(), "{:?}", again.problems);
        drop(copy);
    }
}
