//! What a document may hold, as data: one table per kind of entry.
//!
//! The loader checks documents against these tables. A key is added here and nowhere else.

use crate::base::dimension::Dimension;

/// The form a value must have.
#[derive(Debug)]
pub enum Form {
    /// Free text in one value.
    Text,
    /// A name: lower-case words joined by hyphens.
    Name,
    /// One word of a fixed list.
    Word(fn() -> Vec<&'static str>),
    /// `true` or `false`.
    Flag,
    /// A plain decimal number, not negative.
    Number,
    /// A whole number, not negative.
    Count,
    /// A number from 0 to 1.
    Probability,
    /// A number with a unit of this kind.
    Quantity(Dimension),
    /// A list of values of one form.
    List(&'static Form),
    /// A value of this form, or a list of them.
    OneOrMore(&'static Form),
    /// A mapping from names to values of one form.
    Map(&'static Form),
    /// The fixed word, or a value of the other form.
    WordOr(&'static str, &'static Form),
    /// A mapping with the keys of a table.
    Entry(&'static Table),
    /// Left to whoever reads the entry.
    Any,
}

/// Whether an entry can do without a key.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Need {
    /// The entry cannot be understood without it.
    Must,
    /// It may be left out.
    May,
}

/// One key of an entry.
#[derive(Debug)]
pub struct Field {
    /// The key.
    pub key: &'static str,
    /// The form of its value.
    pub form: Form,
    /// Whether it may be left out.
    pub need: Need,
    /// What it says, in one sentence.
    pub doc: &'static str,
}

/// The keys of one kind of entry.
#[derive(Debug)]
pub struct Table {
    /// What the entry is, with its article, for messages.
    pub title: &'static str,
    /// Its keys.
    pub fields: &'static [Field],
    /// Whether other keys are left to whoever reads the entry.
    pub open: bool,
}

/// A key that may be left out.
pub const fn may(key: &'static str, form: Form, doc: &'static str) -> Field {
    Field {
        key,
        form,
        need: Need::May,
        doc,
    }
}

/// A key that must be there.
pub const fn must(key: &'static str, form: Form, doc: &'static str) -> Field {
    Field {
        key,
        form,
        need: Need::Must,
        doc,
    }
}
