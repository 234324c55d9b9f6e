//! The exact engine at work for one model: evidence in, every probability out.

mod nodes;

use std::sync::{Arc, OnceLock};

use super::alike::outcomes;
use super::chances::{Chances, Terms};
use super::evidence::{Evidence, Reply};
use super::falls::{Against, Drained, Falls};
use super::fell::Fell;
use super::gauge_reading::Dial;
use super::mechanism::{Mechanism, Mechanisms};
use super::model::Model;
use super::moved::Designed;
use super::played_times::Typed;
use super::predicted::{Predicted, Predictions};
use super::time_to_movement::Times;
use crate::tree::engine::{BUDGET, Engine, Workshop};
use crate::tree::layers::OverBudget;
use crate::tree::mass::Mass;
use crate::tree::partition::Partition;
use crate::tree::scale::variable_weights;
use crate::tree::sweep::{Sweep, Weights};

/// A model compiled for questions.
#[derive(Debug)]
pub struct Inference {
    model: Arc<Model>,
    /// The outcome of each line of each check.
    outcomes: Vec<Vec<usize>>,
    /// The product of the top and all checks; `None` where that is over budget.
    all_checks: Option<Engine>,
    /// What was played of healthy aircraft.
    designed: Designed,
    /// What was played of readings.
    predictions: Predictions,
    /// What was played of falling gauges.
    falls: Falls,
    /// What causes were seen to do.
    mechanisms: Mechanisms,
    /// What the gauges can show.
    dial: OnceLock<Dial>,
}

/// What is believed under some evidence.
#[derive(Debug, Clone, PartialEq)]
pub struct Belief {
    /// Probability of report and answers, given the conditions that are known.
    pub evidence: f64,
    /// Probability of every basic event.
    pub events: Vec<f64>,
    /// Probability of every value of every condition.
    pub values: Vec<Vec<f64>>,
    /// Probability of every line of every check, `otherwise` last. Alike lines stand together at
    /// the first of them, and the others at 0.
    pub lines: Vec<Vec<f64>>,
    /// Probability of a cause that is not in the tree.
    pub unlisted: f64,
}

/// Why there is no belief.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NoBelief {
    /// The evidence has probability 0.
    #[error("the report and the answers contradict each other")]
    Contradiction,
    /// The tree is too large even for the answered checks alone.
    #[error(transparent)]
    OverBudget(#[from] OverBudget),
}

/// Probability of each basic event under the report alone; `None` where it cannot be.
///
/// No check takes part, so the product is that of the top and costs next to nothing.
pub fn shares_of_report(model: &Model) -> Option<Vec<f64>> {
    let engine = Workshop::new(&model.tree)
        .engine(&[Partition::of_node(model.tree.top)], BUDGET)
        .ok()?;
    let mut weights = engine.open_weights(variable_weights(&model.tree, &model.priors.events));
    weights.outcomes[0][1] = model.priors.unlisted;
    let sweep = engine.ask(&weights);
    let events = sweep.variables.iter().take(model.tree.events.len());
    (sweep.total > 0.0).then(|| events.map(|masses| masses[1] / sweep.total).collect())
}

impl Inference {
    /// Compiles a model for all its checks, or notes that this is over budget.
    pub fn new(model: Arc<Model>) -> Self {
        Self::with_budget(model, BUDGET)
    }

    /// The same with a budget of one's own, in states.
    pub fn with_budget(model: Arc<Model>, budget: usize) -> Self {
        let checks = model.checks.iter();
        let mut made = Self {
            outcomes: checks.map(|check| outcomes(&model, check)).collect(),
            model,
            all_checks: None,
            designed: Designed::default(),
            predictions: Predictions::default(),
            falls: Falls::default(),
            mechanisms: Mechanisms::default(),
            dial: OnceLock::new(),
        };
        let model = Arc::clone(&made.model);
        let every: Vec<usize> = (0..model.checks.len()).collect();
        let partitions = made.partitions(&every);
        let order = Some(&model.worked_out.order).filter(|order| !order.is_empty());
        let known = order.and_then(|order| {
            let mut workshop = Workshop::new(&model.tree);
            workshop.engine_in(&partitions, order, budget).ok()
        });
        made.all_checks =
            known.or_else(|| Workshop::new(&model.tree).engine(&partitions, budget).ok());
        made
    }

    /// The top and some checks, as partitions.
    fn partitions(&self, checks: &[usize]) -> Vec<Partition> {
        let of = |check: &usize| self.model.checks[*check].partition(&self.outcomes[*check]);
        let top = Partition::of_node(self.model.tree.top);
        std::iter::once(top).chain(checks.iter().map(of)).collect()
    }

    /// The mass of each outcome of a check at the first line that has it.
    fn at_lines(&self, check: usize, masses: &[f64]) -> Vec<f64> {
        let mut next = 0;
        let outcomes = self.outcomes[check].iter();
        let mass = |outcome: &usize| {
            let first = *outcome == next;
            next += usize::from(first);
            if first { masses[*outcome] } else { 0.0 }
        };
        outcomes.map(mass).collect()
    }

