//! A test-sequencing problem: causes with weights, checks with costs and sure answers.

use super::set::{MOST, Set};

/// A check whose answer is sure once the cause is known.
#[derive(Debug, Clone, PartialEq)]
pub struct SureCheck {
    /// What it costs each time it is made, from 0, in minutes.
    pub minutes: f64,
    /// The place of its answer, by cause.
    pub answers: Vec<u8>,
}

/// One way a check can come out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Branch {
    /// The place of the answer.
    pub answer: u8,
    /// The groups that give it.
    pub groups: Set,
}

/// Causes that every check answers alike: no plan tells them apart.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// Its causes, in order.
    pub causes: Vec<usize>,
    /// Sum of their weights.
    pub weight: f64,
}

/// Why there is no problem to solve.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum Unfit {
    /// No cause, or none with a weight above 0.
    #[error("no cause has a weight above 0")]
    NoWeight,
    /// A weight or a cost is no number from 0 on.
    #[error("{0} is no weight and no cost: both are numbers from 0 on")]
    NotFromZero(f64),
    /// A check that answers for another number of causes.
    #[error("check {check} answers for {answers} causes, and there are {causes}")]
    AnswersMissing {
        /// Place of the check.
        check: usize,
        /// How many answers it has.
        answers: usize,
        /// How many causes there are.
        causes: usize,
    },
    /// More groups than a set holds.
    #[error("{0} groups of causes are told apart, and a plan can be searched for among {MOST}")]
    TooManyGroups(usize),
}

/// Causes and checks, with the causes that every check answers alike put together.
#[derive(Debug, Clone, PartialEq)]
pub struct Problem {
    groups: Vec<Group>,
    minutes: Vec<f64>,
    branches: Vec<Vec<Branch>>,
}

impl Problem {
    /// Puts causes and checks together.
    ///
    /// Groups stand in the order of their weights, lightest first, so that a set lists its weights
    /// in order; equal ones stand in the order of their first causes.
    pub fn new(weights: &[f64], checks: &[SureCheck]) -> Result<Self, Unfit> {
        let minutes: Vec<f64> = checks.iter().map(|check| check.minutes).collect();
        let numbers = weights.iter().chain(&minutes);
        if let Some(odd) = numbers.copied().find(|n| !n.is_finite() || *n < 0.0) {
            return Err(Unfit::NotFromZero(odd));
        }
        if weights.iter().sum::<f64>() <= 0.0 {
            return Err(Unfit::NoWeight);
        }
        let causes = weights.len();
        for (check, row) in checks.iter().enumerate() {
            let answers = row.answers.len();
            if answers != causes {
                return Err(Unfit::AnswersMissing {
                    check,
                    answers,
                    causes,
                });
            }
        }
        let groups = grouped(weights, checks);
        if groups.len() > MOST {
            return Err(Unfit::TooManyGroups(groups.len()));
        }
        let branches = checks.iter().map(|check| branches(&groups, check));
        Ok(Self {
            branches: branches.collect(),
            groups,
            minutes,
        })
    }

    /// The causes that are told apart, each with those that are not told from it.
    pub fn groups(&self) -> &[Group] {
        &self.groups
    }

    /// How many checks there are.
    pub fn checks(&self) -> usize {
        self.minutes.len()
    }

    /// What a check costs.
    pub fn minutes(&self, check: usize) -> f64 {
        self.minutes[check]
    }

    /// Every way a check can come out, over all groups.
    pub(super) fn branches(&self, check: usize) -> &[Branch] {
        &self.branches[check]
    }

    /// Everything is possible.
    pub fn all(&self) -> Set {
        Set::first(self.groups.len())
    }

    /// The ways a check can come out while a set is possible, answers in order.
    pub fn split(&self, check: usize, set: Set) -> impl Iterator<Item = Branch> {
        let narrowed = self.branches[check].iter().map(move |branch| Branch {
            groups: branch.groups.and(set),
            ..*branch
        });
        narrowed.filter(|branch| !branch.groups.is_empty())
    }

    /// Whether a check tells some of a set from others.
    pub fn splits(&self, check: usize, set: Set) -> bool {
        self.split(check, set).nth(1).is_some()
    }

    /// What is possible after some answers, places of check and answer; empty where no single
    /// cause gives them all.
    pub fn after(&self, answers: &[(usize, u8)]) -> Set {
        answers.iter().fold(self.all(), |set, (check, answer)| {
            let mut left = self.split(*check, set);
            let found = left.find(|branch| branch.answer == *answer);
            found.map_or(Set::EMPTY, |branch| branch.groups)
        })
    }

    /// Sum of the weights of a set.
    pub fn weight(&self, set: Set) -> f64 {
        set.places().map(|place| self.groups[place].weight).sum()
    }

    /// The causes of a set, in order.
    pub fn causes(&self, set: Set) -> Vec<usize> {
        let groups = set.places().map(|place| &self.groups[place]);
        let mut causes: Vec<usize> = groups.flat_map(|group| group.causes.clone()).collect();
        causes.sort_unstable();
        causes
    }
}

/// Causes by the answers of all checks.
fn grouped(weights: &[f64], checks: &[SureCheck]) -> Vec<Group> {
    let mut groups: Vec<(Vec<u8>, Group)> = Vec::new();
    for (cause, weight) in weights.iter().enumerate() {
        let answers: Vec<u8> = checks.iter().map(|check| check.answers[cause]).collect();
        match groups.iter_mut().find(|(known, _)| *known == answers) {
            Some((_, group)) => {
                group.causes.push(cause);
                group.weight += weight;
            }
            None => groups.push((
                answers,
                Group {
                    causes: vec![cause],
                    weight: *weight,
                },
            )),
        }
    }
    let mut groups: Vec<Group> = groups.into_iter().map(|(_, group)| group).collect();
    groups.sort_by(|a, b| a.weight.total_cmp(&b.weight));
    groups
}

fn branches(groups: &[Group], check: &SureCheck) -> Vec<Branch> {
    let mut branches: Vec<Branch> = Vec::new();
    for (place, group) in groups.iter().enumerate() {
        let Some(answer) = group.causes.first().map(|cause| check.answers[*cause]) else {
            continue;
        };
        if let Some(branch) = branches.iter_mut().find(|branch| branch.answer == answer) {
            branch.groups.insert(place);
        } else {
            let mut groups = Set::EMPTY;
            groups.insert(place);
            branches.push(Branch { answer, groups });
        }
    }
    branches.sort_by_key(|branch| branch.answer);
    branches
}
