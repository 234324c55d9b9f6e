//! What the bench reads: everything that can be looked at with every event, what has to be tried
//! when it is asked for.

use super::state::State;
use crate::base::suggestion::nearest;
use crate::plant::course::clock;
use crate::plant::error::PlantError;
use crate::plant::observe::{Observable, Observed, Reading, Rounds, readings_of};
use crate::report::readings::{differs, shown};

/// One reading beside that of the twin.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shown {
    /// Its name.
    pub name: String,
    /// What it is.
    pub title: String,
    /// What the aircraft shows.
    pub found: String,
    /// What the twin shows.
    pub healthy: String,
    /// Whether they differ by more than the instruments do.
    pub differs: bool,
    /// Whether it cannot be read in this state, on either.
    pub dead: bool,
}

/// What was tried, and when.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tried {
    /// Tenths of a second since the beginning.
    pub at: u64,
    /// What came of it.
    pub shown: Vec<Shown>,
}

impl State {
    /// Looks at everything that takes no time.
    pub fn look(&mut self) {
        let (plant, twin) = self.play.looked();
        let looked = both(&plant, &twin, |row| !row.is_tried());
        match looked {
            Ok((found, healthy)) => {
                self.shown = self.beside(&found, &healthy);
            }
            Err(error) => self.say(&format!("Not read: {error}.")),
        }
    }

    /// Tries what moves something or takes time, on copies.
    pub fn try_all(&mut self) -> Result<(), PlantError> {
        let (plant, twin) = self.play.tried()?;
        let (found, healthy) = both(&plant, &twin, Observable::is_tried)?;
        self.tried = Some(Tried {
            at: self.play.now(),
            shown: self.beside(&found, &healthy),
        });
        Ok(())
    }

    /// Says one reading in full, and tries it where it has to be tried; the error is for people.
    pub fn read(&mut self, name: &str) -> Result<(), String> {
        let known: Vec<String> = readings_of(self.play.aircraft())
            .map(|(name, ..)| name)
            .collect();
        if !known.iter().any(|known| known == name) {
            let hint = match nearest(name, known.iter().map(String::as_str)) {
                Some(near) => format!("did you mean {near}?"),
                None => format!("there are: {}", known.join(", ")),
            };
            return Err(format!("There is no reading {name}; {hint}."));
        }
        let now = self.play.now();
        let looked = self.shown.iter().any(|row| row.name == name);
        if !looked && self.tried.as_ref().is_none_or(|tried| tried.at != now) {
            self.try_all()
                .map_err(|error| format!("Not tried: {error}."))?;
        }
        let words = self.reading(name).map(|row| {
            let healthy = if row.differs {
                format!(" (healthy: {})", row.healthy)
            } else {
                String::new()
            };
            format!("{}: {}{healthy}.", row.title, row.found)
        });
        self.say(&words.unwrap_or_default());
        Ok(())
    }

    /// Everything read as values; what has not come yet is dead.
    pub fn observed(&self) -> Result<Vec<Observed>, PlantError> {
        let (plant, _) = self.play.tried()?;
        let (side, _) = self.play.sides();
        let mut read = plant.observe()?;
        for row in &mut read {
            if row.due.is_some_and(|hours| !side.has_come(hours)) {
                row.reading = Reading::Dead;
            }
        }
        Ok(read)
    }

    fn beside(&self, found: &[Observed], healthy: &[Observed]) -> Vec<Shown> {
        let aircraft = self.play.aircraft();
        let (side, _) = self.play.sides();
        let one = |(row, good): (&Observed, &Observed)| {
            let dead = row.reading == Reading::Dead && good.reading == Reading::Dead;
            // A reading with a time of its own waits for it.
            let early = !dead && row.due.is_some_and(|hours| !side.has_come(hours));
            let words = |row| {
                if early {
                    return "not yet".to_owned();
                }
                shown(aircraft, row)
            };
            Shown {
                name: row.name.clone(),
                title: row.title.clone(),
                found: words(row),
                healthy: words(good),
                differs: !early && differs(row, good),
                dead,
            }
        };
        found.iter().zip(healthy).map(one).collect()
    }

    /// A reading by its name, tried or looked at.
    pub fn reading(&self, name: &str) -> Option<&Shown> {
        let tried = self.tried.iter().flat_map(|tried| &tried.shown);
        self.shown.iter().chain(tried).find(|row| row.name == name)
    }

    /// In how many readings the aircraft differs from its twin, what was tried last included.
    pub fn differences(&self) -> usize {
        let now = self.play.now();
        let tried = self.tried.iter().filter(|tried| tried.at == now);
        let all = self
            .shown
            .iter()
            .chain(tried.flat_map(|tried| &tried.shown));
        all.filter(|row| row.differs).count()
    }

    /// `tried at 2 h`, where something was tried.
    pub fn tried_when(&self) -> Option<String> {
        let tried = self.tried.as_ref()?;
        Some(format!("Tried at {}", clock(tried.at)))
    }
}

fn both(
    plant: &Rounds,
    twin: &Rounds,
    wanted: impl Fn(&Observable) -> bool,
) -> Result<(Vec<Observed>, Vec<Observed>), PlantError> {
    Ok((plant.observe_where(&wanted)?, twin.observe_where(&wanted)?))
}
