//! Fixed words of the ramp, from their names. The form check has refused unknown ones already.

use crate::plant::practice::{Word, caution, closing, evidence, lock};

/// Cautions by name.
pub fn cautions(names: &[String]) -> Vec<&'static Word> {
    names
        .iter()
        .filter_map(|name| caution::find(name))
        .collect()
}

/// Locks by name.
pub fn locks(names: &[String]) -> Vec<&'static Word> {
    names.iter().filter_map(|name| lock::find(name)).collect()
}

/// Kinds of evidence by name.
pub fn evidences(names: &[String]) -> Vec<&'static Word> {
    names
        .iter()
        .filter_map(|name| evidence::find(name))
        .collect()
}

/// Closing tasks by name.
pub fn closings(names: &[String]) -> Vec<&'static Word> {
    names
        .iter()
        .filter_map(|name| closing::find(name))
        .collect()
}
