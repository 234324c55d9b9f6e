//! The best plan, against a published optimum, codes of known length and all plans.

use proptest::prelude::*;
use stillwheel::training::best_plan::{Found, Search};
use stillwheel::training::plan::Plan;
use stillwheel::training::problem::{Problem, SureCheck, Unfit};
use stillwheel::training::rule::{in_order, most_bits_a_minute, myopic};
use stillwheel::training::set::Set;

const PLENTY: usize = 1_000_000;

fn check(minutes: f64, answers: &[u8]) -> SureCheck {
    SureCheck {
        minutes,
        answers: answers.to_vec(),
    }
}

fn best(problem: &Problem) -> Found {
    let found = Search::new(problem, PLENTY).best(problem.all());
    assert!(found.proved());
    found
}

fn near(found: f64, wanted: f64) {
    let slack = 1e-9 * wanted.abs().max(1.0);
    assert!((found - wanted).abs() <= slack, "{found} is not {wanted}");
}

/// Six states, five tests of one minute: IEEE Trans. SMC 20(4) 1990, worked example (matrix,
/// probabilities and optimum 2.18 from memory, recomputed).
fn six_states() -> Problem {
    let tests = [
        [0, 0, 0, 1, 1, 1],
        [0, 1, 0, 0, 1, 1],
        [0, 0, 1, 0, 0, 1],
        [0, 0, 1, 1, 0, 1],
        [0, 1, 0, 1, 0, 0],
    ];
    let checks: Vec<SureCheck> = tests.iter().map(|row| check(1.0, row)).collect();
    Problem::new(&[0.7, 0.01, 0.02, 0.1, 0.05, 0.12], &checks).unwrap()
}

/// The published optimum. The myopic 2.86 and the bound 1.59 of Huffman's code were recomputed.
#[test]
fn the_six_states_have_their_published_optimum() {
    let problem = six_states();
    let found = best(&problem);
    near(found.minutes, 2.18);
    // The second test goes first, although the first one tells more.
    assert_eq!(found.plan.first(), Some(1));
    assert_eq!(most_bits_a_minute(&problem, problem.all()), Some(0));
    let greedy = myopic(&problem, problem.all()).expected(&problem);
    near(greedy.minutes, 2.86);
    near(greedy.checks, 2.86);
    near(Search::new(&problem, 0).best(problem.all()).at_least, 1.59);
}

/// Step by step: what is left after an answer, and what another first test would cost.
#[test]
fn the_rest_of_the_six_states_is_judged_from_any_answers() {
    let problem = six_states();
    let mut search = Search::new(&problem, PLENTY);
    let all = problem.all();
    // After the second test fails, s1, s4 and s5 are left: the third (s5 or not), then the first.
    let left = problem.after(&[(1, 1)]);
    assert_eq!(problem.causes(left), [1, 4, 5]);
    near(search.best(left).minutes, (0.18 + 0.06) / 0.18);
    // Going on as planned costs nothing more than the plan; the myopic start costs 0.68 more.
    near(search.best_with(all, 1).unwrap().minutes, 2.18);
    near(
        search.best_with(all, 0).unwrap().minutes,
        least(&problem, all, Some(0)),
    );
    assert!(search.best_with(all, 0).unwrap().minutes > 2.18);
    assert!(search.best_with(left, 5).is_none());
    // Every answer of s5, and answers that no single state gives.
    let one = problem.after(&[(0, 1), (2, 1)]);
    assert_eq!(problem.causes(one), [5]);
    near(search.best(one).minutes, 0.0);
    assert!(problem.after(&[(2, 1), (4, 1)]).is_empty());
}

/// 2^k causes alike and k binary checks that read their digits: every cause takes k checks.
#[test]
fn digits_take_as_many_checks_as_there_are() {
    for k in 1..=6 {
        let causes = 1_usize << k;
        let digit = |at: usize| -> Vec<u8> { (0..causes).map(|c| (c >> at & 1) as u8).collect() };
        let checks: Vec<SureCheck> = (0..k).map(|at| check(3.0, &digit(at))).collect();
        let problem = Problem::new(&vec![1.0; causes], &checks).unwrap();
        near(best(&problem).minutes, 3.0 * k as f64);
    }
}

/// Where any yes-or-no question can be asked the best plan is Huffman's code (D. A. Huffman,
/// Proceedings of the IRE 40, 1952): 224 for frequencies 45, 13, 12, 16, 9 and 5 (T. H. Cormen and
/// others, Introduction to Algorithms, MIT Press; from memory, recomputed).
#[test]
fn any_question_allowed_gives_the_code_of_huffman() {
    let weights = [45.0, 13.0, 12.0, 16.0, 9.0, 5.0];
    let questions = (1_usize..32).map(|set| {
        let answers: Vec<u8> = (0..6).map(|cause| (set >> cause & 1) as u8).collect();
        check(1.0, &answers)
    });
    let questions: Vec<SureCheck> = questions.collect();
    let problem = Problem::new(&weights, &questions).unwrap();
    near(best(&problem).minutes, 2.24);
}

