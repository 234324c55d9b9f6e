//! How long a step is tried: as long as its error and the next change of mode allow.

/// Longest step, s.
const LONGEST: f64 = 1800.0;
/// A step with a change of mode in it is made this short, s: the error of every switching time.
const EVENT: f64 = 0.25;
/// What is over sooner than this is passed over in one step, s: no gauge and no hand follows it,
/// volumes balance all the same, and the method does not ring on it.
const QUICK: f64 = 5e-3;
/// First step after something was moved, s: fluid starts at once.
const FIRST: f64 = 0.02;

/// What the steps so far say about the length of the next one.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pace {
    next: f64,
    /// A longer step met a change of mode before this moment, s.
    change_by: f64,
    /// Whether a longer step was refused since the last one taken.
    refused: bool,
}

impl Default for Pace {
    fn default() -> Self {
        Self {
            next: 1.0,
            change_by: 0.0,
            refused: false,
        }
    }
}

impl Pace {
    /// Begins small: something was moved.
    pub fn start(&mut self) {
        self.next = self.next.min(FIRST);
        self.change_by = 0.0;
    }

    /// The longest step from a moment, s.
    ///
    /// Where a change of mode is known to come, half the way to it: tried whole again, the step
    /// would be refused again.
    pub fn bound(&self, now: f64) -> f64 {
        let left = self.change_by - now;
        if left > 0.0 {
            (left * 0.5).max(EVENT)
        } else {
            LONGEST
        }
    }

    /// The step to try within a bound, s.
    pub fn first_try(&mut self, bound: f64) -> f64 {
        self.refused = false;
        self.next.min(bound)
    }

    /// A shorter step after one for which no pressures were found.
    pub fn after_no_pressure(&mut self, seconds: f64) -> f64 {
        self.refused = true;
        seconds * 0.25
    }

    /// A shorter step after one with too large an error; `None` where the error is allowed.
    pub fn after_error(&mut self, error: f64, seconds: f64) -> Option<f64> {
        let share = error / allowed(seconds);
        if share <= 1.0 || seconds <= QUICK {
            return None;
        }
        self.refused = true;
        Some((seconds * (0.9 / share.sqrt()).clamp(0.1, 0.7)).max(QUICK))
    }

    /// A shorter step after one with a change of mode in it; `None` where it is short enough.
    pub fn after_change(&mut self, now: f64, seconds: f64) -> Option<f64> {
        // A change is where it is: the step that holds it ends the search for it.
        if seconds <= EVENT * (1.0 + 1e-9) {
            self.change_by = 0.0;
            return None;
        }
        self.change_by = now + seconds;
        Some((seconds * 0.5).max(EVENT))
    }

    /// Takes a step, and chooses how long the next will be tried.
    pub fn take(&mut self, error: f64, seconds: f64, bound: f64) {
        let share = error / allowed(seconds);
        // What a longer step met is still ahead, so the next one is no longer than this.
        let most = if self.refused { 1.0 } else { 5.0 };
        let growth = (0.9 / share.max(1e-6).sqrt()).clamp(0.3, most);
        // A step cut short from outside says little about how long the next may be.
        let cut_short = seconds >= bound * (1.0 - 1e-9);
        let grown = (seconds * growth).clamp(QUICK, LONGEST);
        self.next = if cut_short {
            grown.max(self.next)
        } else {
            grown
        };
    }
}

/// The error that a step may have, as a multiple of the one of a long step.
///
/// While pedals move or a valve opens, what counts is where the pressures come to rest, and
/// volumes decide that, not the way there. Fourteen applications of the demo aircraft end within
/// 1 in 100 of what a hundredth of this error gives at 3 s each, within 1 in 1,000 at 7.5 s each.
fn allowed(seconds: f64) -> f64 {
    (1.0 + 0.5 / seconds).min(100.0)
}
