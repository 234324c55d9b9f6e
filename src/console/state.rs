//! What the console shows.

use crate::session::job::{Job, Stage};

/// The screens.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Screen {
    /// The work: safety questions, checks, the end.
    Work,
    /// What speaks for and against each cause.
    Why,
    /// The keys.
    Help,
}

/// The whole state of the console.
#[derive(Debug)]
pub struct State {
    /// The job.
    pub job: Job,
    /// The screen that is shown.
    pub screen: Screen,
    /// The marked option of the question, or the first line shown of a list.
    pub marked: usize,
    /// What just happened; stays until the next action.
    pub message: String,
}

impl State {
    /// The console at the start of a job.
    pub fn new(job: Job) -> Self {
        Self {
            job,
            screen: Screen::Work,
            marked: 0,
            message: "Aid only. Work to the approved maintenance data.".to_owned(),
        }
    }

    /// The options of the question on the screen, first to last; none where nothing is asked.
    pub fn options(&self) -> Vec<String> {
        match self.job.stage() {
            Stage::Safety(_) => vec!["yes".to_owned(), "no".to_owned()],
            Stage::Question(proposal) => self.job.model().checks[proposal.check].answers.clone(),
            _ => Vec::new(),
        }
    }

    /// Whether a question is on the screen.
    pub fn asks(&self) -> bool {
        self.screen == Screen::Work && !self.options().is_empty()
    }
}
