//! A job: entries in, stage out.

use std::sync::Arc;

use super::entry::{Entry, standing};
use super::safety::{QUESTIONS, is_open};
use crate::diagnosis::cause::Part;
use crate::diagnosis::contradiction;
use crate::diagnosis::evidence::{Evidence, Item, Reply};
use crate::diagnosis::inference::{Belief, Inference, NoBelief};
use crate::diagnosis::model::Model;
use crate::diagnosis::next_check::{Proposal, proposals};
use crate::diagnosis::ranking::{Ranked, ranking};
use crate::diagnosis::situation::Situation;
use crate::diagnosis::stop::{Standing, standing as standing_of};

/// Where a job stands.
#[derive(Debug, Clone, PartialEq)]
pub enum Stage {
    /// A safety question is open: its place.
    Safety(usize),
    /// A check is proposed.
    Question(Box<Proposal>),
    /// The rule of the tree is met.
    RuleMet,
    /// Nothing is left to ask.
    NothingLeft,
    /// The answers contradict each other: an irreducible set of them.
    Contradiction(Vec<Item>),
    /// The ranking was refused, and why.
    Refused(String),
}

/// One report being worked.
#[derive(Debug, Clone)]
pub struct Job {
    inference: Arc<Inference>,
    entries: Vec<Entry>,
    /// Everything below follows from the entries.
    safety: Vec<Option<bool>>,
    asked: Vec<bool>,
    evidence: Evidence,
    situation: Situation,
    belief: Option<Belief>,
    standing: Option<Standing>,
    open: Vec<Proposal>,
    locked: Vec<usize>,
    stage: Stage,
}

impl Job {
    /// A new job on a compiled model.
    pub fn new(inference: Arc<Inference>) -> Self {
        let model = Arc::clone(inference.model());
        let mut job = Self {
            inference,
            entries: Vec::new(),
            safety: Vec::new(),
            asked: Vec::new(),
            evidence: Evidence::report_only(&model),
            situation: Situation::as_found(&model),
            belief: None,
            standing: None,
            open: Vec::new(),
            locked: Vec::new(),
            stage: Stage::NothingLeft,
        };
        job.replay();
        job
    }

    /// Adds an entry and works out where that leaves the job.
    pub fn enter(&mut self, entry: Entry) {
        self.entries.push(entry);
        self.replay();
    }

    /// Whether there is an entry to take back.
    pub fn can_undo(&self) -> bool {
        !standing(&self.entries).0.is_empty()
    }

    /// Whether an entry taken back can stand again.
    pub fn can_redo(&self) -> bool {
        !standing(&self.entries).1.is_empty()
    }

    fn replay(&mut self) {
        let inference = Arc::clone(&self.inference);
        let model = inference.model();
        self.safety = vec![None; QUESTIONS.len()];
        self.asked = vec![false; QUESTIONS.len()];
        self.evidence = Evidence::report_only(model);
        self.situation = Situation::as_found(model);
        for entry in standing(&self.entries).0 {
            match entry {
                Entry::Safety { item, so } => {
                    self.safety[item] = so;
                    self.asked[item] = true;
                }
                Entry::Answer { check, answer } => {
                    self.situation.make(model, &model.checks[check]);
                    self.evidence.answer(model, check, answer);
                }
                Entry::Cannot { check } => self.evidence.cannot(check),
                Entry::Undo | Entry::Redo => {}
            }
        }
        self.stage = self.work_out(model);
    }

    fn work_out(&mut self, model: &Model) -> Stage {
        self.belief = None;
        self.standing = None;
        self.open.clear();
        self.locked.clear();
        let belief = match self.inference.believe(&self.evidence) {
            Ok(belief) => belief,
            Err(NoBelief::Contradiction) => {
                return match contradiction::irreducible(&self.inference, &self.evidence) {
                    Ok(items) => Stage::Contradiction(items.unwrap_or_default()),
                    Err(error) => Stage::Refused(error.to_string()),
                };
            }
            Err(error) => return Stage::Refused(error.to_string()),
        };
        let (open, locked): (Vec<_>, Vec<_>) =
            proposals(model, &belief, &self.evidence, &self.situation)
                .into_iter()
                .partition(|proposal| self.is_unlocked(model, proposal));
        self.open = open;
        self.locked = locked.into_iter().map(|proposal| proposal.check).collect();
        let rule = standing_of(&self.inference, &self.evidence, &self.situation, &belief);
        self.belief = Some(belief);
        match rule {
            Ok(rule) => self.standing = Some(rule),
            Err(error) => return Stage::Refused(error.to_string()),
        }
        if let Some(item) = self.asked.iter().position(|asked| !asked) {
            return Stage::Safety(item);
        }
        if self.standing.as_ref().is_some_and(|rule| rule.met) {
            return Stage::RuleMet;
        }
        // Where the share is reached and only the proof is missing, the proof is the next check.
        match self.proof_proposal().or_else(|| self.open.first().cloned()) {
            Some(proposal) => Stage::Question(Box::new(proposal)),
            None => Stage::NothingLeft,
        }
    }

    fn proof_proposal(&self) -> Option<Proposal> {
        let rule = self.standing.as_ref()?;
        let crate::diagnosis::stop::Proof::Missing(check) = rule.proof else {
            return None;
        };
        let reached = rule.wanted.is_some_and(|wanted| rule.share >= wanted);
        let proposal = self.open.iter().find(|proposal| proposal.check == check);
        proposal.filter(|_| reached).cloned()
    }

    /// Whether every lock of a check, and of the way to its state, is open.
    fn is_unlocked(&self, model: &Model, proposal: &Proposal) -> bool {
        model
            .locks_of(proposal.check, &proposal.cost.way)
            .iter()
            .all(|lock| is_open(lock, &self.safety))
    }

    /// Where the job stands.
    pub fn stage(&self) -> &Stage {
        &self.stage
    }

    /// The model.
    pub fn model(&self) -> &Arc<Model> {
        self.inference.model()
    }

    /// The engine at work.
    pub fn inference(&self) -> &Inference {
        &self.inference
    }

    /// What is known.
    pub fn evidence(&self) -> &Evidence {
        &self.evidence
    }

    /// What is believed; `None` under a contradiction.
    pub fn belief(&self) -> Option<&Belief> {
        self.belief.as_ref()
    }

    /// Where the search stands against the rule.
    pub fn standing(&self) -> Option<&Standing> {
        self.standing.as_ref()
    }

    /// Causes, most probable first; none under a contradiction.
    pub fn causes(&self) -> Vec<Ranked> {
        let ranked = |belief| ranking(self.model(), belief, Part::Cause);
        self.belief.as_ref().map(ranked).unwrap_or_default()
    }

    /// Checks that could be made now, best first.
    pub fn open_checks(&self) -> &[Proposal] {
        &self.open
    }

    /// Checks that wait for a lock.
    pub fn locked_checks(&self) -> &[usize] {
        &self.locked
    }

    /// Answers to the safety questions.
    pub fn safety(&self) -> &[Option<bool>] {
        &self.safety
    }

    /// Whether chocks were seen in, nose and mains.
    pub fn chocked(&self) -> bool {
        is_open("chocks", &self.safety)
    }

    /// Every entry there ever was, taken back or not.
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }

    /// Checks answered "cannot".
    pub fn cannot_checks(&self) -> Vec<usize> {
        let replies = self.evidence.replies.iter().enumerate();
        let cannot = replies.filter(|(_, reply)| matches!(reply, Reply::Cannot));
        cannot.map(|(check, _)| check).collect()
    }
}
