//! What people do to the aircraft: actions that change its state, set-ups that give access.

use super::practice::Word;
use super::state::{Needs, Setting};

/// Something that changes the state of the aircraft.
#[derive(Debug, Clone, PartialEq)]
pub struct Action {
    /// Its name.
    pub id: String,
    /// The positions it leaves behind.
    pub sets: Vec<Setting>,
    /// States it must start from.
    pub needs: Needs,
    /// Minutes it takes.
    pub minutes: f64,
    /// How it is done and what stands in the way.
    pub step: Step,
}

/// A set-up that several checks share and that is paid once.
#[derive(Debug, Clone, PartialEq)]
pub struct Access {
    /// Its name.
    pub id: String,
    /// Minutes it takes, once.
    pub minutes: f64,
    /// How it is done and what stands in the way.
    pub step: Step,
}

/// What every step on the aircraft carries.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Step {
    /// What is done.
    pub instruction: String,
    /// People it takes.
    pub people: u32,
    /// What must be in place first.
    pub locks: Vec<&'static Word>,
    /// Evidence it takes away.
    pub takes_away: Vec<&'static Word>,
    /// Cautions shown with it.
    pub cautions: Vec<&'static Word>,
    /// Where the approved data stand.
    pub reference: Option<String>,
}
