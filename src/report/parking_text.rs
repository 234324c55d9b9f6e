//! How a parking is described above what came of it.

use crate::base::text::{decimal, wrap};
use crate::base::unit::PSI;

/// The line under every figure of the plant.
pub const NOT_APPROVED: &str = "Figures of a model, not approved data. The approved maintenance data of the aircraft in hand govern; nothing here releases an aircraft.";

/// What somebody asked about, in words.
#[derive(Debug, Clone, PartialEq)]
pub struct Described {
    /// Title of the aircraft.
    pub title: String,
    /// Its note: that it is invented.
    pub note: String,
    /// Positions of the switches.
    pub state: String,
    /// Charge in both units.
    pub charge: String,
    /// Temperature.
    pub temperature: String,
    /// Slope, with the wind where there is any.
    pub slope: String,
    /// Titles of the faults that were put in, with their severity where it is not the usual.
    pub faults: Vec<String>,
}

impl Described {
    /// The lines above the figures.
    pub fn heading(&self) -> String {
        let faults = if self.faults.is_empty() {
            "Nothing wrong put in.".to_owned()
        } else {
            format!("Put in: {}.", self.faults.join("; "))
        };
        let lines = [
            self.title.clone(),
            self.note.clone(),
            format!(
                "{}, {}, store at {} as the pumps stop.",
                self.temperature, self.slope, self.charge
            ),
            format!("Switches: {}.", self.state),
            faults,
            String::new(),
        ];
        let wrapped = lines.iter().flat_map(|line| wrap(line, 80));
        wrapped.map(|line| line + "\n").collect()
    }
}

/// A pressure in both units: `186 bar (2704 psi)`.
pub fn pressure(pascals: f64) -> String {
    let [bar, psi] = [1e5, PSI].map(|unit| decimal(pascals / unit, 0));
    format!("{bar} bar ({psi} psi)")
}
