//! A job: entries in, stage out.

use std::sync::Arc;

use super::end_state::END_STATES;
use super::entry::Entry;
use super::field::Section;
use super::fields::{FIELDS, of, place};
use super::known::{Asked, Known};
use super::standing::standing;
use super::timer::Timer;
use super::watch::Watch;
use crate::diagnosis::cause::Part;
use crate::diagnosis::contradiction;
use crate::diagnosis::evidence::{Evidence, Item, Reply};
use crate::diagnosis::fact::Fact;
use crate::diagnosis::inference::{Belief, Inference, NoBelief};
use crate::diagnosis::model::Model;
use crate::diagnosis::next_check::{Proposal, proposals};
use crate::diagnosis::ranking::{Ranked, ranking};
use crate::diagnosis::situation::Situation;
use crate::diagnosis::stop::{Proof, Standing, standing as standing_of};

/// Where a job stands.
#[derive(Debug, Clone, PartialEq)]
pub enum Stage {
    /// A field is open: its place.
    Field(usize),
    /// A condition is open: its place.
    Condition(usize),
    /// A check is proposed.
    Question(Box<Proposal>),
    /// The rule of the tree is met; a way to end is to be chosen.
    RuleMet,
    /// Nothing is left to ask; a way to end is to be chosen.
    NothingLeft,
    /// The answers contradict each other: an irreducible set of them.
    Contradiction(Vec<Item>),
    /// The ranking was refused, and why.
    Refused(String),
    /// Everything was asked after this end state was chosen.
    Closed(usize),
}

/// One report being worked.
#[derive(Debug, Clone)]
pub struct Job {
    inference: Arc<Inference>,
    entries: Vec<Entry>,
    view: Known,
}

impl Job {
    /// A job on a compiled model, with the entries it has so far.
    pub fn new(inference: Arc<Inference>, entries: Vec<Entry>) -> Self {
        let view = Known::empty(inference.model());
        let mut job = Self {
            inference,
            entries,
            view,
        };
        job.replay();
        job
    }

    /// Adds an entry and works out where that leaves the job.
    pub fn enter(&mut self, entry: Entry) {
        self.entries.push(entry);
        self.replay();
    }

    fn replay(&mut self) {
        let inference = Arc::clone(&self.inference);
        let model = inference.model();
        let mut view = Known::empty(model);
        let stands = standing(&self.entries);
        view.can_undo = stands.can_undo;
        view.can_redo = stands.can_redo;
        for (place, what) in stands.entries {
            view.take(&inference, what, place, self.entries[place].at);
        }
        view.watch.in_order();
        self.view = view;
        // The air may be typed after the readings.
        let (air, view) = (self.air(), &mut self.view);
        view.evidence.fell = view.watch.settle(model, air, &view.answered);
        self.view.stage = self.work_out(model);
    }

    fn work_out(&mut self, model: &Model) -> Stage {
        if let Some(stage) = self.intake() {
            // Rule and proposals wait; during the intake nobody sees them.
            self.view.belief = self.inference.believe(&self.view.evidence).ok();
            return stage;
        }
        let believed = self.believe(model);
        if let Some(end) = self.view.end {
            return self.closing(end);
        }
        if let Err(stage) = believed {
            return stage;
        }
        if self.view.rule.as_ref().is_some_and(|rule| rule.met) {
            return Stage::RuleMet;
        }
        // Where the share is reached and only the proof is missing, the proof is the next check.
        match self
            .proof_proposal()
            .or_else(|| self.view.open.first().cloned())
        {
            Some(proposal) => Stage::Question(Box::new(proposal)),
            None => Stage::NothingLeft,
        }
    }

