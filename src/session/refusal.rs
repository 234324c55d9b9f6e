//! What a job does not accept, and why.

use super::end_state::END_STATES;
use super::entry::What;
use super::field::{Field, Section};
use super::fields::FIELDS;
use super::job::Job;
use crate::diagnosis::cause::Remedy;
use crate::diagnosis::stop::Proof;

impl Job {
    /// Why an entry is not accepted now; `None` where it is.
    pub fn refuses(&self, what: &What) -> Option<String> {
        match what {
            What::Field { field, value: None } if self.is_must(&FIELDS[*field]) => {
                Some("This one needs an answer; 0 is not accepted.".to_owned())
            }
            What::Readings { .. } | What::NewWatch if !self.is_identified() => {
                Some("People, chocks and aircraft come first.".to_owned())
            }
            What::Heard if self.timers().is_empty() => Some("No timer runs or is over.".to_owned()),
            What::End(end) => self.refuses_end(*end),
            What::Undo if !self.can_undo() => Some("There is nothing to take back.".to_owned()),
            What::Redo if !self.can_redo() => Some("There is nothing to put back.".to_owned()),
            _ => None,
        }
    }

    /// Why a way to end does not fit what is known.
    fn refuses_end(&self, end: usize) -> Option<String> {
        let end = &END_STATES[end];
        if self.end().is_some() {
            return Some("An end is chosen already; u takes it back.".to_owned());
        }
        if !self.is_identified() {
            return Some("People, chocks and aircraft come first.".to_owned());
        }
        let rule = self.standing();
        if end.needs_proof
            && let Some(reason) = self.unproved()
        {
            return Some(reason);
        }
        let leader = rule.and_then(|rule| rule.group.first());
        let cause = leader.map(|event| &self.model().causes[*event]);
        let part = cause.map(|cause| matches!(cause.remedy, Some(Remedy::Work { .. })));
        let settled = rule.is_some_and(|rule| rule.met) || end.needs_proof;
        match (end.part, part, cause) {
            (Some(said), Some(shown), Some(cause)) if settled && said != shown => Some(format!(
                "{} leads and is confirmed, and this end says otherwise. Choose another, or engineering.",
                cause.title
            )),
            _ => None,
        }
    }

    /// Why the leading cause is not proved; `None` where it is.
    fn unproved(&self) -> Option<String> {
        let model = self.model();
        let title = |check: usize| &model.checks[check].title;
        let because = match self.standing().map(|rule| rule.proof) {
            Some(Proof::Stands(_)) => return None,
            Some(Proof::Contradicted { cause, check }) => {
                let cause = &model.causes[cause].title;
                format!("{} speaks against {cause}", title(check))
            }
            Some(Proof::Missing(check)) => format!("{} is still to make", title(check)),
            Some(Proof::Impossible(check)) => format!("{} cannot be made", title(check)),
            Some(Proof::NoneNamed) | None => "no check confirms it".to_owned(),
        };
        Some(format!("Not proved, so not this end: {because}."))
    }

    /// Whether "not known" is refused: always, or because the job ends as fixed.
    fn is_must(&self, field: &Field) -> bool {
        let fixed = self.end().is_some_and(|end| END_STATES[end].id == "fixed");
        field.must || (fixed && field.section == Section::Proof)
    }
}
