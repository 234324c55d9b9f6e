//! Where texts are opened: files and embedded documents, with everything wrong in them collected.

use std::io::Read;
use std::path::Path;

use super::embedded;
use super::limits::MAX_BYTES;
use super::survey::survey;
use super::yaml::Node;
use crate::base::name::is_name;
use crate::source::codes::document as code;
use crate::source::file::SourceFiles;
use crate::source::place::{FileId, Place};
use crate::source::problem::Problem;

/// Prefix of the names of embedded texts.
const EMBEDDED: &str = "embedded:";

/// The texts of one run and their problems.
#[derive(Debug, Default)]
pub struct Desk {
    /// The texts.
    pub files: SourceFiles,
    /// What is wrong in them.
    pub problems: Vec<Problem>,
    /// Whether a text could not be read at all, which has an exit code of its own.
    pub unreadable: bool,
    /// Bytes read so far; a refused file adds nothing.
    pub bytes_read: u64,
    /// What a reader should know and nothing is wrong with.
    pub notes: Vec<String>,
    /// Whether everything is worked out anew, whatever is kept beside a tree.
    pub without_kept: bool,
    /// Values seen so far; a limit that works keeps this small.
    pub nodes_seen: usize,
}

/// A text that was followed to its end.
#[derive(Debug)]
pub struct Opened {
    /// The text.
    pub file: FileId,
    /// Its value.
    pub root: Node,
}

impl Desk {
    /// Whether an error was found so far.
    pub fn has_errors(&self) -> bool {
        self.problems.iter().any(Problem::is_error)
    }

    /// Opens a document by the id of an embedded one, or by path.
    pub fn open(&mut self, name: &str) -> Option<Opened> {
        let embedded = if is_name(name) {
            embedded::by_id(name)
        } else {
            name.strip_prefix(EMBEDDED).and_then(embedded::by_path)
        };
        match embedded {
            Some(document) => {
                let file = self
                    .files
                    .add(format!("{EMBEDDED}{}", document.path), document.text);
                self.survey(file)
            }
            None => self.open_file(name),
        }
    }

    /// Takes in a text that may be missing. Errors hold the text, as far as it could be read, and
    /// the reason; they are nothing against the document it stands beside.
    pub fn optional(&mut self, name: &str) -> Result<Option<FileId>, (FileId, String)> {
        if let Some(path) = name.strip_prefix(EMBEDDED) {
            let text = embedded::by_path(path).map(|document| document.text);
            return Ok(text.map(|text| self.files.add(name, text)));
        }
        let about = std::fs::symlink_metadata(name);
        if about.is_err_and(|error| error.kind() == std::io::ErrorKind::NotFound) {
            return Ok(None);
        }
        let bytes =
            read_file(name).map_err(|refusal| (self.files.add(name, ""), refusal.message))?;
        self.bytes_read += bytes.len() as u64;
        match String::from_utf8(bytes) {
            Ok(text) => Ok(Some(self.files.add(name, text))),
            Err(_) => Err((self.files.add(name, ""), "it is not UTF-8".to_owned())),
        }
    }

    /// The name under which a document beside another one is opened.
    pub fn beside(&self, file: FileId, name: &str) -> String {
        let own = &self.files.get(file).name;
        let (prefix, path) = match own.strip_prefix(EMBEDDED) {
            Some(path) => (EMBEDDED, path),
            None => ("", own.as_str()),
        };
        if Path::new(name).is_absolute() {
            return name.to_owned();
        }
        let folder = Path::new(path).parent().unwrap_or(Path::new(""));
        format!("{prefix}{}", plain_path(&folder.join(name)))
    }

    fn open_file(&mut self, name: &str) -> Option<Opened> {
        let file = self.read(name)?;
        self.survey(file)
    }

    /// Takes in the text of a file, whatever stands in it.
    pub fn read(&mut self, name: &str) -> Option<FileId> {
        match read_file(name) {
            Ok(bytes) => {
                self.bytes_read += bytes.len() as u64;
                self.decode(name, &bytes)
            }
            Err(refusal) => {
                self.unreadable |= refusal.code != code::TOO_LONG;
                let file = self.files.add(name, "");
                let problem = Problem::new(refusal.code, Place::new(file, 0..0), refusal.message);
                self.problems.push(problem.hint(refusal.hint));
                None
            }
        }
    }

