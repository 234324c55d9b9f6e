//! A parking as JSON, for other programs. The keys are a contract.

use serde_json::{Map, Value, json};

use crate::plant::band::Band;
use crate::plant::hold::{Hold, Sample};

/// The JSON of a parking; `null` hours mean that it does not happen.
pub fn hold_json(aircraft: &str, hold: &Hold, band: &Band) -> Value {
    let samples: Vec<Value> = hold.samples.iter().map(sample).collect();
    json!({
        "aircraft": aircraft,
        "hours_to_creep": rounded(hold.hours_to_creep, 4),
        "hours_to_bottom": rounded(hold.hours_to_bottom, 4),
        "band": {
            "tight": rounded(band.tight, 4),
            "mid_life": rounded(band.mid_life, 4),
            "worst": rounded(band.worst, 4),
        },
        "samples": samples,
    })
}

fn sample(sample: &Sample) -> Value {
    let bar = |pascals: Option<f64>| rounded(pascals.map(|p| p / 1e5), 3);
    let brakes: Map<String, Value> = sample
        .brakes
        .iter()
        .map(|(id, pressure)| (wheel(id), bar(Some(*pressure))))
        .collect();
    json!({
        "hours": rounded(Some(sample.hours), 4),
        "gas_bar": bar(sample.gas),
        "fluid_bar": bar(sample.fluid),
        "brake_bar": brakes,
        "return_bar": bar(sample.shut_return),
    })
}

/// `brake-l1` as people say it, `L1`; any other name as it is.
pub fn wheel(id: &str) -> String {
    id.strip_prefix("brake-")
        .map_or_else(|| id.to_owned(), str::to_uppercase)
}

/// Rounded to some decimals, so that the last bits of a search do not show.
pub fn rounded(value: Option<f64>, decimals: i32) -> Value {
    let scale = 10.0_f64.powi(decimals);
    // Adding zero turns a negative zero into a plain one.
    value.map_or(Value::Null, |v| json!((v * scale).round() / scale + 0.0))
}
