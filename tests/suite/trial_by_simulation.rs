//! A small trial by simulation: the console works seeded jobs by itself, with readings from the
//! plant. The full one is printed by the bench and kept in `tests/trials/by-simulation.md`.

use crate::trial::work::End;
use crate::trial::{report, threads, worked};

/// Of 30 jobs. Guards, not goals: well under what is measured, and far over what a policy that
/// chose or stopped wrongly would reach.
const WITHIN_THREE: usize = 22;
const PROVED: usize = 10;

#[test]
fn thirty_jobs_are_worked_by_the_console_alone() {
    let rows = worked(1, 30, threads());
    assert_eq!(rows.len(), 30);
    let right = rows
        .iter()
        .filter(|row| row.within(&row.console, 3))
        .count();
    assert!(right >= WITHIN_THREE, "right within three in {right}");
    let proved: Vec<_> = rows
        .iter()
        .filter(|row| row.console.end == End::Proved)
        .collect();
    assert!(
        proved.len() >= PROVED,
        "{} stopped with proof",
        proved.len()
    );
    let wrong = proved.iter().filter(|row| !row.first(&row.console)).count();
    assert!(
        3 * wrong <= proved.len(),
        "{wrong} stopped on a wrong cause"
    );
    let sum =
        |minutes: &dyn Fn(&crate::trial::score::Row) -> f64| rows.iter().map(minutes).sum::<f64>();
    let (console, chart) = (
        sum(&|row| row.console.minutes),
        sum(&|row| row.chart.minutes),
    );
    assert!(console < chart, "{console} min, in a fixed order {chart}");
}

#[test]
fn nothing_is_released_opened_or_pressurised_before_chocks() {
    let rows = worked(2, 30, threads());
    let late = rows.iter().filter(|row| row.console.late_chocks).count();
    assert!(
        late > 0,
        "chocks come late in no job, so this shows nothing"
    );
    for row in &rows {
        assert_eq!(row.console.without_chocks, 0);
        assert_eq!(row.chart.without_chocks, 0);
    }
}

#[test]
fn the_same_seed_prints_the_same_on_any_number_of_threads() {
    let first = report(3, 3, 1);
    assert_eq!(first, report(3, 3, 2));
    assert_ne!(first, report(4, 3, 2));
}
