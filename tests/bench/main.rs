//! Benches: figures are printed, none is asserted. `cargo bench` runs them.

#![allow(clippy::print_stdout, clippy::expect_used, clippy::cast_precision_loss)]

mod console;
mod loading;
mod measure;
mod plant;
mod ranking;
mod terminal;

fn main() {
    loading::run();
    ranking::run();
    plant::run();
    console::run();
    terminal::run();
}
