//! A plot over time: lines, bands from low to high, and one value marked from side to side.
//!
//! Every curve carries a letter of its own, so that it is known without colour. It takes any
//! number of columns and rows; where there is no room for axes it says so in one row.

mod plane;
mod scale;

use super::glyphs::Lines;
use super::page::{Piece, Role};
use crate::base::text::{pad, truncate, width};
use plane::Plane;
use scale::{Scale, label, ticks};

/// Fewest columns and rows inside the axes.
const LEAST: (usize, usize) = (6, 2);
/// Rows around the inside: heading, time axis, its labels.
const AROUND: usize = 3;
/// Rows from one label of a value to the next, at least; and the same in columns between labels.
const APART: (usize, usize) = (2, 2);

/// One line.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Its letter.
    pub mark: char,
    /// Its role: what was read stands out from what is predicted.
    pub role: Role,
    /// Time and value, in the order of time.
    pub points: Vec<(f64, f64)>,
    /// Whether its points are joined; else each is its letter.
    pub joined: bool,
}

/// Everything between two lines.
#[derive(Debug, Clone, PartialEq)]
pub struct Band {
    /// Its letter.
    pub mark: char,
    /// Time, lowest and highest value, in the order of time.
    pub points: Vec<(f64, f64, f64)>,
    /// Whether its inside is filled; else only its two edges are drawn.
    pub filled: bool,
}

/// One value, marked from side to side.
#[derive(Debug, Clone, PartialEq)]
pub struct Marked {
    /// The value.
    pub value: f64,
    /// What it is.
    pub label: String,
}

/// What is plotted.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Plot {
    /// What stands above it, beside the unit.
    pub heading: String,
    /// Unit of the values.
    pub unit: String,
    /// Unit of the times.
    pub time_unit: String,
    /// From which time to which; `None` for all that is drawn.
    pub times: Option<(f64, f64)>,
    /// From which value to which; `None` for all that is drawn, the marked value included.
    pub values: Option<(f64, f64)>,
    /// Bands, drawn first.
    pub bands: Vec<Band>,
    /// Lines, drawn over them, the last on top.
    pub lines: Vec<Line>,
    /// The marked value; at the edge with an arrow where it lies beyond.
    pub marked: Option<Marked>,
}

impl Plot {
    /// The rows of the plot, each at most `columns` wide and at most `rows` of them, in pieces.
    pub fn draw(&self, (columns, rows): (usize, usize), lines: Lines) -> Vec<Vec<Piece>> {
        let said = |words: &str| vec![vec![(truncate(words, columns), Role::Text)]];
        if columns == 0 || rows == 0 {
            return Vec::new();
        }
        let (Some(times), Some(values)) = (self.time_range(), self.value_range()) else {
            return said("Nothing to plot.");
        };
        let high = rows.saturating_sub(AROUND);
        let values = Scale::new(values);
        let at_rows = ticks(values.ends(), high.div_ceil(APART.0).max(2));
        let labels: Vec<String> = at_rows.iter().map(|tick| label(*tick, &at_rows)).collect();
        let gutter = labels.iter().map(|text| width(text)).max().unwrap_or(0);
        let gutter = gutter.max(width(&self.unit));
        let wide = columns.saturating_sub(gutter + 1);
        if wide < LEAST.0 || high < LEAST.1 {
            return said("No room for a plot.");
        }
        let mut plane = Plane::new((wide, high), lines, Scale::new(times), values);
        for band in &self.bands {
            plane.band(band);
        }
        if let Some(marked) = &self.marked {
            plane.marked(marked);
        }
        for line in &self.lines {
            plane.line(line);
        }
        if let Some(marked) = &self.marked {
            plane.label_of(marked);
        }
        self.framed(&plane, gutter, &at_rows, lines, columns)
    }

    /// The plane between its axes, with a heading above and times below.
    fn framed(
        &self,
        plane: &Plane,
        gutter: usize,
        at_rows: &[f64],
        lines: Lines,
        columns: usize,
    ) -> Vec<Vec<Piece>> {
        let glyphs = lines.glyphs();
        let (wide, high) = plane.size();
        let heading = format!("{:>gutter$} {}", self.unit, self.heading);
        let mut drawn = vec![vec![(truncate(&heading, columns), Role::Strong)]];
        let mut labels = vec![String::new(); high];
        for tick in at_rows {
            if let Some(row) = plane.row_of(*tick) {
                labels[row] = label(*tick, at_rows);
            }
        }
        for (row, text) in labels.iter().enumerate() {
            let axis = if text.is_empty() {
                glyphs.wall
            } else {
                glyphs.value_tick
            };
            let mut pieces = vec![(format!("{text:>gutter$}{axis}"), Role::Text)];
            pieces.extend(plane.pieces(row));
            drawn.push(pieces);
        }
        let room = wide.saturating_sub(width(&self.time_unit) + 1);
        let mut axis = vec![glyphs.rule; wide];
        let mut below = String::new();
        let at_columns = ticks(plane.times(), room.div_ceil(4 + APART.1).max(2));
        for tick in &at_columns {
            let text = label(*tick, &at_columns);
            let Some(column) = plane.column_of(*tick) else {
                continue;
            };
            let gap = if below.is_empty() { 0 } else { APART.1 };
            if column < width(&below) + gap || column + width(&text) > room {
                continue;
            }
            axis[column] = glyphs.time_tick;
            below = format!("{}{text}", pad(&below, column));
        }
        let blank = " ".repeat(gutter);
        let axis: String = axis.into_iter().collect();
        drawn.push(vec![(
            format!("{blank}{}{axis}", glyphs.corner),
            Role::Text,
        )]);
        let below = format!("{blank} {} {}", pad(&below, room), self.time_unit);
        drawn.push(vec![(truncate(&below, columns), Role::Text)]);
        drawn
    }

    fn time_range(&self) -> Option<(f64, f64)> {
        let lines = self.lines.iter().flat_map(|line| &line.points);
        let bands = self.bands.iter().flat_map(|band| &band.points);
        let all = lines.map(|point| point.0).chain(bands.map(|point| point.0));
        self.times.or_else(|| range(all))
    }

    /// The least and the greatest value that is drawn, unless they are given.
    pub fn value_range(&self) -> Option<(f64, f64)> {
        let lines = self.lines.iter().flat_map(|line| &line.points);
        let bands = self.bands.iter().flat_map(|band| &band.points);
        let both = bands.flat_map(|(_, low, high)| [*low, *high]);
        let marked = self.marked.iter().map(|marked| marked.value);
        let all = lines.map(|point| point.1).chain(both).chain(marked);
        self.values.or_else(|| range(all))
    }
}

/// The least and the greatest of the numbers that are numbers.
fn range(numbers: impl Iterator<Item = f64>) -> Option<(f64, f64)> {
    let known = numbers.filter(|number| number.is_finite());
    known.fold(None, |found: Option<(f64, f64)>, number| {
        let (low, high) = found.unwrap_or((number, number));
        Some((low.min(number), high.max(number)))
    })
}

#[cfg(test)]
mod tests;
