//! A small trial by simulation: the console works seeded jobs by itself, with readings from the
//! plant. The full one is printed by the bench and kept in `tests/trials/by-simulation.md`.

use crate::trial::score::Row;
use crate::trial::work::End;
use crate::trial::{report, threads, worked};

/// Of 30 jobs. Guards, not goals: well under what is measured, and far over what a policy that
/// chose or stopped wrongly would reach.
const WITHIN_THREE: usize = 22;
const PROVED: usize = 10;

#[test]
fn thirty_jobs_are_worked_by_the_console_alone() {
    let rows = worked(2, 30, threads());
    let right = rows.iter().filter(|row| row.within(&row.console, 3));
    let right = right.count();
    assert!(right >= WITHIN_THREE, "right within three in {right}");
    let proved = rows.iter().filter(|row| row.console.end == End::Proved);
    let proved: Vec<&Row> = proved.collect();
    assert!(
        proved.len() >= PROVED,
        "{} stopped with proof",
        proved.len()
    );
    let wrong = proved.iter().filter(|row| !row.first(&row.console)).count();
    assert!(
        3 * wrong <= proved.len(),
        "{wrong} stopped on another cause"
    );
    let minutes = |of: fn(&Row) -> f64| rows.iter().map(of).sum::<f64>();
    let (console, chart) = (
        minutes(|row| row.console.minutes),
        minutes(|row| row.chart.minutes),
    );
    assert!(console < chart, "{console} min, in a fixed order {chart}");

    let late = rows.iter().filter(|row| row.console.late_chocks).count();
    assert!(
        late > 0,
        "chocks come late in no job, so the next says nothing"
    );
    for row in &rows {
        let before = row.console.without_chocks + row.chart.without_chocks;
        assert_eq!(before, 0, "released, opened or pressurised before chocks");
    }
}

#[test]
fn the_same_seed_prints_the_same_on_any_number_of_threads() {
    let first = report(3, 2, 1);
    assert_eq!(first, report(3, 2, 2));
    assert_ne!(first, report(4, 2, 2));
}
