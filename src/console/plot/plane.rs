//! The inside of a plot, character by character, each of one dot or of eight.

#![expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_possible_wrap,
    clippy::cast_sign_loss,
    reason = "columns, rows and dots of a window are small, and every place is clamped into them"
)]

use super::scale::Scale;
use super::{Band, Line, Marked};
use crate::base::text::{truncate, width};
use crate::console::glyphs::Lines;
use crate::console::page::{Piece, Role};

/// Columns from one letter of a curve that is drawn in dots to the next.
const LETTER_EVERY: usize = 12;

/// One character.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Spot {
    letter: char,
    dots: u8,
    role: Role,
}

/// The plane.
pub struct Plane {
    columns: usize,
    rows: usize,
    lines: Lines,
    times: Scale,
    values: Scale,
    spots: Vec<Spot>,
    /// How many curves were drawn: their letters stand at different columns.
    curves: usize,
}

impl Plane {
    /// An empty plane.
    pub fn new((columns, rows): (usize, usize), lines: Lines, times: Scale, values: Scale) -> Self {
        let empty = Spot {
            letter: ' ',
            dots: 0,
            role: Role::Text,
        };
        Self {
            columns,
            rows,
            lines,
            times,
            values,
            spots: vec![empty; columns * rows],
            curves: 0,
        }
    }

    /// Columns and rows.
    pub fn size(&self) -> (usize, usize) {
        (self.columns, self.rows)
    }

    /// From which time to which.
    pub fn times(&self) -> (f64, f64) {
        self.times.ends()
    }

    /// The column of a time, where it is inside.
    pub fn column_of(&self, time: f64) -> Option<usize> {
        place(self.times.share(time), self.columns)
    }

    /// The row of a value, where it is inside.
    pub fn row_of(&self, value: f64) -> Option<usize> {
        place(1.0 - self.values.share(value), self.rows)
    }

    /// The dot of a value from above, also beyond the ends.
    fn dot_of(&self, value: f64) -> i64 {
        let dots = self.rows * self.lines.dots().1;
        let at = (1.0 - self.values.share(value)) * (dots as f64 - 1.0);
        at.round().clamp(-1.0, dots as f64) as i64
    }

    fn put(&mut self, column: usize, row: usize, letter: char, role: Role) {
        if column < self.columns && row < self.rows {
            self.spots[row * self.columns + column] = Spot {
                letter,
                dots: 0,
                role,
            };
        }
    }

    /// Sets one dot of a curve.
    fn dot(&mut self, x: usize, y: i64, mark: char, role: Role) {
        let (across, down) = self.lines.dots();
        let Ok(y) = usize::try_from(y) else { return };
        let (column, row) = (x / across, y / down);
        if column >= self.columns || row >= self.rows {
            return;
        }
        let bits = bit(x % across, y % down);
        let spot = &mut self.spots[row * self.columns + column];
        spot.dots |= bits;
        spot.letter = self.lines.dotted(spot.dots, mark);
        spot.role = role;
    }

    /// The inside of a band, then its edges.
    pub fn band(&mut self, band: &Band) {
        let low: Vec<(f64, f64)> = band.points.iter().map(|p| (p.0, p.1)).collect();
        let high: Vec<(f64, f64)> = band.points.iter().map(|p| (p.0, p.2)).collect();
        if band.filled {
            return self.fill(&low, &high);
        }
        for edge in [&low, &high] {
            self.curve(edge, band.mark, Role::Predicted);
        }
        self.curves += 1;
    }

    /// Everything between two curves that is inside.
    fn fill(&mut self, low: &[(f64, f64)], high: &[(f64, f64)]) {
        let fill = self.lines.glyphs().fill;
        let rows = self.rows as f64;
        for column in 0..self.columns {
            let time = self.times.value(share_of(column, self.columns));
            let (Some(low), Some(high)) = (between(low, time), between(high, time)) else {
                continue;
            };
            let at = |value: f64| (1.0 - self.values.share(value)) * (rows - 1.0);
            let (top, end) = (at(high.max(low)).round(), at(low.min(high)).round());
            for row in 0..self.rows {
                if (top..=end).contains(&(row as f64)) {
                    self.put(column, row, fill, Role::Predicted);
                }
            }
        }
    }

    /// A line, or its points.
    pub fn line(&mut self, line: &Line) {
        if line.joined {
            self.curve(&line.points, line.mark, line.role);
            self.curves += 1;
        }
        // A joined line of one point is that point.
        if line.joined && line.points.len() > 1 {
            return;
        }
        for (time, value) in &line.points {
            if let (Some(column), Some(row)) = (self.column_of(*time), self.row_of(*value)) {
                self.put(column, row, line.mark, line.role);
            }
        }
    }

