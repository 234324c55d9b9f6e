//! What many jobs come to.

use std::collections::BTreeMap;

use stillwheel::diagnosis::cause::Part;
use stillwheel::diagnosis::model::Model;

use super::work::{End, Outcome};

/// One job of a trial, with what was hidden in it.
#[derive(Debug, Clone)]
pub struct Row {
    /// Causes that act; none where the cause is not in the tree.
    pub acts: Vec<usize>,
    pub events: Vec<bool>,
    /// Air temperature, C.
    pub celsius: f64,
    /// Draws of severity and weather with which it did not move.
    pub still: u64,
    /// Whether it moved at last.
    pub moved: bool,
    pub console: Outcome,
    pub chart: Outcome,
}

impl Row {
    pub fn first(&self, outcome: &Outcome) -> bool {
        self.within(outcome, 1)
    }

    pub fn within(&self, outcome: &Outcome, count: usize) -> bool {
        let ranked = outcome.ranked.iter().take(count);
        ranked
            .chain(&outcome.group)
            .any(|cause| self.acts.contains(cause))
    }

    pub fn listed(&self) -> bool {
        !self.acts.is_empty()
    }
}

pub fn share(count: usize, of: usize) -> f64 {
    count as f64 / of.max(1) as f64
}

/// Mean and median.
pub fn middle(mut numbers: Vec<f64>) -> (f64, f64) {
    numbers.sort_by(f64::total_cmp);
    let count = numbers.len();
    let at = |place: usize| numbers.get(place).copied().unwrap_or(0.0);
    let median = f64::midpoint(at(count / 2), at(count.saturating_sub(1) / 2));
    (numbers.iter().sum::<f64>() / count.max(1) as f64, median)
}

/// How often a job ended in each way.
pub fn ends(rows: &[&Row], of: impl Fn(&Row) -> &Outcome) -> BTreeMap<End, usize> {
    let mut ends = BTreeMap::new();
    for row in rows {
        *ends.entry(of(row).end).or_insert(0) += 1;
    }
    ends
}

/// One of ten bins of probability.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Bin {
    pub count: usize,
    pub believed: f64,
    pub seen: f64,
}

/// Sorts pairs of what was believed and what was so into ten bins.
pub fn bins(pairs: impl Iterator<Item = (f64, bool)>) -> [Bin; 10] {
    let mut bins = [Bin::default(); 10];
    for (believed, so) in pairs {
        let bin = &mut bins[((believed * 10.0) as usize).min(9)];
        bin.count += 1;
        bin.believed += believed;
        bin.seen += f64::from(u8::from(so));
    }
    for bin in &mut bins {
        let count = bin.count.max(1) as f64;
        bin.believed /= count;
        bin.seen /= count;
    }
    bins
}

/// Mean distance between what was believed and what was so, weighted by how often.
pub fn gap(bins: &[Bin]) -> f64 {
    let all: usize = bins.iter().map(|bin| bin.count).sum();
    let parts = bins.iter();
    let parts = parts.map(|bin| bin.count as f64 * (bin.believed - bin.seen).abs());
    parts.sum::<f64>() / all.max(1) as f64
}

/// Every cause of every job: what was believed of it, and whether it was so.
pub fn pairs<'a>(
    model: &'a Model,
    rows: &'a [&Row],
) -> impl Iterator<Item = (usize, f64, bool)> + 'a {
    let causes = |row: &'a Row| {
        let all = row.console.believed.iter().enumerate();
        let all = all.filter(|(at, _)| model.causes[*at].part == Part::Cause);
        all.map(move |(at, believed)| (at, *believed, row.events[at]))
    };
    rows.iter().flat_map(move |row| causes(row))
}

/// What was believed of the leader of every job, and whether it was so.
pub fn leaders<'a>(rows: &'a [&Row]) -> impl Iterator<Item = (f64, bool)> + 'a {
    rows.iter().filter_map(|row| {
        let leader = *row.console.ranked.first()?;
        Some((row.console.believed[leader], row.events[leader]))
    })
}

/// Brier score and log score of one statement.
pub fn scores(believed: f64, so: bool) -> (f64, f64) {
    let right = if so { believed } else { 1.0 - believed };
    ((1.0 - right).powi(2), -right.max(1e-9).ln())
}
