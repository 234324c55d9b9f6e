//! Benches: figures are printed, none is asserted. `cargo bench` runs them.

mod loading;
mod measure;
mod ranking;

fn main() {
    loading::run();
    ranking::run();
}
