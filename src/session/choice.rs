//! A check that the person chooses, in place of the proposed one.

use super::job::{Job, Stage};
use crate::base::text::listed;
use crate::diagnosis::evidence::Reply;
use crate::diagnosis::next_check::{Proposal, proposal};

impl Job {
    /// What a check would tell and cost now; the error says why it cannot be made.
    ///
    /// A check that tells nothing more may still be made: what somebody saw belongs in the log.
    pub fn choose(&self, check: usize) -> Result<Proposal, String> {
        let working = matches!(
            self.stage(),
            Stage::Question(_) | Stage::RuleMet | Stage::NothingLeft
        );
        if !working {
            return Err("People, chocks, aircraft and details come first.".to_owned());
        }
        let model = self.model();
        let about = &model.checks[check];
        if matches!(self.evidence().replies[check], Reply::Answered(_)) && !about.repeatable {
            return Err(format!(
                "{} is answered; :change its entry, or Enter on it in the log.",
                about.title
            ));
        }
        let belief = self.belief().ok_or("The answers contradict each other.")?;
        let Some(proposal) = proposal(model, belief, self.situation(), check) else {
            return Err(format!(
                "{} comes too late, or the aircraft cannot be brought to it from here.",
                about.title
            ));
        };
        let locks = model.locks_of(check, &proposal.cost.way);
        let mut shut: Vec<&str> = locks.into_iter().filter(|l| !self.is_open(l)).collect();
        shut.dedup();
        if shut.is_empty() {
            return Ok(proposal);
        }
        Err(format!(
            "{} waits for: {}.",
            about.title,
            listed(&shut, "and").replace('-', " ")
        ))
    }
}
