//! Fixed words of the work on the ramp: cautions, locks, evidence, hazards, closing tasks.
//!
//! One list per kind of thing; a document may only use the words that stand here.

pub mod caution;
pub mod closing;
pub mod evidence;
pub mod hazard;
pub mod lock;

/// One word of a list, with what people read.
#[derive(Debug, PartialEq)]
pub struct Word {
    /// The word in documents.
    pub name: &'static str,
    /// What is shown.
    pub text: &'static str,
    /// The published ground, or how well it is known.
    pub source: &'static str,
}

/// The names of a list of words.
fn names_of(words: &'static [Word]) -> Vec<&'static str> {
    words.iter().map(|word| word.name).collect()
}

/// The entry of a list with this name.
fn find_in(words: &'static [Word], name: &str) -> Option<&'static Word> {
    words.iter().find(|word| word.name == name)
}

/// Declares the lookup functions of a list of words.
macro_rules! word_list {
    ($list:ident) => {
        /// The words, as documents write them.
        pub fn names() -> Vec<&'static str> {
            super::names_of($list)
        }

        /// The entry with this name.
        pub fn find(name: &str) -> Option<&'static super::Word> {
            super::find_in($list, name)
        }
    };
}
use word_list;
