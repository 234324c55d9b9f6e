//! The plan of least expected cost, by exact search over sets of causes.

use rustc_hash::FxHashMap;

use super::bound::Bound;
use super::plan::Plan;
use super::problem::Problem;
use super::rule::most_bits_a_minute;
use super::set::Set;

/// Sets that a search looks into unless told otherwise.
pub const BUDGET: usize = 200_000;
/// Costs that differ by less than this share are equal: sums come in different orders.
const EQUAL: f64 = 1e-12;
/// How far a round of the search raises the bound it tries to prove, of what is left to prove.
const ROUND: f64 = 0.25;
/// From this share of the cost on, one more round settles it.
const LAST_ROUND: f64 = 1e-6;

/// What the search found for one set.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// The cheapest plan found.
    pub plan: Plan,
    /// Minutes that it costs on average.
    pub minutes: f64,
    /// Minutes below which no plan can cost; the same where the plan is proved best.
    pub at_least: f64,
}

impl Found {
    /// Whether no plan is cheaper.
    pub fn proved(&self) -> bool {
        self.at_least >= self.minutes
    }
}

/// What is known of a set. Costs are times the weight of the set.
#[derive(Debug, Clone, Copy)]
struct Known {
    weight: f64,
    /// No plan costs less.
    lower: f64,
    /// The cheapest plan whose every part is proved: cost and first check, where it needs one.
    plan: Option<(f64, Option<usize>)>,
}

impl Known {
    fn settled(&self) -> Option<f64> {
        let (cost, _) = self.plan?;
        (cost <= self.lower * (1.0 + EQUAL)).then_some(cost)
    }
}

/// What one look into a set gave, times its weight.
enum Outcome {
    /// The least cost.
    Best(f64),
    /// A cost below which no plan is.
    AtLeast(f64),
}

/// A search that remembers every set it has looked into.
///
/// A set of possible groups is an OR node over checks, a check an AND node over its answers. Sets
/// are reached by many orders of the same checks, so what is proved of one is kept. Each round asks
/// whether a plan cheaper than some cost exists, and leaves out everything whose bound is not
/// below; the cost starts near the bound and rises to that of the myopic plan.
/// The budget counts sets looked into, so that the same problem gives the same answer everywhere.
#[derive(Debug)]
pub struct Search<'p> {
    problem: &'p Problem,
    /// Checks that some best plan can do with.
    checks: Vec<usize>,
    bound: Bound,
    known: FxHashMap<Set, Known>,
    budget: usize,
    visited: usize,
}

impl<'p> Search<'p> {
    /// Gets ready to search with a budget in sets looked into, for all questions together.
    pub fn new(problem: &'p Problem, budget: usize) -> Self {
        let checks = undominated(problem);
        Self {
            bound: Bound::new(problem, &checks),
            checks,
            problem,
            known: FxHashMap::default(),
            budget,
            visited: 0,
        }
    }

