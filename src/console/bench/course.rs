//! The course on the bench: back to its beginning, begun anew, taken back.

use super::state::State;
use super::table::Act;
use crate::plant::control::charge;
use crate::plant::course::{Charge, Course, Play};

/// Takes an act that concerns the course.
pub(super) fn course(state: &mut State, act: Act, rest: &str) -> Result<(), String> {
    let now = state.play.course();
    let (course, said) = match act {
        Act::Start => {
            let begin = Course {
                then: Vec::new(),
                until: 0,
                ..now.clone()
            };
            (begin, "Back at the beginning of the course.".to_owned())
        }
        Act::Park => {
            let most = state.play.plant().pump_pressure();
            let read = |text: &str| {
                let pascals = charge("the store", text, most)
                    .map_err(|error| format!("Not parked: {error}."))?;
                let text = text.to_owned();
                Ok::<_, String>(Charge { text, pascals })
            };
            let typed = (!rest.is_empty()).then(|| read(rest)).transpose()?;
            let anew = now.anew(state.play.aircraft(), typed);
            let store = anew.charge.as_ref().map_or("full", |charge| &charge.text);
            let said = format!("Parked anew with everything as it is set, store {store}.");
            (anew, said)
        }
        _ => {
            let mut less = now.clone();
            let last = less
                .then
                .pop()
                .ok_or("Nothing was set since the beginning.")?;
            (less, format!("Taken back: {} {}.", last.name, last.value))
        }
    };
    replace(state, &course)?;
    state.running = false;
    state.unsaved = true;
    state.say(&said);
    Ok(())
}

/// Puts another course on the bench; where it cannot be played, the old one stays.
pub fn replace(state: &mut State, course: &Course) -> Result<(), String> {
    let aircraft = state.play.aircraft();
    let play = Play::new(aircraft, course).map_err(|error| format!("Not played: {error}."))?;
    state.play = play;
    state.tried = None;
    state.look();
    Ok(())
}
