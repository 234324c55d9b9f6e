//! Characters on a plane: pipes first, parts over them.

use crate::console::glyphs::Lines;

/// What a pipe carries.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stroke {
    /// Nothing.
    Empty,
    /// Pressure, volts or travel.
    Live,
    /// What the leading cause lets go.
    Drain,
}

/// One place of the plane.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
struct Spot {
    level: Option<Stroke>,
    upright: Option<Stroke>,
    letter: Option<char>,
}

/// The plane.
pub struct Canvas {
    columns: usize,
    spots: Vec<Spot>,
}

impl Canvas {
    /// An empty plane.
    pub fn new(columns: usize, rows: usize) -> Self {
        Self {
            columns,
            spots: vec![Spot::default(); columns * rows],
        }
    }

    fn spot(&mut self, x: usize, y: usize) -> Option<&mut Spot> {
        let inside = x < self.columns;
        let at = y * self.columns + x;
        inside.then(|| self.spots.get_mut(at)).flatten()
    }

    /// Draws a pipe between two cells: along the upper cell's row, then down the gutter beside the
    /// column of the right one.
    pub fn join(&mut self, one: (usize, usize), other: (usize, usize), stroke: Stroke) {
        let (from, to) = if one <= other {
            (one, other)
        } else {
            (other, one)
        };
        // The gutter stands before the label of the cell further right.
        let gutter = to.0;
        for x in from.0..=gutter {
            if let Some(spot) = self.spot(x, from.1) {
                spot.level = spot.level.max(Some(stroke));
            }
        }
        for y in from.1.min(to.1)..=from.1.max(to.1) {
            if let Some(spot) = self.spot(gutter, y) {
                spot.upright = spot.upright.max(Some(stroke));
            }
        }
    }

    /// Writes a text over what is there.
    pub fn write(&mut self, x: usize, y: usize, text: &str) {
        for (nth, letter) in text.chars().enumerate() {
            if let Some(spot) = self.spot(x + nth, y) {
                spot.letter = Some(letter);
            }
        }
    }

    /// The rows of a window with some place in its middle, as far as the plane reaches.
    pub fn window(
        &self,
        middle: (usize, usize),
        (columns, rows): (usize, usize),
        lines: Lines,
    ) -> Vec<String> {
        let all = self.spots.len() / self.columns.max(1);
        let from = |middle: usize, shown: usize, all: usize| {
            middle
                .saturating_sub(shown / 2)
                .min(all.saturating_sub(shown))
        };
        let left = from(middle.0, columns, self.columns);
        let top = from(middle.1, rows, all);
        let row = |y: usize| {
            let begin = y * self.columns;
            let spots = &self.spots[begin + left..begin + self.columns.min(left + columns)];
            let text: String = spots.iter().map(|spot| letter(*spot, lines)).collect();
            text.trim_end().to_owned()
        };
        (top..all.min(top + rows)).map(row).collect()
    }
}

/// The character of a place.
fn letter(spot: Spot, lines: Lines) -> char {
    if let Some(letter) = spot.letter {
        return letter;
    }
    let ascii = lines == Lines::Ascii;
    match (spot.level, spot.upright) {
        (None, None) => ' ',
        (Some(Stroke::Empty), None) => {
            if ascii {
                '-'
            } else {
                '\u{2500}'
            }
        }
        (Some(Stroke::Live), None) => {
            if ascii {
                '='
            } else {
                '\u{2550}'
            }
        }
        (Some(Stroke::Drain), None) => '~',
        (None, Some(Stroke::Empty)) => {
            if ascii {
                '|'
            } else {
                '\u{2502}'
            }
        }
        (None, Some(Stroke::Live)) => {
            if ascii {
                'H'
            } else {
                '\u{2551}'
            }
        }
        (None, Some(Stroke::Drain)) => ':',
        (Some(level), Some(upright)) => match level.max(upright) {
            Stroke::Empty => {
                if ascii {
                    '+'
                } else {
                    '\u{253c}'
                }
            }
            Stroke::Live => {
                if ascii {
                    '+'
                } else {
                    '\u{256c}'
                }
            }
            Stroke::Drain => '*',
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pipe_goes_along_and_then_down() {
        let mut canvas = Canvas::new(12, 3);
        canvas.join((0, 0), (8, 2), Stroke::Live);
        canvas.write(1, 0, "[A]");
        canvas.write(9, 2, "[B]");
        let rows = canvas.window((0, 0), (12, 3), Lines::Ascii);
        assert_eq!(rows, ["=[A]====+", "        H", "        H[B]"]);
        let near_b = canvas.window((11, 2), (5, 1), Lines::Ascii);
        assert_eq!(near_b, [" H[B]"]);
    }

    #[test]
    fn what_drains_is_seen_over_what_is_live() {
        let mut canvas = Canvas::new(6, 1);
        canvas.join((0, 0), (4, 0), Stroke::Drain);
        canvas.join((0, 0), (4, 0), Stroke::Live);
        assert_eq!(canvas.window((0, 0), (6, 1), Lines::Box), ["~~~~*"]);
    }
}
