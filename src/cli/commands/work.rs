//! Without a command: the console on the embedded tree, or the same line by line.

use std::sync::Arc;

use crate::authoring::desk::Desk;
use crate::authoring::{document, embedded};
use crate::cli::exit;
use crate::cli::surroundings::Surroundings;
use crate::console::state::State;
use crate::console::{app, plain, theme};
use crate::diagnosis::inference::Inference;
use crate::session::job::Job;

/// Opens the console, or asks line by line where there is no terminal for it.
pub fn run(plain: bool, surroundings: &Surroundings) -> anyhow::Result<u8> {
    let mut desk = Desk::default();
    let Some(model) = document::tree(&mut desk, embedded::STARTER_TREE, None) else {
        return Ok(super::rank::complain_of(&mut desk));
    };
    let inference = Arc::new(Inference::new(Arc::new(model)));
    let mut state = State::new(Job::new(inference));
    if plain || !surroundings.full_screen {
        let mut input = std::io::stdin().lock();
        let mut out = std::io::stdout().lock();
        match plain::run(&mut state, &mut input, &mut out) {
            Err(error) if error.kind() == std::io::ErrorKind::BrokenPipe => {}
            other => other?,
        }
    } else {
        let theme = if surroundings.colour {
            theme::TERMINAL
        } else {
            theme::MONO
        };
        app::run(&mut state, &theme)?;
    }
    Ok(exit::FINE)
}