    /// The model.
    pub fn model(&self) -> &Arc<Model> {
        &self.model
    }

    /// What an event does inside the aircraft, beside a healthy one; without an event a healthy
    /// one alone. `None` where it puts no fault in.
    pub fn mechanism(&self, evidence: &Evidence, event: Option<usize>) -> Option<Arc<Mechanism>> {
        self.mechanisms.of(&self.model, evidence, event)
    }

    /// What the gauges of the aircraft can show.
    pub fn dial(&self) -> Dial {
        *self.dial.get_or_init(|| Dial::of(&self.model))
    }

    /// States of the product of all checks; `None` where that is over budget.
    pub fn states(&self) -> Option<usize> {
        self.all_checks.as_ref().map(Engine::states)
    }

    /// The variables in the order in which the product of all checks asks them; empty where that
    /// is over budget.
    pub fn order(&self) -> Vec<usize> {
        let order = self.all_checks.as_ref().map(Engine::order);
        order.unwrap_or_default()
    }

    /// Works out every probability under some evidence.
    pub fn believe(&self, evidence: &Evidence) -> Result<Belief, NoBelief> {
        let variables = self.variables(evidence);
        self.believe_with(evidence, variables)
    }

    /// When each cause moves the aircraft, under what is typed of the parking.
    pub fn times_of(&self, evidence: &Evidence, event: usize) -> Option<Times> {
        let typed = Typed::of(&self.model, evidence);
        self.designed.times_of(&self.model, &typed, event)
    }

    /// What a check would read: on a healthy aircraft first, then with each of some causes.
    pub fn predicted(&self, check: usize, events: &[usize]) -> Vec<Predicted> {
        self.predictions.of(&self.model, check, events)
    }

    /// How a gauge would fall in a watch: on a healthy aircraft first, then with each of some
    /// events; those that the plant refuses are left out.
    pub fn curves(&self, fell: &Fell, events: &[usize]) -> Vec<Against> {
        self.falls.against(&self.model, fell, events)
    }

    /// What the fall of a gauge is of the store; `None` where the plant refuses it.
    pub fn drained(&self, fell: &Fell) -> Option<Drained> {
        self.falls.drained(&self.model, fell)
    }

    /// Probability of the evidence alone; 0 where it contradicts itself.
    pub fn probability(&self, evidence: &Evidence) -> Result<f64, OverBudget> {
        let variables = self.variables(evidence);
        Ok(self.sweep(evidence, variables)?.0.total)
    }

    /// The same as [`Self::believe`] with some events fixed to true or false.
    pub fn believe_fixed(
        &self,
        evidence: &Evidence,
        fixed: &[(usize, bool)],
    ) -> Result<Belief, NoBelief> {
        let mut variables = self.variables(evidence);
        for (event, value) in fixed {
            let other = usize::from(!*value);
            variables[*event][other] = 0.0;
        }
        self.believe_with(evidence, variables)
    }

    fn believe_with(
        &self,
        evidence: &Evidence,
        variables: Vec<Vec<f64>>,
    ) -> Result<Belief, NoBelief> {
        let (sweep, lines) = self.sweep(evidence, variables)?;
        if sweep.total <= 0.0 {
            return Err(NoBelief::Contradiction);
        }
        let share = |mass: &f64| mass / sweep.total;
        let events = self.model.tree.events.len();
        let (event_masses, value_masses) = sweep.variables.split_at(events);
        let [with_top, without_top] = [0, 1].map(|outcome| sweep.outcomes[0][outcome]);
        let chance = self.model.priors.unlisted;
        let unlisted = if evidence.report {
            (chance * with_top + without_top) / sweep.total
        } else {
            chance
        };
        let shares = |masses: &[Vec<f64>]| -> Vec<Vec<f64>> {
            masses
                .iter()
                .map(|m| m.iter().map(share).collect())
                .collect()
        };
        Ok(Belief {
            evidence: sweep.total,
            events: event_masses.iter().map(|m| share(&m[1])).collect(),
            values: shares(value_masses),
            lines: shares(&lines),
            unlisted,
        })
    }

    /// Runs the product, and gives the masses of every line of every check beside it.
    fn sweep(
        &self,
        evidence: &Evidence,
        variables: Vec<Vec<f64>>,
    ) -> Result<(Sweep, Vec<Vec<f64>>), OverBudget> {
        let model = &self.model;
        match self.terms(evidence) {
            Terms::None => self.sweep_of(evidence, &Chances::plain(model, variables)),
            Terms::One(lapses) => {
                self.sweep_of(evidence, &Chances::one(model, &variables, &lapses))
            }
            Terms::Both(one, other) => {
                let chances = Chances::both(model, &variables, (&one, &other));
                self.sweep_of(evidence, &chances)
            }
        }
    }

