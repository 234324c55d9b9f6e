//! What a problem code is: short, permanent, explained.

/// How bad a problem is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// The document cannot be used; exit code 1.
    Error,
    /// The document can be used; a release refuses it.
    Warning,
}

impl Severity {
    /// The word that stands before the code.
    pub fn word(self) -> &'static str {
        match self {
            Self::Error => "error",
            Self::Warning => "warning",
        }
    }
}

/// One kind of problem.
#[derive(Debug, PartialEq)]
pub struct Code {
    /// A letter for the family and three digits. Never reused.
    pub id: &'static str,
    /// How bad it is.
    pub severity: Severity,
    /// What is wrong, in a few words.
    pub title: &'static str,
    /// What it means, why it matters and how to mend it.
    pub text: &'static str,
}

/// Declares the codes of one family as constants, and their list in the order written.
macro_rules! codes {
    ($($name:ident $id:literal $severity:ident $title:literal $text:literal;)*) => {
        $(
            #[doc = $title]
            pub const $name: &$crate::source::code::Code = &$crate::source::code::Code {
                id: $id,
                severity: $crate::source::code::Severity::$severity,
                title: $title,
                text: $text,
            };
        )*
        /// Every code of this family.
        pub const ALL: &[&$crate::source::code::Code] = &[$($name),*];
    };
}
pub(super) use codes;
