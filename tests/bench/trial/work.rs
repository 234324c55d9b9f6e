//! One job worked from intake to end, by the console's own choice or in the order of the chart.

use std::sync::Arc;

use stillwheel::base::stamp::Stamp;
use stillwheel::diagnosis::cause::{Part, Remedy};
use stillwheel::diagnosis::evidence::Reply;
use stillwheel::diagnosis::fact::Fact;
use stillwheel::diagnosis::inference::{Belief, Inference};
use stillwheel::diagnosis::model::Model;
use stillwheel::diagnosis::next_check::Proposal;
use stillwheel::diagnosis::ranking::ranking;
use stillwheel::diagnosis::stop::Proof;
use stillwheel::plant::practice::hazard::Hazard;
use stillwheel::session::entry::{Entry, What};
use stillwheel::session::fields::FIELDS;
use stillwheel::session::job::{Job, Stage};

use super::draw::{Random, number_of};
use super::yard::Visit;

/// Bits from which on a check counts as worth its evidence.
const WORTH: f64 = 0.05;
/// Checks after which a lock that was shut at first is opened.
const OPENED_AFTER: usize = 3;
/// Share of jobs in which chocks, or the flight deck, come late: invented.
const LATE: f64 = 0.1;

/// How a job ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum End {
    /// The rule of the tree was met.
    Proved,
    /// Nothing was left to ask, and the share was reached without the proof.
    NotConfirmed,
    /// Nothing was left to ask.
    UsedUp,
    /// The answers contradicted each other.
    Contradiction,
}

/// What came of a job.
#[derive(Debug, Clone)]
pub struct Outcome {
    pub end: End,
    /// Causes, most probable first.
    pub ranked: Vec<usize>,
    /// The leader and what no remaining check tells from it.
    pub group: Vec<usize>,
    pub checks: usize,
    pub cannot: usize,
    pub minutes: f64,
    /// Whether the leader's part would have come off although it is good.
    pub wrong_removal: bool,
    /// Evidence was taken away that a check worth asking still needed.
    pub spoiled: bool,
    /// Checks by which something was released, opened or pressurised without chocks.
    pub without_chocks: usize,
    /// Whether chocks came late.
    pub late_chocks: bool,
    /// Checks answered after the share was reached while the proof was not to be had, and minutes.
    pub without_hope: (usize, f64),
    /// Every check in order, with its answer.
    pub steps: Vec<(usize, Option<usize>)>,
    /// Where the proof stood at the end.
    pub proof: Option<Proof>,
    /// Share of the group at the end.
    pub share: f64,
    /// Probability of every event.
    pub believed: Vec<f64>,
}

/// Which check comes next.
pub enum Plan<'a> {
    Console,
    Chart(&'a [usize]),
}

struct Worker<'a> {
    visit: &'a Visit<'a>,
    answers: &'a [std::cell::OnceCell<Option<usize>>],
    job: Job,
    random: Random,
    outcome: Outcome,
    /// Fields that were answered no at first, and with what entry.
    shut: Vec<(usize, usize)>,
    belief: Option<Belief>,
}

/// Works a job. Answers are kept, so that both plans hear the same.
pub fn work(
    inference: &Arc<Inference>,
    visit: &Visit<'_>,
    answers: &[std::cell::OnceCell<Option<usize>>],
    plan: &Plan<'_>,
) -> Outcome {
    let [seed, number] = visit.parked.key;
    let mut worker = Worker {
        visit,
        answers,
        job: Job::new(Arc::clone(inference), Vec::new()),
        random: Random::of(&[seed, number, number_of("intake")]),
        outcome: Outcome {
            end: End::UsedUp,
            ranked: Vec::new(),
            group: Vec::new(),
            checks: 0,
            cannot: 0,
            minutes: 0.0,
            wrong_removal: false,
            spoiled: false,
            without_chocks: 0,
            late_chocks: false,
            without_hope: (0, 0.0),
            steps: Vec::new(),
            proof: None,
            share: 0.0,
            believed: Vec::new(),
        },
        shut: Vec::new(),
        belief: None,
    };
    worker.outcome.end = worker.run(plan);
    worker.close();
    worker.outcome
}

