//! Timing by repetition, and the peak of memory.

use std::time::Instant;

/// Runs something until half a second is over and prints the median time of one run.
pub fn time<T>(name: &str, mut run: impl FnMut() -> T) {
    let mut times = Vec::new();
    let start = Instant::now();
    while times.len() < 3 || (start.elapsed().as_secs_f64() < 0.5 && times.len() < 10_000) {
        let begin = Instant::now();
        std::hint::black_box(run());
        times.push(begin.elapsed().as_secs_f64());
    }
    times.sort_by(f64::total_cmp);
    let median = times[times.len() / 2];
    println!(
        "{name:<58} {:>10.3} ms  ({} runs)",
        median * 1e3,
        times.len()
    );
}

/// Peak resident memory of this process in MB, where the system tells it.
pub fn peak_memory() -> Option<f64> {
    peak_memory_of("/proc/self/status")
}

/// The same of the process whose status file is named.
pub fn peak_memory_of(status: &str) -> Option<f64> {
    let status = std::fs::read_to_string(status).ok()?;
    let line = status.lines().find(|line| line.starts_with("VmHWM"))?;
    let kilobytes: f64 = line.split_whitespace().nth(1)?.parse().ok()?;
    Some(kilobytes / 1024.0)
}
