//! How far a number can be trusted. No probability is printed without one.

use crate::tree::layers::OverBudget;

/// The certificate of a set of probabilities.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Certificate {
    /// Worked out in full: sums and products of the given figures, rounding aside.
    Exact,
    /// Not worked out, and why.
    Refused(String),
}

impl Certificate {
    /// The word for it.
    pub fn kind(&self) -> &'static str {
        match self {
            Self::Exact => "exact",
            Self::Refused(_) => "refused",
        }
    }

    /// Why it was refused.
    pub fn reason(&self) -> Option<&str> {
        match self {
            Self::Exact => None,
            Self::Refused(reason) => Some(reason),
        }
    }
}

impl From<OverBudget> for Certificate {
    fn from(error: OverBudget) -> Self {
        Self::Refused(error.to_string())
    }
}
