//! Where in a text something stands.

use std::ops::Range;

/// Which of the texts read in this run.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FileId(pub(super) usize);

/// A stretch of a text, in bytes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    /// The text.
    pub file: FileId,
    /// The bytes from start up to but not including end.
    pub bytes: Range<usize>,
}

impl Place {
    /// A stretch of a text.
    pub fn new(file: FileId, bytes: Range<usize>) -> Self {
        Self { file, bytes }
    }
}
