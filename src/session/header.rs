//! The first line of a job file: which job, on which tree and aircraft.

use crate::base::stamp::Stamp;

/// The newest version of the job format this program writes and reads.
/// The second knows readings of watched gauges.
pub const VERSION: u64 = 2;

/// What a job rests on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Header {
    /// Name of the job.
    pub job: String,
    /// Name of the tree, as it was opened.
    pub tree: String,
    /// Number of the tree.
    pub tree_version: Option<String>,
    /// Checksum of the tree and of its aircraft.
    pub checksum: String,
    /// Name of the aircraft document, as it was opened; the tree's own where none was named.
    pub aircraft: Option<String>,
    /// When the job was opened.
    pub opened: Stamp,
    /// Version of the program that opened it.
    pub program: String,
}
