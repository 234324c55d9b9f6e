//! A trial of the whole diagnosis by simulation, seeded.
//!
//! A job is drawn from the tree's own chances, its readings come from the plant with the hidden
//! faults in it, and the console works it without a person. What people say is drawn from a table
//! of what is physically there. No answer is drawn from the lines of the tree.

#[path = "trial/answer.rs"]
mod answer;
#[path = "trial/chart.rs"]
mod chart;
#[path = "trial/draw.rs"]
mod draw;
#[path = "trial/print.rs"]
mod print;
#[path = "trial/score.rs"]
pub mod score;
#[path = "trial/truth.rs"]
mod truth;
#[path = "trial/work.rs"]
pub mod work;
#[path = "trial/yard.rs"]
mod yard;

use std::cell::OnceCell;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Mutex};

use stillwheel::authoring::{desk::Desk, document};
use stillwheel::diagnosis::inference::Inference;
use stillwheel::diagnosis::model::Model;

use draw::Chances;
use score::Row;
use work::{Plan, work};
use yard::{Visit, Yard};

/// The shipped tree on the demo aircraft.
fn shipped() -> Arc<Model> {
    let mut desk = Desk::default();
    let model = document::tree(&mut desk, "crept-while-parked", None);
    Arc::new(model.expect("the shipped tree"))
}

/// Draws and works jobs on so many threads; each job hangs on seed and number alone.
fn jobs(yard: &Yard, chances: &Chances, seed: u64, count: usize, threads: usize) -> Vec<Row> {
    let next = AtomicUsize::new(0);
    let rows: Mutex<Vec<(usize, Row)>> = Mutex::default();
    let some = || {
        let inference = Arc::new(Inference::new(Arc::clone(&yard.model)));
        let order = order(&yard.model);
        loop {
            let number = next.fetch_add(1, Ordering::Relaxed);
            if number >= count {
                return;
            }
            let row = one(yard, &inference, &order, chances, [seed, number as u64]);
            rows.lock().expect("no panic").push((number, row));
        }
    };
    std::thread::scope(|scope| {
        for _ in 0..threads {
            scope.spawn(some);
        }
    });
    let mut rows = rows.into_inner().expect("no panic");
    rows.sort_by_key(|(number, _)| *number);
    rows.into_iter().map(|(_, row)| row).collect()
}

fn one(
    yard: &Yard,
    inference: &Arc<Inference>,
    order: &[usize],
    chances: &Chances,
    key: [u64; 2],
) -> Row {
    let visit = Visit::draw(yard, chances, key);
    let answers = vec![OnceCell::new(); yard.model.checks.len()];
    Row {
        acts: visit.parked.acts.clone(),
        events: visit.parked.events.clone(),
        celsius: visit.parked.kelvin - 273.15,
        still: visit.still,
        moved: visit.found.moved.is_some(),
        console: work(inference, &visit, &answers, &Plan::Console),
        chart: work(inference, &visit, &answers, &Plan::Chart(order)),
    }
}

/// Jobs drawn from the tree as it is, worked.
pub fn worked(seed: u64, count: usize, threads: usize) -> Vec<Row> {
    let yard = Yard::new(shipped());
    let chances = Chances::of(&yard.model);
    jobs(&yard, &chances, seed, count, threads)
}

/// The report of a trial.
pub fn report(seed: u64, count: usize, threads: usize) -> String {
    let yard = Yard::new(shipped());
    let model = Arc::clone(&yard.model);
    let chances = Chances::of(&model);
    let as_it_is = jobs(&yard, &chances, seed, count, threads);
    let other = jobs(&yard, &chances.perturbed(seed), seed, count, threads);
    let mut text = format!(
        "# The diagnosis tried by simulation\n\nTree {} version {}, seed {seed}, {count} jobs of \
each kind.\nRepeat it with: cargo bench --bench bench -- trial {count} {seed}\n\n",
        model.id,
        model.version.as_deref().unwrap_or("none"),
    );
    text.push_str(include_str!("trial/how.md"));
    text.push_str(&print::part(
        &model,
        "Jobs drawn from the tree as it is",
        &as_it_is,
    ));
    let title = "Jobs drawn with every rate and chance times a factor of its own, 1/3 to 3";
    text.push_str(&print::part(&model, title, &other));
    text.push_str(&print::chart());
    text
}

/// One job of a trial, step by step.
pub fn single(seed: u64, number: u64) -> String {
    let yard = Yard::new(shipped());
    let inference = Arc::new(Inference::new(Arc::clone(&yard.model)));
    let chances = Chances::of(&yard.model);
    let row = one(
        &yard,
        &inference,
        &order(&yard.model),
        &chances,
        [seed, number],
    );
    print::job(&yard.model, &row)
}

/// The checks of the chart, by their places.
fn order(model: &Model) -> Vec<usize> {
    let check = |id| model.check(id).expect("a check of the tree");
    chart::order().map(check).collect()
}

/// Every core.
pub fn threads() -> usize {
    std::thread::available_parallelism().map_or(1, std::num::NonZero::get)
}
