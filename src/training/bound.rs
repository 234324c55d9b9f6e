//! What any plan for a set must cost at least.

use super::problem::Problem;
use super::set::{MOST, Set};

/// Checks in the orders in which the bounds take them.
#[derive(Debug)]
pub(super) struct Bound {
    /// Cheapest first.
    by_cost: Vec<usize>,
    /// Least cost for each bit that an answer can carry first, with those bits; empty where every
    /// check has two answers, since the other bound is then never lower.
    by_bit: Vec<(usize, f64)>,
}

impl Bound {
    /// Puts some checks in order.
    pub(super) fn new(problem: &Problem, checks: &[usize]) -> Self {
        let minutes = |check: &usize| problem.minutes(*check);
        let mut by_cost = checks.to_vec();
        by_cost.sort_by(|a, b| minutes(a).total_cmp(&minutes(b)));
        let bits = |check: usize| {
            // No more branches than groups, of which there are at most MOST.
            let branches = u8::try_from(problem.branches(check).len()).unwrap_or(u8::MAX);
            f64::from(branches).log2()
        };
        let mut by_bit: Vec<(usize, f64)> = checks.iter().map(|c| (*c, bits(*c))).collect();
        if by_bit.iter().all(|(_, bits)| *bits <= 1.0) {
            by_bit.clear();
        }
        let pace = |(check, bits): &(usize, f64)| minutes(check) / bits;
        by_bit.sort_by(|a, b| pace(a).total_cmp(&pace(b)));
        Self { by_cost, by_bit }
    }

    /// Weight of a set, and the least that a plan for it costs, times that weight.
    ///
    /// A plan is a prefix code over the groups, so its mean length is at least that of Huffman's
    /// code (D. A. Huffman, Proceedings of the IRE 40, 1952) with as many branches as the widest
    /// check has. No path makes a check twice, so one of length l costs at least the l cheapest.
    /// That sum is convex in l, and by Jensen's inequality the mean cost is at least the sum at
    /// the mean length (K. R. Pattipati and M. G. Alexandridis, IEEE Transactions on Systems, Man
    /// and Cybernetics 20(4), 1990; from memory).
    pub(super) fn of(&self, problem: &Problem, set: Set) -> (f64, f64) {
        let mut weights = [0.0; MOST];
        let count = set.len();
        let groups = problem.groups();
        for (slot, place) in weights.iter_mut().zip(set.places()) {
            *slot = groups[place].weight;
        }
        let weights = &weights[..count];
        let whole: f64 = weights.iter().sum();
        if count < 2 || whole <= 0.0 {
            return (whole, 0.0);
        }
        let mut widest = 2;
        let mut costs = [0.0; MOST];
        let mut useful = 0;
        for check in &self.by_cost {
            let ways = problem.split(*check, set).count();
            if ways > 1 {
                widest = widest.max(ways);
                if let Some(slot) = costs.get_mut(useful) {
                    *slot = problem.minutes(*check);
                    useful += 1;
                }
            }
        }
        let length = code_length(weights, widest) / whole;
        let least = cheapest(&costs[..useful], length);
        (
            whole,
            whole * least.max(self.bits(problem, set, weights, whole)),
        )
    }

    /// The same by bits: an answer of a check with a branches carries at most log2 a of them, and
    /// the causes need their entropy; by Kraft's inequality and Jensen's, the mean cost is at
    /// least that of buying the entropy where a bit is cheapest.
    fn bits(&self, problem: &Problem, set: Set, weights: &[f64], whole: f64) -> f64 {
        if self.by_bit.is_empty() {
            return 0.0;
        }
        let share = |weight: &f64| weight / whole;
        let term = |p: f64| if p > 0.0 { -p * p.log2() } else { 0.0 };
        let mut wanted: f64 = weights.iter().map(|weight| term(share(weight))).sum();
        let mut cost = 0.0;
        for (check, bits) in &self.by_bit {
            if wanted <= 0.0 {
                break;
            }
            if problem.splits(*check, set) {
                let part = (wanted / bits).min(1.0);
                cost += part * problem.minutes(*check);
                wanted -= bits;
            }
        }
        cost
    }
}

/// The sum of the first so many costs, a broken number of them allowed.
fn cheapest(costs: &[f64], length: f64) -> f64 {
    let mut left = length;
    let mut sum = 0.0;
    for cost in costs {
        if left <= 0.0 {
            break;
        }
        sum += cost * left.min(1.0);
        left -= 1.0;
    }
    sum
}

/// Sum of weight times length in Huffman's code with so many branches; weights in order.
///
/// Two queues, both in order: the weights, and the sums made of them. The first sum takes fewer
/// where the count asks for it, as if weights of nothing stood before the others.
fn code_length(weights: &[f64], branches: usize) -> f64 {
    let mut sums = [0.0; MOST];
    let (mut taken, mut made, mut used) = (0, 0, 0);
    let mut length = 0.0;
    let odd = (weights.len() - 1) % (branches - 1);
    let mut take = if odd == 0 { branches } else { odd + 1 };
    while weights.len() - taken + made - used > 1 {
        let mut sum = 0.0;
        for _ in 0..take {
            let weight = weights.get(taken);
            let made_before = (used < made).then(|| sums[used]);
            match (weight, made_before) {
                (Some(weight), Some(other)) if *weight > other => {
                    sum += other;
                    used += 1;
                }
                (Some(weight), _) => {
                    sum += weight;
                    taken += 1;
                }
                (None, Some(other)) => {
                    sum += other;
                    used += 1;
                }
                (None, None) => {}
            }
        }
        sums[made] = sum;
        made += 1;
        length += sum;
        take = branches;
    }
    length
}

#[cfg(test)]
mod tests {
    use super::code_length;

    /// T. H. Cormen and others, Introduction to Algorithms, MIT Press: frequencies 45, 13, 12, 16, 9
    /// and 5 give a code of 224 (from memory, recomputed).
    #[test]
    fn the_textbook_code_has_its_length() {
        let length = code_length(&[5.0, 9.0, 12.0, 13.0, 16.0, 45.0], 2);
        assert!((length - 224.0).abs() < 1e-12);
    }

    /// Three branches and four equal weights: two of them must share a branch.
    #[test]
    fn a_wider_code_fills_its_top_first() {
        let length = code_length(&[1.0; 4], 3);
        assert!((length - 6.0).abs() < 1e-12);
        assert!((code_length(&[1.0; 9], 3) - 18.0).abs() < 1e-12);
    }
}
