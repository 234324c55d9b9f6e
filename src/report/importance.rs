//! Importance measures as text and JSON.

use serde_json::{Value, json};

use super::cut_sets::certificate;
use crate::base::text::{pad, width};
use crate::diagnosis::certificate::Certificate;
use crate::diagnosis::model::Model;
use crate::tree::importance::Importance;
use crate::tree::layers::OverBudget;

/// Columns of a name at least and at most.
const NAME: (usize, usize) = (12, 40);

/// The measures for people.
pub fn importance_text(model: &Model, rows: &[Importance], whole: f64) -> String {
    let id = |row: &Importance| model.causes[row.event].id.as_str();
    let widest = rows.iter().map(|row| width(id(row))).max().unwrap_or(0);
    let columns = widest.clamp(NAME.0, NAME.1);
    let top = model.tree.name(model.tree.top);
    let mut text = format!(
        "{}\nEvents below `{top}`, whose chance per parking is {whole:.4e}:\n\n{}  {:>10} {:>11} {:>8} {:>9} {:>8}\n",
        model.title,
        pad("event", columns),
        "Birnbaum",
        "criticality",
        "FV",
        "RAW",
        "RRW"
    );
    for row in rows {
        let rrw = row.rrw.map_or("inf".to_owned(), |rrw| format!("{rrw:.4}"));
        text.push_str(&format!(
            "{}  {:>10} {:>11} {:>8} {:>9} {rrw:>8}\n",
            pad(id(row), columns),
            format!("{:.3e}", row.birnbaum),
            format!("{:.3e}", row.criticality),
            format!("{:.4}", row.fussell_vesely),
            worth(row.raw),
        ));
    }
    text.push_str(
        "\nBirnbaum: chance of the top with the event less that without it.\n\
         criticality: that times the chance of the event, as a part of the top's.\n\
         FV: Fussell-Vesely, a cut set with the event holds, as a part of the top's.\n\
         RAW, RRW: risk achievement and reduction worth, as ratios.\n",
    );
    text
}

/// A ratio in at most nine columns.
fn worth(ratio: f64) -> String {
    if ratio < 10_000.0 {
        format!("{ratio:.3}")
    } else {
        format!("{ratio:.2e}")
    }
}

/// The same for other programs.
pub fn importance_json(model: &Model, rows: &[Importance]) -> Value {
    let row = |row: &Importance| {
        json!({
            "id": model.causes[row.event].id,
            "birnbaum": row.birnbaum,
            "criticality": row.criticality,
            "fussell_vesely": row.fussell_vesely,
            "fussell_vesely_sum": row.fussell_vesely_sum,
            "raw": row.raw,
            "rrw": row.rrw,
        })
    };
    json!({
        "events": rows.iter().map(row).collect::<Vec<_>>(),
        "certificate": certificate(&Certificate::Exact),
    })
}

/// What programs get where the tree is too large.
pub fn refused_json(error: &OverBudget) -> Value {
    json!({"events": [], "certificate": certificate(&Certificate::from(*error))})
}
