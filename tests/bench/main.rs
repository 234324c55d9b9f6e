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

mod console;
mod loading;
mod measure;
mod plant;
mod ranking;
mod terminal;
mod trial;

/// `cargo bench --bench bench -- trial JOBS SEED` runs the trial alone.
fn main() {
    let words: Vec<String> = std::env::args()
        .skip(1)
        .filter(|word| word != "--bench")
        .collect();
    if words.first().is_some_and(|word| word == "trial") {
        let number = |at: usize, usual: u64| {
            let typed = words.get(at).and_then(|word| word.parse().ok());
            typed.unwrap_or(usual)
        };
        let (text, _) = trial::trial(number(2, 1), number(1, 2000) as usize, trial::threads());
        print!("{text}");
        return;
    }
    loading::run();
    ranking::run();
    plant::run();
    console::run();
    terminal::run();
}
