//! Entries that must take exactly one of several forms.

use crate::base::text::listed;

/// The keys that stand, in the order given.
pub fn standing<'a>(forms: &[(&'a str, bool)]) -> Vec<&'a str> {
    forms
        .iter()
        .filter(|(_, stands)| *stands)
        .map(|(key, _)| *key)
        .collect()
}

/// What was found instead of exactly one, for a message.
pub fn found(forms: &[&str], nothing: &str) -> String {
    if forms.is_empty() {
        nothing.to_owned()
    } else {
        format!("{} at once", listed(forms, "and"))
    }
}
