//! Timers: started by an entry, so they run on through a restart.

use crate::base::stamp::Stamp;

/// One timer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Timer {
    /// What it is for.
    pub label: String,
    /// When it was started.
    pub started: Stamp,
    /// Minutes it runs.
    pub minutes: u32,
}

impl Timer {
    /// The moment it ends.
    pub fn ends(&self) -> Stamp {
        Stamp::from_seconds(self.started.seconds() + i64::from(self.minutes) * 60)
    }

    /// Seconds left at a moment; negative once it is over.
    pub fn left(&self, now: Stamp) -> i64 {
        self.ends().seconds() - now.seconds()
    }

    /// One line about it that stays true while nothing is pressed: moments, no countdown.
    pub fn line(&self, now: Stamp) -> String {
        let (label, minutes, ends) = (&self.label, self.minutes, self.ends().clock());
        if self.left(now) > 0 {
            format!("TIMER {label}: runs until {ends}, {minutes} min in all")
        } else {
            format!("TIMER {label}: OVER since {ends}, {minutes} min in all")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_timer_counts_from_its_start() {
        let timer = Timer {
            label: "leak-down".into(),
            started: Stamp::from_seconds(1000),
            minutes: 30,
        };
        assert_eq!(timer.left(Stamp::from_seconds(1000 + 60)), 29 * 60);
        // 1000 s and 30 min are 00:46:40.
        let over = timer.line(Stamp::from_seconds(1000 + 40 * 60));
        assert_eq!(over, "TIMER leak-down: OVER since 00:46Z, 30 min in all");
    }
}