    /// Belief, rule and proposals; the error is the stage that follows where there is no belief.
    fn believe(&mut self, model: &Model) -> Result<(), Stage> {
        let view = &mut self.view;
        let belief = match self.inference.believe(&view.evidence) {
            Ok(belief) => belief,
            Err(NoBelief::Contradiction) => {
                let items = contradiction::irreducible(&self.inference, &view.evidence);
                return Err(match items {
                    Ok(items) => Stage::Contradiction(items.unwrap_or_default()),
                    Err(error) => Stage::Refused(error.to_string()),
                });
            }
            Err(error) => return Err(Stage::Refused(error.to_string())),
        };
        let all = proposals(model, &belief, &view.evidence, &view.situation);
        let rule = standing_of(&self.inference, &view.evidence, &view.situation, &belief);
        view.belief = Some(belief);
        let (open, locked): (Vec<_>, Vec<_>) = all.into_iter().partition(|proposal| {
            let locks = model.locks_of(proposal.check, &proposal.cost.way);
            locks.iter().all(|lock| self.is_open(lock))
        });
        self.view.open = open;
        self.view.locked = locked.into_iter().map(|proposal| proposal.check).collect();
        self.view.rule = Some(rule.map_err(|error| Stage::Refused(error.to_string()))?);
        Ok(())
    }

    /// The next open question of the intake, or the end that its answers force.
    fn intake(&self) -> Option<Stage> {
        let open = |section| of(section).find(|field| self.is_due(*field));
        if self.field("hurt") == Some("yes") {
            let frozen = open(Section::Frozen).map(Stage::Field);
            let end = || super::end_state::place("frozen").map(|end| self.closing(end));
            return frozen.or_else(end);
        }
        if let Some(field) = open(Section::Safety).or_else(|| open(Section::Aircraft)) {
            // Asked at once: the rest of the intake is about another aircraft.
            if self.field("right-one") == Some("no") {
                return super::end_state::place("wrong-report").map(|end| self.closing(end));
            }
            return Some(Stage::Field(field));
        }
        if self.field("right-one") == Some("no") {
            return super::end_state::place("wrong-report").map(|end| self.closing(end));
        }
        if let Some(field) = open(Section::Evidence) {
            return Some(Stage::Field(field));
        }
        let condition = self
            .view
            .conditions
            .iter()
            .enumerate()
            .position(|(at, asked)| *asked == Asked::NotYet && self.is_wanted(at));
        condition
            .map(Stage::Condition)
            .or_else(|| open(Section::Details).map(Stage::Field))
            .or_else(|| open(Section::Idea).map(Stage::Field))
    }

    /// Whether a condition is worth asking: the facts of a parking count with the time to the
    /// movement alone.
    fn is_wanted(&self, condition: usize) -> bool {
        let model = self.model();
        let fact = model.questions[condition].fact;
        let time = model.fact(Fact::TimeToMovement);
        let unknown = time.is_none_or(|time| self.view.conditions[time] == Asked::Unknown);
        !(unknown && fact.is_some_and(|fact| fact != Fact::TimeToMovement))
    }

    /// Whether a field is to be asked: not asked yet, and not waiting for chocks.
    ///
    /// Mains are not asked for while the nose is not chocked, because nobody goes to them then.
    fn is_due(&self, field: usize) -> bool {
        let about = &FIELDS[field];
        let waits = match about.id {
            "main-chocks" => self.field("nose-chocks") == Some("no"),
            _ => about.after_chocks && !self.chocked(),
        };
        self.view.fields[field] == Asked::NotYet && !waits
    }

    /// What is asked after a way to end was chosen.
    fn closing(&self, end: usize) -> Stage {
        let nobody = place("takes-over").is_some_and(|f| self.view.fields[f] == Asked::Unknown);
        let sections = END_STATES[end].sections.iter().copied();
        let open = sections
            .chain([Section::HandOver])
            .filter(|section| !(nobody && *section == Section::HandOver))
            .flat_map(of)
            .find(|field| self.is_due(*field));
        open.map_or(Stage::Closed(end), Stage::Field)
    }

    fn proof_proposal(&self) -> Option<Proposal> {
        let rule = self.view.rule.as_ref()?;
        let Proof::Missing(check) = rule.proof else {
            return None;
        };
        let reached = rule.wanted.is_some_and(|wanted| rule.share >= wanted);
        let proposal = self
            .view
            .open
            .iter()
            .find(|proposal| proposal.check == check);
        proposal.filter(|_| reached).cloned()
    }

