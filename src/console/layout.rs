//! Which panels share a window of a size, and where they stand.

use ratatui::layout::{Constraint, Layout, Rect};

/// Smallest window that shows a question.
const SMALLEST: (u16, u16) = (40, 12);
/// Smallest window with two columns, and with three.
const TWO: (u16, u16) = (120, 30);
const THREE: (u16, u16) = (200, 50);
/// Below this many rows there is no line under the top line: each row is worth more.
const RULED: u16 = 16;
/// Text is never set wider than this.
const WIDEST: u16 = 80;

/// What a window has room for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Room {
    /// One line that asks for a larger window.
    Nothing,
    /// One screen at a time.
    One,
    /// The screen, and two panels beside it.
    Two,
    /// The screen, reasons, and three panels beside them.
    Three,
}

/// What a window has room for; `focus` asks for the screen alone at any size.
pub fn room(columns: u16, rows: u16, focus: bool) -> Room {
    let fits = |(c, r): (u16, u16)| columns >= c && rows >= r;
    match () {
        () if !fits(SMALLEST) => Room::Nothing,
        () if focus => Room::One,
        () if fits(THREE) => Room::Three,
        () if fits(TWO) => Room::Two,
        () => Room::One,
    }
}

/// The parts of a frame.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Frame {
    /// The top line.
    pub top: Rect,
    /// The line under it.
    pub rule: Rect,
    /// The screen.
    pub screen: Rect,
    /// Walls between columns.
    pub walls: Vec<Rect>,
    /// Columns beside the screen.
    pub beside: Vec<Rect>,
    /// What just happened.
    pub happened: Rect,
    /// The keys.
    pub keys: Rect,
}

/// Where everything stands.
pub fn frame(area: Rect, room: Room) -> Frame {
    let ruled = u16::from(area.height >= RULED);
    let [top, rule, body, happened, keys] = Layout::vertical([
        Constraint::Length(1),
        Constraint::Length(ruled),
        Constraint::Min(0),
        Constraint::Length(1),
        Constraint::Length(1),
    ])
    .areas(area);
    let count: u16 = match room {
        Room::Nothing | Room::One => 1,
        Room::Two => 2,
        Room::Three => 3,
    };
    // A column of its own for each wall, and a blank on its right.
    let each = (body.width.saturating_sub(2 * (count - 1)) / count).min(WIDEST);
    let column = |n: u16| Rect {
        x: body.x + n * (each + 2),
        width: each,
        ..body
    };
    let wall = |n: u16| Rect {
        x: column(n).x - 2,
        width: 1,
        ..body
    };
    Frame {
        top,
        rule,
        screen: column(0),
        walls: (1..count).map(wall).collect(),
        beside: (1..count).map(column).collect(),
        happened,
        keys,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_stand_beside_each_other_inside_the_window() {
        for (columns, rows) in [(40, 12), (80, 24), (120, 40), (200, 60), (300, 90)] {
            let area = Rect::new(0, 0, columns, rows);
            let frame = frame(area, room(columns, rows, false));
            let mut end = frame.screen.right();
            assert!(frame.screen.width <= WIDEST);
            for (wall, column) in frame.walls.iter().zip(&frame.beside) {
                assert!(wall.x >= end && wall.x < column.x);
                end = column.right();
            }
            assert!(end <= columns);
        }
    }

    #[test]
    fn the_largest_that_fits_is_taken() {
        assert_eq!(room(39, 60, false), Room::Nothing);
        assert_eq!(room(200, 29, false), Room::One);
        assert_eq!(room(199, 60, false), Room::Two);
        assert_eq!(room(200, 60, false), Room::Three);
        assert_eq!(room(200, 60, true), Room::One);
    }
}
