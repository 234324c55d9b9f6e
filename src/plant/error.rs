//! Why a plant cannot be built, set or solved. Names ids; whoever read the document knows places.

use crate::base::text::decimal;

/// What went wrong.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PlantError {
    /// The document has too little for what is asked.
    #[error("aircraft `{aircraft}` cannot be solved: it has no {missing}")]
    Missing {
        /// The aircraft.
        aircraft: String,
        /// What it lacks.
        missing: String,
    },
    /// Two parts hold one net at a pressure of their own.
    #[error("`{first}` and `{second}` both feed the net of `{net}`")]
    TwoSupplies {
        /// The net, by its first port.
        net: String,
        /// One of the parts.
        first: String,
        /// The other.
        second: String,
    },
    /// The pressures of a net were not found.
    #[error("no pressure was found for the net of `{net}`, {hours:.3} h after the start")]
    NoPressure {
        /// The net, by its first port.
        net: String,
        /// When, h.
        hours: f64,
    },
    /// A net without fluid goes back and forth for ever.
    #[error("the net of `{net}` does not settle")]
    NeverSettles {
        /// The net, by its first port.
        net: String,
    },
    /// There is no such part.
    #[error("there is no part `{0}`")]
    NoPart(String),
    /// The part has no such fault in this aircraft.
    #[error("part `{part}` has no fault `{fault}` in this aircraft")]
    NoFault {
        /// The part.
        part: String,
        /// The fault.
        fault: String,
    },
    /// There is no such switch or position.
    #[error("`{0}` has no position `{1}`")]
    NoPosition(String, String),
    /// A number outside of what can be meant.
    #[error("{what} of {value} is not possible; {wanted}")]
    OutOfRange {
        /// What was set.
        what: &'static str,
        /// Its value with its unit.
        value: String,
        /// What is accepted.
        wanted: &'static str,
    },
}

/// A pressure in both units, for messages.
pub(super) fn pressure_words(pascals: f64) -> String {
    let [bar, psi] = [1e5, crate::base::unit::PSI].map(|unit| decimal(pascals / unit, 0));
    format!("{bar} bar ({psi} psi)")
}
