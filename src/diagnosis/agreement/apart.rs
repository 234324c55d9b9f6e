//! Causes that no check tells apart.

use super::Finding;
use crate::diagnosis::coverage::{alone, groups};
use crate::diagnosis::inference::{Inference, NoBelief};

/// Gathers causes that give every check the same answers, each group once.
pub fn compare(inference: &Inference, found: &mut Vec<Finding>) -> Result<(), NoBelief> {
    // A cause that cannot be there alone is told from nothing and from everything.
    let (causes, _) = alone(inference)?;
    found.extend(groups(&causes).into_iter().map(Finding::NotToldApart));
    Ok(())
}