#[test]
fn what_no_check_splits_is_a_group() {
    let checks = [check(2.0, &[0, 0, 1, 2, 2]), check(5.0, &[1, 1, 1, 0, 0])];
    let problem = Problem::new(&[3.0, 1.0, 4.0, 1.0, 1.0], &checks).unwrap();
    assert_eq!(problem.groups().len(), 3);
    let found = best(&problem);
    // The first check tells all three groups apart, the second is never made.
    near(found.minutes, 2.0);
    let mut ends: Vec<Vec<usize>> = found
        .plan
        .ends()
        .iter()
        .map(|s| problem.causes(*s))
        .collect();
    ends.sort();
    assert_eq!(ends, [vec![0, 1], vec![2], vec![3, 4]]);
    // Nothing to tell apart at all.
    let alike = Problem::new(&[1.0, 1.0], &[check(1.0, &[0, 0])]).unwrap();
    assert_eq!(best(&alike).plan, Plan::End(alike.all()));
}

#[test]
fn what_is_no_problem_is_refused() {
    let two = check(1.0, &[0, 1]);
    let refused =
        |weights: &[f64], checks: &[SureCheck]| Problem::new(weights, checks).unwrap_err();
    assert_eq!(refused(&[], &[]), Unfit::NoWeight);
    assert_eq!(
        refused(&[0.0, 0.0], std::slice::from_ref(&two)),
        Unfit::NoWeight
    );
    assert_eq!(
        refused(&[-1.0, 2.0], std::slice::from_ref(&two)),
        Unfit::NotFromZero(-1.0)
    );
    let lines = refused(&[1.0, 1.0, 1.0], &[two]);
    assert!(matches!(
        lines,
        Unfit::AnswersMissing {
            check: 0,
            answers: 2,
            causes: 3
        }
    ));
    let many: Vec<u8> = (0..129).collect();
    assert_eq!(
        refused(&[1.0; 129], &[check(1.0, &many)]),
        Unfit::TooManyGroups(129)
    );
}

/// The least expected cost over all plans, or over those with one first check, without any bound.
fn least(problem: &Problem, set: Set, first: Option<usize>) -> f64 {
    let after = |check: usize| {
        let weight = problem.weight(set);
        let rest = problem.split(check, set).map(|branch| {
            let share = problem.weight(branch.groups) / weight;
            share * least(problem, branch.groups, None)
        });
        problem.minutes(check) + rest.sum::<f64>()
    };
    let checks = (0..problem.checks()).filter(|check| first.is_none_or(|only| only == *check));
    let costs = checks
        .filter(|check| problem.splits(*check, set))
        .map(after);
    let least = costs.fold(f64::INFINITY, f64::min);
    if least.is_finite() { least } else { 0.0 }
}

fn problems() -> impl Strategy<Value = Problem> {
    (2_usize..=7, 1_usize..=5).prop_flat_map(|(causes, checks)| {
        let check = (0_u8..=12, 2_u8..=4).prop_flat_map(move |(minutes, ways)| {
            let answers = proptest::collection::vec(0..ways, causes);
            answers.prop_map(move |answers| check(f64::from(minutes) / 4.0, &answers))
        });
        let weights = proptest::collection::vec(1_u32..1000, causes);
        (weights, proptest::collection::vec(check, checks)).prop_map(|(weights, checks)| {
            let weights: Vec<f64> = weights.into_iter().map(f64::from).collect();
            Problem::new(&weights, &checks).unwrap()
        })
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn the_search_finds_the_least_of_all_plans(problem in problems()) {
        let wanted = least(&problem, problem.all(), None);
        let found = best(&problem);
        near(found.minutes, wanted);
        near(found.plan.expected(&problem).minutes, found.minutes);
        prop_assert_eq!(found.plan.ends().len(), problem.groups().len());
        for plan in [myopic(&problem, problem.all()), in_order(&problem, problem.all())] {
            prop_assert!(plan.expected(&problem).minutes >= wanted - 1e-9);
        }
        let mut search = Search::new(&problem, PLENTY);
        for check in (0..problem.checks()).filter(|c| problem.splits(*c, problem.all())) {
            let with = search.best_with(problem.all(), check).unwrap();
            near(with.minutes, least(&problem, problem.all(), Some(check)));
        }
    }

    /// A search that is cut short brackets the optimum, looks no further than it may, and is never
    /// dearer than the myopic plan.
    #[test]
    fn a_budget_leaves_two_bounds(problem in problems(), budget in 0_usize..12) {
        let wanted = least(&problem, problem.all(), None);
        let mut search = Search::new(&problem, budget);
        let found = search.best(problem.all());
        prop_assert!(search.visited() <= budget);
        prop_assert!(found.at_least <= wanted + 1e-9);
        prop_assert!(found.minutes >= wanted - 1e-9);
        let rule = myopic(&problem, problem.all()).expected(&problem).minutes;
        prop_assert!(found.minutes <= rule + 1e-9);
    }
}

/// Large enough that ten sets do not settle it.
#[test]
fn a_short_budget_says_that_nothing_is_proved() {
    let mut draw = 1_u64;
    let mut below = |bound: u64| {
        draw = draw * 16_807 % 2_147_483_647;
        draw * bound / 2_147_483_647
    };
    let weights: Vec<f64> = (0..30).map(|_| (1 + below(100)) as f64).collect();
    let mut checks = Vec::new();
    for _ in 0..20 {
        let minutes = (1 + below(10)) as f64;
        let answers: Vec<u8> = (0..30).map(|_| below(2) as u8).collect();
        checks.push(check(minutes, &answers));
    }
    let problem = Problem::new(&weights, &checks).unwrap();
    let short = Search::new(&problem, 10).best(problem.all());
    assert!(!short.proved());
    let whole = best(&problem);
    assert!(short.at_least < whole.minutes && whole.minutes <= short.minutes);
}
