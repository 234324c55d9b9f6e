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
    /// Seconds left at a moment; negative once it is over.
    pub fn left(&self, now: Stamp) -> i64 {
        self.started.seconds() + i64::from(self.minutes) * 60 - now.seconds()
    }

    /// One line about it.
    pub fn line(&self, now: Stamp) -> String {
        let (label, minutes) = (&self.label, self.minutes);
        match self.left(now) {
            left if left > 0 => {
                let (m, s) = (left / 60, left % 60);
                format!("TIMER {label}: {m}:{s:02} of {minutes} min left")
            }
            over => format!("TIMER {label}: OVER since {} min", -over / 60),
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
        let over = timer.line(Stamp::from_seconds(1000 + 40 * 60));
        assert_eq!(over, "TIMER leak-down: OVER since 10 min");
    }
}
