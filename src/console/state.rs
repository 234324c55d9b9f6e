//! What the console shows.

use super::prompt::{Agreed, Prompt, prompt};
use super::theme::Look;
use crate::base::stamp::Stamp;
use crate::session::job::Job;

/// The screens.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Screen {
    /// The work: fields, conditions, checks, the end.
    Work,
    /// What speaks for and against each cause.
    Why,
    /// Every entry.
    Log,
    /// Where you were.
    Pause,
    /// The ways to end.
    Ends,
    /// What was said since the start.
    Messages,
    /// The keys.
    Help,
}

/// The whole state of the console.
#[derive(Debug)]
pub struct State {
    /// The job.
    pub job: Job,
    /// Its name; empty before anything was saved.
    pub name: String,
    /// Whether it can be read only, because another console holds it.
    pub read_only: bool,
    /// The screen that is shown.
    pub screen: Screen,
    /// The marked answer of the question, or the first line shown of a list. No answer is marked
    /// before an arrow was pressed: a mark would push an answer.
    pub marked: Option<usize>,
    /// What is being typed.
    pub input: String,
    /// Whether a check that takes evidence away was agreed to.
    pub agreed: Agreed,
    /// What just happened; stays until the next action.
    pub message: String,
    /// Everything that was said.
    pub messages: Vec<String>,
    /// The time of the last event.
    pub now: Stamp,
    /// The look of the screen.
    pub look: Look,
}

impl State {
    /// The console at the start of a job.
    pub fn new(job: Job, name: &str, now: Stamp) -> Self {
        let mut state = Self {
            job,
            name: name.to_owned(),
            read_only: false,
            screen: Screen::Work,
            marked: None,
            input: String::new(),
            agreed: None,
            message: String::new(),
            messages: Vec::new(),
            now,
            look: Look::Mono,
        };
        state.say("Aid only. Work to the approved maintenance data.");
        state
    }

    /// Shows a message and keeps it.
    pub fn say(&mut self, message: &str) {
        message.clone_into(&mut self.message);
        self.messages
            .push(format!("{} {message}", self.now.clock()));
    }

    /// What is asked now.
    pub fn prompt(&self) -> Option<Prompt> {
        prompt(&self.job, self.agreed)
    }

    /// Whether something is being typed on this screen: a field, or a command after a colon.
    pub fn typing(&self) -> bool {
        let wanted = self.prompt().is_some_and(|prompt| prompt.typed.is_some());
        self.screen == Screen::Work && (wanted || self.input.starts_with(':'))
    }

    /// Whether a question with answers by key is on the screen.
    pub fn asks(&self) -> bool {
        let asked = self
            .prompt()
            .is_some_and(|prompt| !prompt.choices.is_empty());
        self.screen == Screen::Work && asked
    }
}
