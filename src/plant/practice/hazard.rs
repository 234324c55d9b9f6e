//! How much a step can hurt, as a rank: less is proposed first.

/// The ranks, mildest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Hazard {
    /// Looking and asking.
    Look,
    /// Reading or fitting a gauge on what is already open.
    Gauge,
    /// Switching power.
    Power,
    /// Running a pump.
    Pressure,
    /// Letting the brake go.
    Release,
    /// Opening a line, a charge or a connector.
    Open,
}

impl Hazard {
    /// All ranks, mildest first.
    pub const ALL: [Self; 6] = [
        Self::Look,
        Self::Gauge,
        Self::Power,
        Self::Pressure,
        Self::Release,
        Self::Open,
    ];

    /// The word in documents.
    pub fn word(self) -> &'static str {
        match self {
            Self::Look => "look",
            Self::Gauge => "gauge",
            Self::Power => "power",
            Self::Pressure => "pressure",
            Self::Release => "release",
            Self::Open => "open",
        }
    }

    /// The rank a word names.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|hazard| hazard.word() == word)
    }
}

/// The words, as documents write them.
pub fn names() -> Vec<&'static str> {
    Hazard::ALL.into_iter().map(Hazard::word).collect()
}
