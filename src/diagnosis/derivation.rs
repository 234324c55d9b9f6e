//! Answer lines worked out from the plant: what each fault alone, and each masking pair, reads.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::agreement::readings::{answer, rounds, states, subjects, switches, words};
use super::agreement::{NotCompared, fault_names};
use super::check::{AnswerLine, Check};
use super::model::Model;
use crate::plant::aircraft::Aircraft;
use crate::plant::observe::{Observed, Reading};
use crate::tree::node::Node;

/// Number of these rules. It goes up with every change after which the same texts give other
/// lines or another order of variables, here, in the plant or in the engine: what was kept of an
/// earlier number counts as stale.
pub const RULES: u32 = 2;

/// Share of healthy aircraft on which a check is read as if something were wrong: judgement.
pub const FALSE_ALARM: f64 = 0.02;
/// Share of faulty aircraft on which it is read as healthy: judgement.
pub const MISSED: f64 = 0.02;

/// The lines of one check.
#[derive(Debug, Clone, PartialEq)]
pub struct Derived {
    /// The check.
    pub check: usize,
    /// Lines in the order in which they are to stand: pairs, then single faults, farthest first.
    pub lines: Vec<DerivedLine>,
    /// What a healthy aircraft reads, and the shares of the answers for it.
    pub otherwise: (String, Vec<f64>),
    /// Faults whose reading no answer covers, each with the reading; without events a healthy
    /// aircraft.
    pub silent: Vec<(Vec<usize>, String)>,
}

/// One line.
#[derive(Debug, Clone, PartialEq)]
pub struct DerivedLine {
    /// Events that must hold.
    pub when: Vec<usize>,
    /// What the plant reads with them.
    pub reading: String,
    /// Shares of the answers.
    pub shares: Vec<f64>,
}

impl Derived {
    /// The lines as a check has them, `otherwise` last.
    pub fn answer_lines(&self) -> Vec<AnswerLine> {
        let single = self.lines.iter().map(|line| AnswerLine {
            when: line.when.iter().copied().map(Node::Event).collect(),
            shares: line.shares.clone(),
        });
        let otherwise = AnswerLine {
            when: Vec::new(),
            shares: self.otherwise.1.clone(),
        };
        single.chain([otherwise]).collect()
    }
}

/// The checks that say what their readings show.
pub fn readable(model: &Model) -> Vec<usize> {
    let shows = |check: &Check| !check.shows.is_empty();
    let all = model.checks.iter().enumerate();
    all.filter(|(_, check)| shows(check))
        .map(|(at, _)| at)
        .collect()
}

/// Works out the lines of some checks that say what their readings show.
///
/// Plays one parking for each fault and state, and one for each pair of faults that a check reads
/// otherwise than healthy.
pub fn derive(model: &Model, checks: &[usize]) -> Result<Vec<Derived>, NotCompared> {
    let aircraft = model.aircraft.as_ref().ok_or(NotCompared::NoAircraft)?;
    let mut found = Vec::new();
    for state in states(model, checks) {
        let here = checks.iter().copied();
        let here: Vec<usize> = here.filter(|at| switches(model, *at) == state).collect();
        found.extend(in_state(model, aircraft, &state, &here)?);
    }
    found.sort_by_key(|derived| derived.check);
    Ok(found)
}

/// What one check read with some events in.
struct Row {
    when: Vec<usize>,
    observed: Observed,
}

fn in_state(
    model: &Model,
    aircraft: &Arc<Aircraft>,
    state: &[(String, String)],
    checks: &[usize],
) -> Result<Vec<Derived>, NotCompared> {
    let bench = Bench {
        model,
        aircraft,
        state,
        checks,
    };
    let every: Vec<usize> = (0..checks.len()).collect();
    let healthy = bench.read(&[], &every)?;
    let alone = subjects(model).into_iter().flatten();
    let singles = bench.rows(alone.map(|event| (vec![event], every.clone())))?;
    let pairs = bench.rows(bench.odd_pairs(&healthy, &singles))?;
    let all = checks.iter().zip(healthy).zip(singles.iter().zip(&pairs));
    Ok(all
        .filter_map(|((check, healthy), (singles, pairs))| {
            Some(lines(model, *check, &healthy?, singles, pairs))
        })
        .collect())
}

/// The aircraft in one state, and the checks that are made in it.
struct Bench<'a> {
    model: &'a Model,
    aircraft: &'a Arc<Aircraft>,
    state: &'a [(String, String)],
    checks: &'a [usize],
}

