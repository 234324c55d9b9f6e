//! Faults by their names, `PART/FAULT`, with a severity.

use crate::base::quantity::plain_decimal;
use crate::base::suggestion::nearest;
use crate::plant::aircraft::Aircraft;
use crate::plant::handle::Change;

/// Why a fault cannot be put in.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum FaultError {
    /// There is no slash.
    #[error("`{0}` is not a fault; write PART/FAULT")]
    Form(String),
    /// There is no such part or fault.
    #[error("{what} `{name}`; {hint}")]
    Unknown {
        /// What there is none of.
        what: String,
        /// What was written.
        name: String,
        /// What may be meant.
        hint: String,
    },
    /// The severity is no number.
    #[error("`{0}`: the severity is not a number; 1 is the usual case, 0 takes the fault out")]
    Severity(String),
}

/// Reads a fault; 0 as its severity takes it out.
pub fn fault(aircraft: &Aircraft, name: &str, severity: &str) -> Result<Change, FaultError> {
    let Some((part_id, fault_id)) = name.split_once('/') else {
        return Err(FaultError::Form(name.to_owned()));
    };
    let Some(part) = aircraft.part_for(part_id) else {
        let known = aircraft.parts.iter().map(|part| part.id.as_str());
        return Err(unknown("there is no part".to_owned(), part_id, known));
    };
    if part.fault(fault_id).is_none() {
        let known = part.faults.iter().map(|fault| fault.id.as_str());
        let what = format!("`{}` has no fault", part.id);
        return Err(unknown(what, fault_id, known));
    }
    let number = plain_decimal(severity.trim());
    let number = number.ok_or_else(|| FaultError::Severity(severity.trim().to_owned()))?;
    Ok(Change::Fault(part.id.clone(), fault_id.to_owned(), number))
}

fn unknown<'a>(what: String, name: &str, known: impl Iterator<Item = &'a str>) -> FaultError {
    let known: Vec<&str> = known.collect();
    let hint = match nearest(name, known.iter().copied()) {
        Some(near) => format!("did you mean `{near}`?"),
        None if known.is_empty() => "there are none".to_owned(),
        None if known.len() > 12 => "the list of faults has them all".to_owned(),
        None => format!("there are: {}", known.join(", ")),
    };
    FaultError::Unknown {
        what,
        name: name.to_owned(),
        hint,
    }
}
