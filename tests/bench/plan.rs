//! The best plan: random problems of a fixed seed.

use crate::measure::time;
use stillwheel::training::best_plan::{BUDGET, Search};
use stillwheel::training::problem::{Problem, SureCheck};
use stillwheel::training::rule::myopic;

/// D. H. Lehmer's generator with the multiplier of S. K. Park and K. W. Miller (Communications of
/// the ACM 31, 1988; from memory).
struct Draw(u64);

impl Draw {
    fn below(&mut self, bound: u64) -> u64 {
        self.0 = self.0 * 16_807 % 2_147_483_647;
        self.0 * bound / 2_147_483_647
    }
}

fn problem(draw: &mut Draw, checks: usize, causes: usize, answers: u64) -> Problem {
    let weights: Vec<f64> = (0..causes).map(|_| (1 + draw.below(100)) as f64).collect();
    let check = |draw: &mut Draw| {
        let ways = 2 + draw.below(answers - 1);
        SureCheck {
            minutes: (1 + draw.below(10)) as f64,
            answers: (0..causes).map(|_| draw.below(ways) as u8).collect(),
        }
    };
    let checks: Vec<SureCheck> = (0..checks).map(|_| check(draw)).collect();
    Problem::new(&weights, &checks).expect("the weights are above 0")
}

/// Prints the figures.
pub fn run() {
    println!("Best plan (goal: 20 checks, 30 causes in 10 ms)");
    let mut draw = Draw(1);
    for (checks, causes, answers) in [(20, 30, 2), (20, 30, 4), (30, 30, 2), (30, 60, 2)] {
        let problem = problem(&mut draw, checks, causes, answers);
        let mut search = Search::new(&problem, BUDGET);
        let found = search.best(problem.all());
        let rule = myopic(&problem, problem.all()).expected(&problem).minutes;
        println!(
            "  best {:.3} (proved {}), myopic {rule:.3}, {} sets looked into",
            found.minutes,
            found.proved(),
            search.visited()
        );
        let name = format!("  {checks} checks, {causes} causes, up to {answers} answers");
        time(&name, || {
            Search::new(&problem, BUDGET).best(problem.all()).minutes
        });
    }
}
