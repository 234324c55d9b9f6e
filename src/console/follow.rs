//! A followed file in the console: what came is saved like anything that was typed.

use super::commit::{Save, commit};
use super::state::State;
use crate::base::stamp::Stamp;

/// Looks at most this many times in a row, so that a key is never kept waiting for long.
const LOOKS: usize = 8;

/// Takes what was appended to the followed file; true where another question is on the screen.
pub fn look(state: &mut State, now: Stamp, save: &mut Save<'_>) -> bool {
    let mut changed = false;
    for _ in 0..LOOKS {
        let Some(mut follow) = state.follow.take() else {
            return changed;
        };
        let looked = follow.look(&state.job, now);
        state.follow = Some(follow);
        if let Some(what) = looked.entry {
            changed |= commit(state, what, now, save);
        }
        // After what was saved, so that a line that cannot be read stays in sight.
        for said in &looked.said {
            state.say(said);
        }
        if !looked.more {
            return changed;
        }
    }
    changed
}
