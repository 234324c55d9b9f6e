//! Fault trees in the Open-PSA Model Exchange Format (version 2.0d; element names from an open data
//! set and its schema), out and in.
//!
//! The format carries gates, events and chances. What a troubleshooting tree has beyond that is
//! listed whenever a tree is written, so that nobody takes the file for the whole.

pub mod export;
mod formula;
pub mod import;
mod not_carried;
mod written;

/// What an exchange gave.
#[derive(Debug, Clone, PartialEq)]
pub struct Exchanged {
    /// The text in the other form.
    pub text: String,
    /// What could not be carried, a sentence each.
    pub lost: Vec<String>,
}
