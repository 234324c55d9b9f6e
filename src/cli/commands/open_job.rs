//! Opening a job file: header, tree, entries, and what was odd about them.

use std::sync::Arc;

use crate::authoring::desk::Desk;
use crate::authoring::document;
use crate::diagnosis::inference::Inference;
use crate::diagnosis::model::Model;
use crate::session::header::Header;
use crate::session::job::Job;
use crate::session::journal::entries;
use crate::session::store::{JobFile, Store};

/// A job with everything that is needed to work it.
pub struct OpenJob {
    /// Its header.
    pub header: Header,
    /// The job.
    pub job: Job,
    /// The file; `None` where it can be read only.
    pub file: Option<JobFile>,
    /// What was odd, for people.
    pub notes: Vec<String>,
}

/// Why a job could not be opened.
pub enum Failure {
    /// The tree cannot be used; exit code.
    Tree(u8),
    /// Something else.
    Other(anyhow::Error),
}

/// Loads a tree; prints why and gives the exit code where that fails.
pub fn load(tree: &str, aircraft: Option<&str>) -> Result<Arc<Model>, u8> {
    let mut desk = Desk::default();
    match document::tree(&mut desk, tree, aircraft) {
        Some(model) => Ok(Arc::new(model)),
        None => Err(super::rank::complain_of(&mut desk)),
    }
}

/// Opens a job by name.
pub fn open(store: &Store, name: &str) -> Result<OpenJob, Failure> {
    let opened = store
        .open(name)
        .map_err(|error| Failure::Other(error.into()))?;
    let header = opened.header;
    let model = load(&header.tree, header.aircraft.as_deref()).map_err(Failure::Tree)?;
    let mut notes = opened.problems;
    if model.checksum != header.checksum {
        notes.push("the tree or its aircraft has changed since the job was opened".to_owned());
    }
    let lines = opened.lines.iter().map(String::as_str);
    let (entries, problems) = entries(lines, &model);
    notes.extend(problems);
    Ok(OpenJob {
        header,
        job: Job::new(Arc::new(Inference::new(model)), entries),
        file: opened.file,
        notes,
    })
}
