//! What a number measures. A quantity of one kind is never accepted for another.

/// The kinds of physical quantity that documents and readings may hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Dimension {
    /// Gauge pressure, relative to the surrounding air.
    GaugePressure,
    /// Absolute pressure, relative to vacuum.
    AbsolutePressure,
    /// Temperature on a scale, not a difference.
    Temperature,
    /// Volume.
    Volume,
    /// Volume per time.
    Flow,
    /// Time.
    Time,
    /// Occurrences per time.
    Rate,
    /// Mass.
    Mass,
    /// Mass per volume.
    Density,
    /// Length.
    Length,
    /// Area.
    Area,
    /// Speed.
    Speed,
    /// Force.
    Force,
    /// Electrical resistance.
    Resistance,
    /// Electrical potential.
    Voltage,
    /// Kinematic viscosity.
    Viscosity,
    /// Rise over run.
    Slope,
    /// Part per kelvin, for thermal expansion.
    PerKelvin,
}

impl Dimension {
    /// The word a message uses for this kind of quantity.
    pub fn word(self) -> &'static str {
        match self {
            Self::GaugePressure => "a pressure",
            Self::AbsolutePressure => "an absolute pressure",
            Self::Temperature => "a temperature",
            Self::Volume => "a volume",
            Self::Flow => "a flow",
            Self::Time => "a time",
            Self::Rate => "a rate",
            Self::Mass => "a mass",
            Self::Density => "a density",
            Self::Length => "a length",
            Self::Area => "an area",
            Self::Speed => "a speed",
            Self::Force => "a force",
            Self::Resistance => "a resistance",
            Self::Voltage => "a voltage",
            Self::Viscosity => "a viscosity",
            Self::Slope => "a slope",
            Self::PerKelvin => "an expansion per kelvin",
        }
    }
}