impl Bench<'_> {
    /// What some checks, by their places among those of the bench, read with some events in.
    fn read(&self, when: &[usize], of: &[usize]) -> Result<Vec<Option<Observed>>, NotCompared> {
        let error = |error| NotCompared::Fault {
            fault: fault_names(self.model, when),
            error,
        };
        let rounds = rounds(self.model, self.aircraft, self.state, when).map_err(error)?;
        let one = |at: &usize| {
            let reads = self.model.checks[self.checks[*at]].reads.as_deref();
            rounds.observe_one(reads.unwrap_or_default()).map_err(error)
        };
        of.iter().map(one).collect()
    }

    /// The same for many sets of events, each with the checks that are read, gathered by check.
    fn rows(
        &self,
        sets: impl IntoIterator<Item = (Vec<usize>, Vec<usize>)>,
    ) -> Result<Vec<Vec<Row>>, NotCompared> {
        let mut rows: Vec<Vec<Row>> = self.checks.iter().map(|_| Vec::new()).collect();
        for (when, of) in sets {
            for (at, observed) in of.iter().zip(self.read(&when, &of)?) {
                rows[*at].extend(observed.map(|observed| Row {
                    when: when.clone(),
                    observed,
                }));
            }
        }
        Ok(rows)
    }

    /// Pairs of faults that a check reads otherwise than healthy, each alone, with those checks.
    ///
    /// What one check reads does not hang on which others are worked out beside it.
    fn odd_pairs(
        &self,
        healthy: &[Option<Observed>],
        singles: &[Vec<Row>],
    ) -> BTreeMap<Vec<usize>, Vec<usize>> {
        let mut pairs: BTreeMap<Vec<usize>, Vec<usize>> = BTreeMap::new();
        for (at, (healthy, rows)) in healthy.iter().zip(singles).enumerate() {
            let Some(healthy) = healthy else {
                continue;
            };
            let check = &self.model.checks[self.checks[at]];
            let usual = answer(check, healthy);
            let odd: Vec<usize> = rows
                .iter()
                .filter(|row| answer(check, &row.observed) != usual)
                .map(|row| row.when[0])
                .collect();
            for (first, a) in odd.iter().enumerate() {
                for b in &odd[first + 1..] {
                    pairs.entry(vec![*a, *b]).or_default().push(at);
                }
            }
        }
        pairs
    }
}

/// The lines of one check, in order.
fn lines(model: &Model, at: usize, healthy: &Observed, singles: &[Row], pairs: &[Row]) -> Derived {
    let check = &model.checks[at];
    let usual = answer(check, healthy);
    let mut silent = Vec::new();
    if usual.is_none() {
        silent.push((Vec::new(), words(healthy)));
    }
    let mut found: Vec<(f64, DerivedLine)> = Vec::new();
    let mut line = |row: &Row, away: f64| match answer(check, &row.observed) {
        None => silent.push((row.when.clone(), words(&row.observed))),
        Some(shown) => found.push((
            away,
            DerivedLine {
                when: row.when.clone(),
                reading: words(&row.observed),
                shares: shares(check.answers.len(), shown, usual),
            },
        )),
    };
    let alone = |event: usize| singles.iter().find(|row| row.when == [event]);
    for row in pairs {
        let shown = answer(check, &row.observed);
        let differs = row
            .when
            .iter()
            .filter_map(|event| alone(*event))
            .all(|single| answer(check, &single.observed) != shown);
        // Above every single one, whatever the distance.
        if differs {
            line(row, f64::INFINITY);
        }
    }
    for row in singles {
        if answer(check, &row.observed) != usual {
            line(row, distance(&row.observed.reading, &healthy.reading));
        }
    }
    found.sort_by(|a, b| b.0.total_cmp(&a.0));
    let otherwise = usual.map_or_else(
        || even(check.answers.len()),
        |usual| spread(check.answers.len(), usual, FALSE_ALARM),
    );
    Derived {
        check: at,
        lines: found.into_iter().map(|(_, line)| line).collect(),
        otherwise: (words(healthy), otherwise),
        silent,
    }
}

/// A number of answers, which are few.
fn count(answers: usize) -> f64 {
    f64::from(u8::try_from(answers).unwrap_or(u8::MAX))
}

fn even(answers: usize) -> Vec<f64> {
    vec![1.0 / count(answers); answers]
}

/// One answer with all but a share, and the share evenly over the others.
fn spread(answers: usize, shown: usize, share: f64) -> Vec<f64> {
    let others = share / count(answers.saturating_sub(1).max(1));
    (0..answers)
        .map(|answer| if answer == shown { 1.0 - share } else { others })
        .collect()
}

/// What is read for what is there; where it is missed, as on a healthy aircraft.
fn shares(answers: usize, shown: usize, usual: Option<usize>) -> Vec<f64> {
    match usual.filter(|usual| *usual != shown && answers > 2) {
        None => spread(answers, shown, MISSED),
        Some(usual) => {
            // A slip between two odd answers is half as likely as taking it for healthy.
            let slip = 0.5 * MISSED / count(answers - 2);
            let of = |answer| match answer {
                answer if answer == shown => 1.0 - 1.5 * MISSED,
                answer if answer == usual => MISSED,
                _ => slip,
            };
            (0..answers).map(of).collect()
        }
    }
}

/// How far two readings are apart; two words that differ count as far as can be.
fn distance(one: &Reading, other: &Reading) -> f64 {
    match (one, other) {
        (Reading::Number(one), Reading::Number(other)) => (one - other).abs(),
        _ if one == other => 0.0,
        _ => f64::MAX,
    }
}