    /// What is known of when it moved, and of how far a gauge fell.
    fn terms(&self, evidence: &Evidence) -> Terms {
        let moved = self.designed.lapses(&self.model, evidence);
        match (moved, self.falls.lapses(&self.model, evidence)) {
            (None, None) => Terms::None,
            (Some(one), None) | (None, Some(one)) => Terms::One(one),
            (Some(moved), Some(fell)) => Terms::Both(moved, fell),
        }
    }

    fn sweep_of<M: Mass>(
        &self,
        evidence: &Evidence,
        chances: &Chances<M>,
    ) -> Result<(Sweep, Vec<Vec<f64>>), OverBudget> {
        if let Some(engine) = &self.all_checks {
            let every: Vec<usize> = (0..self.model.checks.len()).collect();
            let sweep = engine.ask(&self.weights(engine, evidence, chances, &every));
            let masses = every.iter().zip(sweep.outcomes.iter().skip(1));
            let lines = masses.map(|(check, masses)| self.at_lines(*check, masses));
            let lines = lines.collect();
            return Ok((sweep, lines));
        }
        self.sweep_answered(evidence, chances)
    }

    /// Over budget: the product of the answered checks, and one more for each open check.
    fn sweep_answered<M: Mass>(
        &self,
        evidence: &Evidence,
        chances: &Chances<M>,
    ) -> Result<(Sweep, Vec<Vec<f64>>), OverBudget> {
        let answered: Vec<usize> = (0..self.model.checks.len())
            .filter(|check| matches!(evidence.replies[*check], Reply::Answered(_)))
            .collect();
        let mut workshop = Workshop::new(&self.model.tree);
        let base = self.sweep_some(&mut workshop, evidence, chances, &answered)?;
        let mut lines = Vec::new();
        for check in 0..self.model.checks.len() {
            if let Some(at) = answered.iter().position(|other| *other == check) {
                lines.push(self.at_lines(check, &base.outcomes[at + 1]));
                continue;
            }
            let mut some = answered.clone();
            some.push(check);
            let sweep = self.sweep_some(&mut workshop, evidence, chances, &some)?;
            lines.push(self.at_lines(check, &sweep.outcomes[some.len()]));
        }
        Ok((base, lines))
    }

    fn sweep_some<M: Mass>(
        &self,
        workshop: &mut Workshop<'_>,
        evidence: &Evidence,
        chances: &Chances<M>,
        checks: &[usize],
    ) -> Result<Sweep, OverBudget> {
        let partitions = self.partitions(checks);
        let engine = workshop.engine(&partitions, BUDGET)?;
        Ok(engine.ask(&self.weights(&engine, evidence, chances, checks)))
    }

    /// Probability of every line of a check with some events fixed, before report and answers.
    ///
    /// Alike lines are told apart here, which costs a product of its own.
    pub fn lines_before(
        &self,
        check: usize,
        fixed: &[(usize, bool)],
    ) -> Result<Vec<f64>, OverBudget> {
        let partition = self.model.checks[check].partition_of_lines();
        let engine = Workshop::new(&self.model.tree).engine(&[partition], BUDGET)?;
        let mut variables = variable_weights(&self.model.tree, &self.model.priors.events);
        for (event, value) in fixed {
            variables[*event][usize::from(!*value)] = 0.0;
        }
        let sweep = engine.ask(&engine.open_weights(variables));
        let masses = sweep.outcomes.into_iter().flatten();
        Ok(masses.map(|mass| mass / sweep.total).collect())
    }

    /// Priors of all variables, with what is known of conditions put in.
    fn variables(&self, evidence: &Evidence) -> Vec<Vec<f64>> {
        let mut weights = variable_weights(&self.model.tree, &self.model.priors.events);
        let events = self.model.tree.events.len();
        for (weight, known) in weights[events..].iter_mut().zip(&evidence.known) {
            if let Some(known) = known {
                weight.clone_from(known);
            }
        }
        weights
    }

    /// Likelihood of what was answered, for each line of each check of an engine.
    fn weights<M: Mass>(
        &self,
        engine: &Engine,
        evidence: &Evidence,
        chances: &Chances<M>,
        checks: &[usize],
    ) -> Weights<M> {
        let mut weights = engine.open_weights(chances.variables.clone());
        weights.outcomes[0].fill(chances.always);
        if evidence.report {
            // Where the top is false the report needs a cause that is not in the tree.
            weights.outcomes[0][1] = chances.unlisted;
        }
        for (at, check) in checks.iter().enumerate() {
            if let Reply::Answered(answers) = &evidence.replies[*check] {
                let lines = &self.model.checks[*check].lines;
                for (outcome, line) in self.outcomes[*check].iter().zip(lines) {
                    let share = answers.iter().map(|answer| line.shares[*answer]).product();
                    weights.outcomes[at + 1][*outcome] = M::plain(share);
                }
            }
        }
        weights
    }
}