    /// The problem.
    pub fn problem(&self) -> &'p Problem {
        self.problem
    }

    /// Sets looked into so far.
    pub fn visited(&self) -> usize {
        self.visited
    }

    /// The best plan from where a set is possible: the rest of the way after any answers.
    pub fn best(&mut self, set: Set) -> Found {
        let Known { weight, lower, .. } = self.known(set);
        let mut lower = lower;
        let mut plan = self.composed(set);
        let mut upper = plan.expected(self.problem).minutes * weight;
        while lower < upper * (1.0 - EQUAL) && self.visited < self.budget {
            let gap = upper - lower;
            let limit = if gap <= upper * LAST_ROUND {
                upper
            } else {
                lower + gap * ROUND
            };
            match self.look(set, limit) {
                Outcome::Best(cost) => {
                    lower = cost;
                    upper = cost;
                }
                Outcome::AtLeast(cost) => lower = lower.max(cost),
            }
        }
        if self.known(set).plan.is_some() || self.visited >= self.budget {
            plan = self.composed(set);
        }
        let minutes = plan.expected(self.problem).minutes;
        let least = if weight > 0.0 { lower / weight } else { 0.0 };
        let proved = least >= minutes * (1.0 - 2.0 * EQUAL);
        Found {
            plan,
            minutes,
            at_least: if proved { minutes } else { least },
        }
    }

    /// The best plan among those that make a check first; `None` where the check tells nothing.
    pub fn best_with(&mut self, set: Set, check: usize) -> Option<Found> {
        if check >= self.problem.checks() || !self.problem.splits(check, set) {
            return None;
        }
        let problem = self.problem;
        let mut at_least = problem.minutes(check);
        let mut then = Vec::new();
        let whole = problem.weight(set);
        for branch in problem.split(check, set) {
            let found = self.best(branch.groups);
            if whole > 0.0 {
                at_least += found.at_least * problem.weight(branch.groups) / whole;
            }
            then.push((branch.answer, found));
        }
        let proved = then.iter().all(|(_, found)| found.proved());
        let then = then.into_iter().map(|(answer, found)| (answer, found.plan));
        let plan = Plan::Make {
            check,
            set,
            then: then.collect(),
        };
        let minutes = plan.expected(problem).minutes;
        let at_least = if proved {
            minutes
        } else {
            at_least.min(minutes)
        };
        Some(Found {
            plan,
            minutes,
            at_least,
        })
    }

    /// What is known of a set; of a new one its bound.
    fn known(&mut self, set: Set) -> Known {
        let (problem, bound) = (self.problem, &self.bound);
        let known = self.known.entry(set).or_insert_with(|| {
            let (weight, lower) = bound.of(problem, set);
            let plan = (set.len() < 2 || weight <= 0.0).then_some((0.0, None));
            Known {
                weight,
                lower,
                plan,
            }
        });
        *known
    }

    /// Looks for a plan that costs less than a limit.
    fn look(&mut self, set: Set, limit: f64) -> Outcome {
        let known = self.known(set);
        if let Some(cost) = known.settled() {
            return Outcome::Best(cost);
        }
        if known.lower >= limit || self.visited >= self.budget {
            return Outcome::AtLeast(known.lower);
        }
        self.visited += 1;
        let mut best = known.plan;
        let mut lower = f64::INFINITY;
        for (bound, check) in self.ways(set, known.weight) {
            let limit = best.map_or(limit, |(cost, _)| cost.min(limit));
            if bound >= limit {
                // The others cost no less.
                lower = lower.min(bound);
                break;
            }
            match self.follow(set, check, limit) {
                Outcome::Best(cost) => best = Some((cost, Some(check))),
                Outcome::AtLeast(cost) => lower = lower.min(cost),
            }
        }
        let lower = best.map_or(lower, |(cost, _)| lower.min(cost));
        let after = Known {
            lower: lower.max(known.lower),
            plan: best,
            ..known
        };
        self.known.insert(set, after);
        match after.settled() {
            Some(cost) if cost < limit => Outcome::Best(cost),
            _ => Outcome::AtLeast(after.lower),
        }
    }

    /// Every check that splits a set, with the bound of plans that begin with it, lowest first.
    fn ways(&mut self, set: Set, weight: f64) -> Vec<(f64, usize)> {
        let mut ways = Vec::new();
        for at in 0..self.checks.len() {
            let check = self.checks[at];
            if self.problem.splits(check, set) {
                ways.push((self.bound_with(set, weight, check), check));
            }
        }
        ways.sort_by(|a, b| a.0.total_cmp(&b.0));
        ways
    }

    /// The bound of plans that begin with a check, by what is known now.
    fn bound_with(&mut self, set: Set, weight: f64, check: usize) -> f64 {
        let problem = self.problem;
        let rest = problem.split(check, set);
        let rest: f64 = rest.map(|branch| self.known(branch.groups).lower).sum();
        weight * problem.minutes(check) + rest
    }

    /// The cost of beginning with a check, as far as it stays below a limit.
    fn follow(&mut self, set: Set, check: usize, limit: f64) -> Outcome {
        let problem = self.problem;
        let weight = self.known(set).weight;
        // Other checks may have raised the bounds of these answers since the checks were ordered.
        let mut sum = self.bound_with(set, weight, check);
        for branch in problem.split(check, set) {
            let had = self.known(branch.groups).lower;
            match self.look(branch.groups, limit - (sum - had)) {
                Outcome::Best(cost) => sum += cost - had,
                Outcome::AtLeast(cost) => return Outcome::AtLeast(sum + (cost - had)),
            }
            if sum >= limit {
                return Outcome::AtLeast(sum);
            }
        }
        Outcome::Best(sum)
    }

    /// The cheapest plan that can be put together from what is known: proved parts where there are
    /// some, the myopic check elsewhere.
    fn composed(&self, set: Set) -> Plan {
        let myopic = Plan::by(self.problem, set, &mut |set| self.proved_or_myopic(set));
        let known = self.known.get(&set).and_then(|known| known.plan);
        let mut first = known.and_then(|(_, check)| check);
        if first.is_none() {
            return myopic;
        }
        let found = Plan::by(self.problem, set, &mut |set| {
            first.take().or_else(|| self.proved_or_myopic(set))
        });
        let minutes = |plan: &Plan| plan.expected(self.problem).minutes;
        if minutes(&found) <= minutes(&myopic) {
            found
        } else {
            myopic
        }
    }

    fn proved_or_myopic(&self, set: Set) -> Option<usize> {
        let known = self.known.get(&set);
        let settled = known.filter(|known| known.settled().is_some());
        let check = settled.and_then(|known| known.plan?.1);
        check.or_else(|| most_bits_a_minute(self.problem, set))
    }
}

/// Checks of which none tells less than another and costs no less; of equal ones the first.
///
/// Where one check tells everything that another does and costs no more, it can take the place of
/// the other in any plan, and what followed still applies to what is left.
fn undominated(problem: &Problem) -> Vec<usize> {
    let all = problem.all();
    let splitting = (0..problem.checks()).filter(|check| problem.splits(*check, all));
    let splitting: Vec<usize> = splitting.collect();
    let finer = |one: usize, other: usize| {
        problem.branches(one).iter().all(|small| {
            let large = problem.branches(other).iter();
            large
                .map(|large| large.groups)
                .any(|large| small.groups.and(large) == small.groups)
        })
    };
    let replaced = |check: usize| {
        splitting.iter().any(|&other| {
            let cheaper = problem.minutes(other) <= problem.minutes(check);
            let same = finer(check, other) && problem.minutes(other) >= problem.minutes(check);
            other != check && cheaper && finer(other, check) && (!same || other < check)
        })
    };
    let kept = splitting.iter().copied().filter(|check| !replaced(*check));
    kept.collect()
}
