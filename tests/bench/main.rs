//! Benches: figures are printed, none is asserted. `cargo bench` runs all but the trial, which takes
//! minutes.

#![allow(
    clippy::print_stdout,
    clippy::expect_used,
    clippy::panic,
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss
)]

mod authoring;
mod console;
mod loading;
mod measure;
mod plan;
mod plant;
mod ranking;
mod terminal;
// The suite looks at what is not printed here.
#[allow(dead_code)]
mod trial;

/// `cargo bench --bench bench -- trial JOBS SEED` runs the trial alone, `trial-job NUMBER
/// SEED` prints one of its jobs step by step, `readings` reads everything under every fault,
/// `console` draws.
fn main() {
    let words: Vec<String> = std::env::args()
        .skip(1)
        .filter(|word| word != "--bench")
        .collect();
    let number = |at: usize, usual: u64| {
        let typed = words.get(at).and_then(|word| word.parse().ok());
        typed.unwrap_or(usual)
    };
    if words.first().is_some_and(|word| word == "trial") {
        let text = trial::report(number(2, 1), number(1, 2000) as usize, trial::threads());
        print!("{text}");
        return;
    }
    if words.first().is_some_and(|word| word == "trial-job") {
        print!("{}", trial::single(number(2, 1), number(1, 0)));
        return;
    }
    if words.first().is_some_and(|word| word == "console") {
        console::run();
        return;
    }
    if words.first().is_some_and(|word| word == "readings") {
        plant::readings();
        return;
    }
    loading::run();
    authoring::run();
    ranking::run();
    plan::run();
    plant::run();
    console::run();
    terminal::run();
}
