//! A parking in words: how long it holds, what so many hours mean, pressure over the hours.

use crate::base::text::wrap;
use crate::plant::band::{Band, HORIZON, Verdict};
use crate::plant::hold::{Hold, Sample};
use crate::report::parking_text::{Described, NOT_APPROVED, pressure};

/// Columns of the text.
const COLUMNS: usize = 80;

/// The text of a parking; `asked` are the hours somebody wants explained.
pub fn hold_text(about: &Described, hold: &Hold, band: &Band, asked: Option<f64>) -> String {
    let mut text = about.heading();
    let mut say = |line: &str| {
        for line in wrap(line, COLUMNS) {
            text.push_str(&line);
            text.push('\n');
        }
    };
    say(&first_line(hold, about));
    say(&format!(
        "Tight {}, mid-life {}, worst in limits {}.",
        hours(band.tight),
        hours(band.mid_life),
        hours(band.worst)
    ));
    if let Some(bottom) = hold.hours_to_bottom {
        say(&format!(
            "The store is empty after {bottom:.1} h. From then on the gas side shows its charge and stands still: steady means empty."
        ));
    }
    if let Some(asked) = asked {
        text.push('\n');
        for line in wrap(&verdict(about, band, asked), COLUMNS) {
            text.push_str(&line);
            text.push('\n');
        }
    }
    text.push('\n');
    text.push_str(&table(&hold.samples));
    text.push('\n');
    for line in wrap(NOT_APPROVED, COLUMNS) {
        text.push_str(&line);
        text.push('\n');
    }
    text
}

fn first_line(hold: &Hold, about: &Described) -> String {
    match hold.hours_to_creep {
        Some(0.0) => format!("Does not hold on {} at all.", about.slope),
        Some(creep) if creep < 1.0 => {
            format!(
                "Holds {:.0} min on {}, then it can move.",
                creep * 60.0,
                about.slope
            )
        }
        Some(creep) => format!("Holds {creep:.1} h on {}, then it can move.", about.slope),
        None => format!(
            "On {} nothing pushes hard enough to move it within {HORIZON:.0} h; somebody or something has to nudge it.",
            about.slope
        ),
    }
}

fn hours(value: Option<f64>) -> String {
    match value {
        Some(value) if value < 1.0 => format!("{:.0} min", value * 60.0),
        Some(value) => format!("{value:.1} h"),
        None => format!("over {HORIZON:.0} h"),
    }
}

/// `14 h at 18 C on 1 %: explained without a fault`, and why.
fn verdict(about: &Described, band: &Band, asked: f64) -> String {
    let head = format!(
        "{} h at {} on {}:",
        trimmed(asked),
        about.temperature,
        about.slope
    );
    let mid = hours(band.mid_life);
    let worst = hours(band.worst);
    if !about.faults.is_empty() {
        let reached = band.mid_life.is_some_and(|time| time <= asked);
        let says = if reached {
            "explained by"
        } else {
            "not explained by"
        };
        return format!("{head} {says} what was put in; it holds {mid}.");
    }
    match band.verdict(asked) {
        Verdict::Explained => format!(
            "{head} explained without a fault. A mid-life brake in its limits has let go by then ({mid}). Tyres that stood can hold it longer."
        ),
        Verdict::OnlyWorn => format!(
            "{head} explained without a fault only if its leaks are near the worst in limits ({worst}); a mid-life brake still holds ({mid}). A leak-down decides."
        ),
        Verdict::NotExplained => format!(
            "{head} not explained without a fault. Even the worst brake in limits still holds ({worst})."
        ),
        Verdict::NothingPushes => {
            format!("{head} pressure does not decide here. Ask what nudged it.")
        }
    }
}

/// A number without idle zeros.
pub(super) fn trimmed(number: f64) -> String {
    format!("{number:.2}")
        .trim_end_matches('0')
        .trim_end_matches('.')
        .to_owned()
}

/// Pressure over the hours; long parkings are thinned out to some twenty lines.
fn table(samples: &[Sample]) -> String {
    let mut text =
        String::from("  hours  gas side               brakes, lowest         shut return\n");
    let every = samples.len().div_ceil(25).max(1);
    for (at, sample) in samples.iter().enumerate() {
        if at % every != 0 && at + 1 != samples.len() {
            continue;
        }
        let brakes = sample.brakes.iter().map(|(_, pressure)| *pressure);
        let lowest = brakes.fold(f64::INFINITY, f64::min);
        let row = format!(
            "  {:>5.1}  {:<22} {:<22} {}",
            sample.hours,
            sample.gas.map_or(String::new(), pressure),
            pressure(lowest),
            sample.shut_return.map_or(String::new(), pressure)
        );
        text.push_str(row.trim_end());
        text.push('\n');
    }
    text
}
