//! A plan: which check first, and which after each of its answers.

use super::problem::Problem;
use super::set::Set;

/// A decision tree over checks.
#[derive(Debug, Clone, PartialEq)]
pub enum Plan {
    /// Nothing is left to tell apart.
    End(Set),
    /// Make a check, and go on by its answer.
    Make {
        /// Place of the check.
        check: usize,
        /// What is possible before it.
        set: Set,
        /// The place of each answer that can come, and the plan after it.
        then: Vec<(u8, Plan)>,
    },
}

/// What a plan costs on average, each cause counted by its weight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Expected {
    /// Minutes.
    pub minutes: f64,
    /// Checks made.
    pub checks: f64,
}

impl Plan {
    /// The plan that makes at every set the check which a rule names, until it names none.
    ///
    /// A check that does not split what is possible ends the plan as well.
    pub fn by(problem: &Problem, set: Set, rule: &mut dyn FnMut(Set) -> Option<usize>) -> Self {
        match rule(set).filter(|check| problem.splits(*check, set)) {
            None => Self::End(set),
            Some(check) => {
                let branches = problem.split(check, set);
                let then = branches.map(|b| (b.answer, Self::by(problem, b.groups, rule)));
                let then = then.collect();
                Self::Make { check, set, then }
            }
        }
    }

    /// What is possible where it begins.
    pub fn set(&self) -> Set {
        match self {
            Self::End(set) | Self::Make { set, .. } => *set,
        }
    }

    /// The first check.
    pub fn first(&self) -> Option<usize> {
        match self {
            Self::End(_) => None,
            Self::Make { check, .. } => Some(*check),
        }
    }

    /// What it costs on average, given that one of its causes is there.
    pub fn expected(&self, problem: &Problem) -> Expected {
        let whole = problem.weight(self.set());
        if whole <= 0.0 {
            // None of these can be; nothing is spent on them.
            return Expected {
                minutes: 0.0,
                checks: 0.0,
            };
        }
        let (minutes, checks) = self.weighted(problem);
        Expected {
            minutes: minutes / whole,
            checks: checks / whole,
        }
    }

    /// Minutes and checks, times weights.
    fn weighted(&self, problem: &Problem) -> (f64, f64) {
        match self {
            Self::End(_) => (0.0, 0.0),
            Self::Make { check, set, then } => {
                let weight = problem.weight(*set);
                let here = (weight * problem.minutes(*check), weight);
                then.iter().fold(here, |sum, (_, plan)| {
                    let (minutes, checks) = plan.weighted(problem);
                    (sum.0 + minutes, sum.1 + checks)
                })
            }
        }
    }

    /// Where it ends, in the order of the answers.
    pub fn ends(&self) -> Vec<Set> {
        match self {
            Self::End(set) => vec![*set],
            Self::Make { then, .. } => then.iter().flat_map(|(_, plan)| plan.ends()).collect(),
        }
    }
}