    fn decode(&mut self, name: &str, bytes: &[u8]) -> Option<FileId> {
        match std::str::from_utf8(bytes) {
            // A byte-order mark is no part of the text.
            Ok(text) => Some(self.files.add(name, text.trim_start_matches('\u{feff}'))),
            Err(error) => {
                let good = error.valid_up_to();
                let (head, tail) = bytes.split_at(good);
                let bad = tail.first().copied().unwrap_or(0);
                let text = String::from_utf8_lossy(head).into_owned();
                let file = self.files.add(name, text);
                let message = format!("byte {} of the file, 0x{bad:02x}, is not UTF-8", good + 1);
                let problem = Problem::new(code::NOT_UTF8, Place::new(file, good..good), message);
                self.problems.push(problem.hint("save the file as UTF-8"));
                None
            }
        }
    }

    fn survey(&mut self, file: FileId) -> Option<Opened> {
        let text = self.files.get(file).text.clone();
        let found = survey(&text, file);
        self.nodes_seen += found.nodes_seen;
        let clean = found.problems.is_empty();
        self.problems.extend(found.problems);
        if clean
            && found
                .root
                .as_ref()
                .is_none_or(|root| root.text() == Some(""))
        {
            let problem = Problem::new(
                code::EMPTY,
                Place::new(file, 0..0),
                "there is no document here",
            );
            self.problems
                .push(problem.hint("start with `stillwheel: tree 1`"));
            return None;
        }
        found.root.map(|root| Opened { file, root })
    }
}

/// Why a file was not read.
struct Refusal {
    code: &'static crate::source::code::Code,
    message: String,
    hint: String,
}

/// Reads a file whose length was looked at first.
fn read_file(name: &str) -> Result<Vec<u8>, Refusal> {
    let unreadable = |error: &std::io::Error| Refusal {
        code: code::NOT_READABLE,
        message: format!("cannot read this file: {}", reason(error)),
        hint: "look at the path, or name an embedded document by its id".to_owned(),
    };
    let too_long = |length: u64| Refusal {
        code: code::TOO_LONG,
        message: format!("the file has {length} bytes, and {MAX_BYTES} is the limit"),
        hint: "split a tree into files that name each other under `use`".to_owned(),
    };
    let about = std::fs::metadata(name).map_err(|error| unreadable(&error))?;
    if about.is_dir() {
        return Err(Refusal {
            code: code::IS_A_FOLDER,
            message: "this is a folder".to_owned(),
            hint: "name the files in it".to_owned(),
        });
    }
    if about.len() > MAX_BYTES {
        return Err(too_long(about.len()));
    }
    let file = std::fs::File::open(name).map_err(|error| unreadable(&error))?;
    let mut bytes = Vec::new();
    // A pipe tells no length, so the reading itself is limited too.
    file.take(MAX_BYTES + 1)
        .read_to_end(&mut bytes)
        .map_err(|error| unreadable(&error))?;
    if bytes.len() as u64 > MAX_BYTES {
        return Err(too_long(bytes.len() as u64));
    }
    Ok(bytes)
}

/// The reason in words that are the same on every system.
fn reason(error: &std::io::Error) -> String {
    use std::io::ErrorKind;
    match error.kind() {
        ErrorKind::NotFound => "it is not there".to_owned(),
        ErrorKind::PermissionDenied => "permission denied".to_owned(),
        _ => error.to_string(),
    }
}

/// `a/./b/../c` as `a/c`, with forward slashes.
fn plain_path(path: &Path) -> String {
    let mut parts: Vec<String> = Vec::new();
    for part in path.components() {
        match part {
            std::path::Component::CurDir => {}
            std::path::Component::ParentDir if parts.last().is_some_and(|p| p != "..") => {
                parts.pop();
            }
            other => parts.push(other.as_os_str().to_string_lossy().into_owned()),
        }
    }
    parts.join("/").replace("//", "/")
}
