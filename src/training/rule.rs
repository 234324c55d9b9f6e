//! Plans that look one check ahead, or none.

use super::plan::Plan;
use super::problem::Problem;
use super::set::Set;

/// The check that gives most bits a minute about which cause it is; of equal ones the first.
///
/// This is the rule of the console on the noise-free version, without its preference for the
/// gentler of two checks that are nearly equal. Checks that cost nothing come first.
pub fn most_bits_a_minute(problem: &Problem, set: Set) -> Option<usize> {
    let whole = problem.weight(set);
    let mut best: Option<(f64, usize)> = None;
    for check in (0..problem.checks()).filter(|check| problem.splits(*check, set)) {
        let bits = bits(problem, check, set, whole);
        let minutes = problem.minutes(check);
        let pace = match (bits > 0.0, minutes > 0.0) {
            (true, true) => bits / minutes,
            (true, false) => f64::INFINITY,
            // It splits off only what cannot be.
            (false, _) => 0.0,
        };
        if best.is_none_or(|(most, _)| pace > most) {
            best = Some((pace, check));
        }
    }
    best.map(|(_, check)| check)
}

/// Entropy of the answer, which is what a sure answer tells (C. E. Shannon, Bell System Technical
/// Journal 27, 1948).
fn bits(problem: &Problem, check: usize, set: Set, whole: f64) -> f64 {
    let parts = problem.split(check, set).map(|branch| {
        let share = problem.weight(branch.groups) / whole;
        if share > 0.0 {
            -share * share.log2()
        } else {
            0.0
        }
    });
    parts.sum()
}

/// The plan that always makes the check of most bits a minute.
pub fn myopic(problem: &Problem, set: Set) -> Plan {
    Plan::by(problem, set, &mut |set| most_bits_a_minute(problem, set))
}

/// The plan that makes the checks in their order, and leaves out those that tell nothing.
pub fn in_order(problem: &Problem, set: Set) -> Plan {
    Plan::by(problem, set, &mut |set| {
        (0..problem.checks()).find(|check| problem.splits(*check, set))
    })
}