    /// The row of a marked value, and what its label says of one that lies beyond.
    fn row_of_marked(&self, value: f64) -> (usize, &'static str) {
        match self.row_of(value) {
            Some(row) => (row, ""),
            None if self.values.share(value) > 1.0 => (0, " ^ above"),
            None => (self.rows.saturating_sub(1), " v below"),
        }
    }

    /// The marked value from side to side, in every second column and only where nothing else
    /// stands.
    pub fn marked(&mut self, marked: &Marked) {
        let (row, arrow) = self.row_of_marked(marked.value);
        if !arrow.is_empty() {
            return;
        }
        let dash = self.lines.glyphs().dash;
        for column in (0..self.columns).step_by(2) {
            if self.spots[row * self.columns + column].letter == ' ' {
                self.put(column, row, dash, Role::Caution);
            }
        }
    }

    /// The label of the marked value, at the right end and over everything else.
    pub fn label_of(&mut self, marked: &Marked) {
        let (row, arrow) = self.row_of_marked(marked.value);
        let text = truncate(&format!(" {}{arrow}", marked.label), self.columns);
        let from = self.columns.saturating_sub(width(&text));
        for (nth, letter) in text.chars().enumerate() {
            self.put(from + nth, row, letter, Role::Caution);
        }
    }

    /// A curve through points in dots, upright where it jumps, with its letter now and then.
    fn curve(&mut self, points: &[(f64, f64)], mark: char, role: Role) {
        let (across, down) = self.lines.dots();
        let wide = self.columns * across;
        let mut before: Option<i64> = None;
        let mut letters = Vec::new();
        for x in 0..wide {
            let time = self.times.value(share_of(x, wide));
            let Some(value) = between(points, time) else {
                before = None;
                continue;
            };
            let y = self.dot_of(value);
            let from = match before {
                Some(before) if before < y => before + 1,
                Some(before) if before > y => before - 1,
                _ => y,
            };
            for at in from.min(y)..=from.max(y) {
                self.dot(x, at, mark, role);
            }
            before = Some(y);
            let column = x / across;
            if across > 1 && column % LETTER_EVERY == (3 * self.curves + 2) % LETTER_EVERY {
                letters.push((column, y / down as i64));
            }
        }
        for (column, row) in letters {
            if let Ok(row) = usize::try_from(row) {
                self.put(column, row, mark, role);
            }
        }
    }

    /// A row, in pieces of one role each.
    pub fn pieces(&self, row: usize) -> Vec<Piece> {
        let mut pieces: Vec<Piece> = Vec::new();
        let begin = row * self.columns;
        for spot in &self.spots[begin..begin + self.columns] {
            match pieces.last_mut() {
                Some((text, role)) if *role == spot.role => text.push(spot.letter),
                _ => pieces.push((spot.letter.to_string(), spot.role)),
            }
        }
        pieces
    }
}

/// The bit of a dot in a Braille character: Unicode counts the first three rows of the left side,
/// those of the right side, then the last row.
fn bit(x: usize, y: usize) -> u8 {
    match (x, y) {
        (0, 0..3) => 1 << y,
        (_, 0..3) => 8 << y,
        (0, _) => 0x40,
        _ => 0x80,
    }
}

/// The place of a share among some, where it is inside.
fn place(share: f64, places: usize) -> Option<usize> {
    let at = share * (places as f64 - 1.0);
    let inside = at >= -0.5 && at < places as f64 - 0.5;
    inside.then(|| at.round().max(0.0) as usize)
}

/// The share at which a place stands.
fn share_of(place: usize, places: usize) -> f64 {
    place as f64 / (places as f64 - 1.0).max(1.0)
}

/// The value of a curve at a time, from point to point; `None` before the first and after the last.
fn between(points: &[(f64, f64)], time: f64) -> Option<f64> {
    let slack = 1e-9 * time.abs().max(1.0);
    let after = points.partition_point(|point| point.0 < time - slack);
    let (later, value) = *points.get(after)?;
    if (later - time).abs() <= slack {
        return Some(value).filter(|value| value.is_finite());
    }
    let (earlier, from) = *points.get(after.checked_sub(1)?)?;
    let found = from + (value - from) * (time - earlier) / (later - earlier);
    Some(found).filter(|found| found.is_finite())
}