impl Worker<'_> {
    fn run(&mut self, plan: &Plan<'_>) -> End {
        loop {
            if let Some(belief) = self.job.belief() {
                self.belief = Some(belief.clone());
            }
            if self.asked() >= OPENED_AFTER && self.open_a_lock() {
                continue;
            }
            match self.job.stage().clone() {
                Stage::Field(field) => self.field(field),
                Stage::Condition(condition) => self.condition(condition),
                Stage::Question(proposed) => {
                    let next = match plan {
                        Plan::Console => Some(*proposed),
                        Plan::Chart(order) => self.next_of(order),
                    };
                    match next {
                        Some(next) => self.ask(&next),
                        None if self.open_a_lock() => {}
                        None => return self.end_without_rule(),
                    }
                }
                Stage::NothingLeft if self.open_a_lock() => {}
                Stage::NothingLeft => return self.end_without_rule(),
                Stage::RuleMet => return End::Proved,
                Stage::Contradiction(_) => return End::Contradiction,
                Stage::Refused(why) => panic!("the engine refused: {why}"),
                Stage::Closed(end) => panic!("closed as {end} by the intake"),
            }
        }
    }

    fn asked(&self) -> usize {
        self.outcome.checks + self.outcome.cannot
    }

    fn model(&self) -> Arc<Model> {
        Arc::clone(self.job.model())
    }

    fn enter(&mut self, what: What) {
        // Times play no part in what is believed.
        let at = Stamp::from_seconds(0);
        self.job.enter(Entry { at, what });
    }

    fn field(&mut self, field: usize) {
        let about = &FIELDS[field];
        let late = about.lock.is_some() && about.id != "main-chocks" && self.random.chance(LATE);
        // A lock that comes late is opened by changing the entry, and is then no longer shut.
        let value = match about.id {
            "hurt" => Some("no"),
            _ if late => {
                self.shut.push((field, self.job.entries().len()));
                Some("no")
            }
            _ if about.lock.is_some() || about.must => Some("yes"),
            _ => None,
        };
        let value = value.map(str::to_owned);
        self.enter(What::Field { field, value });
    }

    /// Somebody goes and does what was missing: the first lock that is still shut.
    fn open_a_lock(&mut self) -> bool {
        if self.shut.is_empty() {
            return false;
        }
        let (field, line) = self.shut.remove(0);
        let value = Some("yes".to_owned());
        let to = Box::new(What::Field { field, value });
        self.enter(What::Change { line, to });
        true
    }

    /// Six conditions in ten are known when the job begins, and one in fifty of those is wrong:
    /// invented.
    fn condition(&mut self, condition: usize) {
        let model = self.model();
        let about = &model.tree.conditions[condition];
        let word = if let Some(fact) = model.questions[condition].fact {
            self.fact(fact)
        } else if self.random.chance(0.6) {
            let truth = self.visit.parked.values[condition];
            let others: Vec<usize> = (0..about.values.len()).filter(|at| *at != truth).collect();
            let wrong = self.random.chance(0.02);
            let told = if wrong {
                self.random.pick(&others)
            } else {
                truth
            };
            Some(about.values[told].0.clone())
        } else {
            None
        };
        self.enter(What::Condition { condition, word });
    }

    /// What people know of the parking. One in four has nobody who saw when it moved, and one time
    /// in ten is wrong; half of the others know two times between which it went. Slope and air are
    /// known to half of them, roughly; charge and wind to nobody: invented.
    fn fact(&mut self, fact: Fact) -> Option<String> {
        let random = &mut self.random;
        match fact {
            Fact::TimeToMovement => {
                let moved = self.visit.found.moved.filter(|_| !random.chance(0.25))?;
                if random.chance(0.1) {
                    return Some(format!("{:.2} h", random.spread(0.1, 16.0)));
                }
                if random.chance(0.5) {
                    return Some(format!("{:.2} h", moved * random.between(0.9, 1.1)));
                }
                let still = moved * random.between(0.2, 0.95);
                let gone = moved * random.between(1.05, 1.8);
                Some(format!("{still:.2} h to {gone:.2} h"))
            }
            Fact::Slope if random.chance(0.5) => {
                let slope = 100.0 * self.visit.parked.slope + random.between(-0.2, 0.2);
                Some(format!("{slope:.1} %"))
            }
            Fact::Temperature if random.chance(0.5) => {
                let air = self.visit.parked.kelvin - 273.15 + random.between(-3.0, 3.0);
                Some(format!("{air:.0} C"))
            }
            _ => None,
        }
    }

    /// The first check of the chart that is open and can be made.
    fn next_of(&self, order: &[usize]) -> Option<Proposal> {
        let open = |check: &&usize| matches!(self.job.evidence().replies[**check], Reply::Open);
        order
            .iter()
            .filter(open)
            .find_map(|check| self.job.choose(*check).ok())
    }

    fn ask(&mut self, next: &Proposal) {
        let check = next.check;
        let answer = *self.answers[check].get_or_init(|| super::answer::answer(self.visit, check));
        self.outcome.steps.push((check, answer));
        let Some(answer) = answer else {
            self.outcome.cannot += 1;
            self.enter(What::Cannot {
                check,
                reason: None,
            });
            return;
        };
        self.outcome.checks += 1;
        self.outcome.minutes += next.cost.minutes;
        self.watch(next);
        self.enter(What::Answer {
            check,
            answer,
            read: None,
        });
    }

    /// What must not happen: evidence spoiled, and anything moved without chocks.
    fn watch(&mut self, next: &Proposal) {
        let model = self.model();
        let gone = &self.job.situation().gone;
        let taken = next
            .cost
            .takes_away
            .iter()
            .filter(|word| !gone.contains(word));
        let taken: Vec<_> = taken.collect();
        let spoils = self.job.open_checks().iter().any(|other| {
            let needed = &model.checks[other.check].needs_evidence;
            other.check != next.check
                && other.gain >= WORTH
                && needed.iter().any(|word| taken.contains(&word))
        });
        self.outcome.spoiled |= spoils;
        let aircraft = &self.visit.yard.aircraft;
        let moved = next.cost.way.iter().any(|action| {
            let sets = &aircraft.actions[*action].sets;
            sets.iter().any(|setting| {
                let switch = aircraft.switches[setting.switch].id.as_str();
                matches!(switch, "pumps" | "lever")
            })
        });
        let harms = moved || model.checks[next.check].hazard >= Hazard::Pressure;
        self.outcome.without_chocks += usize::from(harms && !self.job.chocked());
        self.outcome.late_chocks |= !self.job.chocked();
        if self.without_hope() {
            self.outcome.without_hope.0 += 1;
            self.outcome.without_hope.1 += next.cost.minutes;
        }
    }

    /// The share is reached, and the confirming check was denied, cannot be made, or is not offered.
    fn without_hope(&self) -> bool {
        let Some(standing) = self.job.standing() else {
            return false;
        };
        let out_of_reach = match standing.proof {
            Proof::Impossible(_) | Proof::Contradicted { .. } => true,
            Proof::Missing(check) => !self.job.open_checks().iter().any(|one| one.check == check),
            Proof::NoneNamed | Proof::Stands(_) => false,
        };
        out_of_reach
            && standing
                .wanted
                .is_some_and(|wanted| standing.share >= wanted)
    }

    fn end_without_rule(&self) -> End {
        let reached = self.job.standing().is_some_and(|standing| {
            standing
                .wanted
                .is_some_and(|wanted| standing.share >= wanted)
        });
        if reached {
            End::NotConfirmed
        } else {
            End::UsedUp
        }
    }

    /// What is believed at the end, and what would come off.
    fn close(&mut self) {
        let model = self.model();
        if let Some(belief) = &self.belief {
            let ranked = ranking(&model, belief, Part::Cause);
            self.outcome.ranked = ranked.iter().map(|row| row.event).collect();
            self.outcome.believed.clone_from(&belief.events);
        }
        if let Some(standing) = self.job.standing() {
            self.outcome.group.clone_from(&standing.group);
            self.outcome.proof = Some(standing.proof);
            self.outcome.share = standing.share;
        }
        let leader = self.outcome.ranked.first().copied();
        self.outcome.wrong_removal = self.outcome.end == End::Proved
            && leader.is_some_and(|leader| removes_a_good_part(&model, self.visit, leader));
    }
}

/// Whether the remedy of a cause takes off a part in which nothing is wrong.
fn removes_a_good_part(model: &Model, visit: &Visit<'_>, leader: usize) -> bool {
    let cause = &model.causes[leader];
    let replaces = match &cause.remedy {
        Some(Remedy::Work { instruction, .. }) => instruction.starts_with("Replace"),
        _ => false,
    };
    let part = |event: usize| model.causes[event].fault.as_ref().map(|(role, _)| role);
    let faulty = (0..visit.parked.events.len()).any(|event| {
        let same = part(event).is_some() && part(event) == part(leader);
        visit.parked.events[event] && (event == leader || same)
    });
    replaces && !faulty
}
