//! Facts of a parking that the plant takes as they are typed, without bands.

use crate::base::dimension::Dimension;

/// What a fact is to the plant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fact {
    /// Time from the last pump that stopped to the movement.
    TimeToMovement,
    /// Rise over run under the wheels.
    Slope,
    /// Wind from behind.
    Wind,
    /// Charge of the store as the pumps stopped.
    Charge,
    /// Air temperature; two values are that of the beginning and that of the end.
    Temperature,
}

/// One row of the list.
#[derive(Debug, PartialEq)]
pub struct FactRow {
    /// The fact.
    pub fact: Fact,
    /// Its name in documents.
    pub name: &'static str,
    /// What it measures.
    pub dimension: Dimension,
    /// Least value taken, SI.
    pub least: f64,
    /// Most value taken, SI.
    pub most: f64,
    /// What is to be typed.
    pub typed: &'static str,
}

const fn row(
    fact: Fact,
    name: &'static str,
    dimension: Dimension,
    ends: (f64, f64),
    typed: &'static str,
) -> FactRow {
    let (least, most) = ends;
    FactRow {
        fact,
        name,
        dimension,
        least,
        most,
        typed,
    }
}

/// Every fact. Ends are wide: they stop slips, not unusual parkings.
pub static FACTS: [FactRow; 5] = [
    row(
        Fact::TimeToMovement,
        "time-to-movement",
        Dimension::Time,
        (0.0, 100.0 * 86_400.0),
        "a time with its unit, or `2 h to 5 h`: last seen still, first seen moved",
    ),
    row(
        Fact::Slope,
        "slope",
        Dimension::Slope,
        (-0.2, 0.2),
        "a slope such as `1 %`, or `1 % to 2 %`",
    ),
    row(
        Fact::Wind,
        "wind",
        Dimension::Speed,
        (-70.0, 70.0),
        "a speed with its unit, such as `20 kt`; from ahead with a minus",
    ),
    row(
        Fact::Charge,
        "charge",
        Dimension::GaugePressure,
        (0.0, 6e7),
        "a pressure with its unit, such as `200 bar` or `2900 psi`",
    ),
    row(
        Fact::Temperature,
        "temperature",
        Dimension::Temperature,
        (203.15, 343.15),
        "a temperature with its unit, or two: `18 C to 4 C`",
    ),
];

impl Fact {
    /// The fact of a name.
    pub fn find(name: &str) -> Option<Self> {
        FACTS
            .iter()
            .find(|row| row.name == name)
            .map(|row| row.fact)
    }

    /// Its row.
    pub fn row(self) -> &'static FactRow {
        // Every fact has its row; the first stands in for none.
        FACTS
            .iter()
            .find(|row| row.fact == self)
            .unwrap_or(&FACTS[0])
    }

    /// All names.
    pub fn names() -> Vec<&'static str> {
        FACTS.iter().map(|row| row.name).collect()
    }
}
