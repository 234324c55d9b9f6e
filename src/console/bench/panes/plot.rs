//! Pressures over time.

use crate::base::unit::BAR;
use crate::console::bench::state::State;
use crate::console::page::{Page, Role};
use crate::console::plot::{Line, Marked, Plot};
use crate::plant::course::{Point, Side};
use crate::plant::handle::Handle;

/// Rows of the plot where there is no end to them, as in plain mode.
const USUAL_ROWS: usize = 20;
/// Below so many hours times are given in minutes.
const SHORT: f64 = 1.5;

/// Writes the pane.
pub fn write(page: &mut Page, state: &State, rows: usize) {
    let rows = if rows == usize::MAX { USUAL_ROWS } else { rows };
    let drawn = plotted(state).draw((page.columns, rows), state.preferences.lines);
    page.drawn(drawn);
}

fn plotted(state: &State) -> Plot {
    let (side, twin) = state.play.sides();
    let hours = state.play.plant().hours();
    let (time_unit, scale) = if hours < SHORT {
        ("min", 60.0)
    } else {
        ("h", 1.0)
    };
    let line = |mark, role, points: Vec<(f64, f64)>| Line {
        mark,
        role,
        points,
        joined: true,
    };
    let of = |side: &Side, plant: &Handle, value: fn(&Point) -> f64| -> Vec<(f64, f64)> {
        let now = Point::of(plant);
        let all = side.trace.iter().chain([&now]);
        all.map(|point| (point.hours * scale, value(point)))
            .collect()
    };
    let plant = state.play.plant();
    let mut lines = Vec::new();
    let mut heading = "g gas side  b lowest brake  r shut return".to_owned();
    if state.play.differs() {
        heading.push_str("  h healthy gas side");
        let healthy = of(twin, state.play.twin(), |point| point.gas);
        lines.push(line('h', Role::Predicted, healthy));
    }
    lines.push(line(
        'r',
        Role::Text,
        of(side, plant, |point| point.shut_return),
    ));
    lines.push(line('b', Role::Text, of(side, plant, |point| point.least)));
    lines.push(line('g', Role::Strong, of(side, plant, |point| point.gas)));
    let marked = plant.holds_from().map(|pressure| Marked {
        value: pressure / BAR,
        label: format!("moves below {:.1}", pressure / BAR),
    });
    Plot {
        heading,
        unit: "bar".to_owned(),
        time_unit: time_unit.to_owned(),
        times: Some((0.0, (hours * scale).max(1.0))),
        values: None,
        bands: Vec::new(),
        lines,
        marked,
    }
}