    /// Whether a lock is open: every field for it was answered yes. Locks without a field are
    /// settled at the check itself.
    pub fn is_open(&self, lock: &str) -> bool {
        let fields = FIELDS.iter().zip(&self.view.fields);
        fields
            .filter(|(field, _)| field.lock == Some(lock))
            .all(|(_, value)| value.typed() == Some("yes"))
    }
}

/// Reading a job.
impl Job {
    /// Where the job stands.
    pub fn stage(&self) -> &Stage {
        &self.view.stage
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
        &self.view.evidence
    }

    /// What is believed; `None` under a contradiction.
    pub fn belief(&self) -> Option<&Belief> {
        self.view.belief.as_ref()
    }

    /// Where the search stands against the rule.
    pub fn standing(&self) -> Option<&Standing> {
        self.view.rule.as_ref()
    }

    /// Causes, most probable first; none under a contradiction.
    pub fn causes(&self) -> Vec<Ranked> {
        let ranked = |belief| ranking(self.model(), belief, Part::Cause);
        self.view.belief.as_ref().map(ranked).unwrap_or_default()
    }

    /// Checks that could be made now, best first.
    pub fn open_checks(&self) -> &[Proposal] {
        &self.view.open
    }

    /// Checks that wait for a lock.
    pub fn locked_checks(&self) -> &[usize] {
        &self.view.locked
    }

    /// What was typed into a field, if it was asked and is known.
    pub fn field(&self, id: &str) -> Option<&str> {
        self.view.fields[place(id)?].typed()
    }

    /// Whether a field was asked.
    pub fn was_asked(&self, field: usize) -> bool {
        self.view.fields[field] != Asked::NotYet
    }

    /// What was typed for a condition, if it was asked and is known.
    pub fn condition(&self, condition: usize) -> Option<&str> {
        self.view.conditions[condition].typed()
    }

    /// Whether chocks were seen in, nose and mains.
    ///
    /// They count as out again once somebody says so at the end.
    pub fn chocked(&self) -> bool {
        self.is_open("chocks") && self.field("chocks-left") != Some("no")
    }

    /// Whether people, chocks and aircraft were asked.
    pub fn is_identified(&self) -> bool {
        let mut asked = of(Section::Safety).chain(of(Section::Aircraft));
        !asked.any(|field| self.is_due(field))
    }

    /// How many of the readings and positions that the first pump start would erase were not asked.
    pub fn evidence_open(&self) -> usize {
        of(Section::Evidence)
            .filter(|field| !self.was_asked(*field))
            .count()
    }

    /// How many of them are known, of how many.
    pub fn evidence_kept(&self) -> (usize, usize) {
        let known = of(Section::Evidence).filter(|field| self.field(FIELDS[*field].id).is_some());
        (known.count(), of(Section::Evidence).count())
    }

    /// The way to end that was chosen, or that the intake forced.
    pub fn end(&self) -> Option<usize> {
        match self.view.stage {
            Stage::Closed(end) => Some(end),
            _ => self.view.end,
        }
    }

    /// Timers that stand.
    pub fn timers(&self) -> &[Timer] {
        &self.view.timers
    }

    /// Evidence that was taken away.
    pub fn situation(&self) -> &Situation {
        &self.view.situation
    }

    /// The watched gauges.
    pub fn watch(&self) -> &Watch {
        &self.view.watch
    }

    /// Whether there is something to take back.
    pub fn can_undo(&self) -> bool {
        self.view.can_undo
    }

    /// Whether something taken back can be put back.
    pub fn can_redo(&self) -> bool {
        self.view.can_redo
    }

    /// Every entry there ever was, taken back or not.
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }

    /// Checks answered "cannot".
    pub fn cannot_checks(&self) -> Vec<usize> {
        let replies = self.view.evidence.replies.iter().enumerate();
        let cannot = replies.filter(|(_, reply)| matches!(reply, Reply::Cannot));
        cannot.map(|(check, _)| check).collect()
    }
}
