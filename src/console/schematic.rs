//! The schematic: the aircraft drawn from its grid places, as the job stands.

mod canvas;
mod codes;
mod scene;

pub use scene::{Drawn, Scene, Sheet};

use super::glyphs::Lines;
use crate::diagnosis::ranking::of_100;
use crate::diagnosis::standing_of_parts::Standing;
use canvas::{Canvas, Stroke};

/// How close the picture is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Zoom {
    /// Mark, short name and share.
    #[default]
    Near,
    /// Mark and short name.
    Far,
}

impl Zoom {
    /// The other one.
    #[must_use]
    pub fn next(self) -> Self {
        match self {
            Self::Near => Self::Far,
            Self::Far => Self::Near,
        }
    }

    /// Columns and rows of a cell of the grid.
    fn cell(self) -> (usize, usize) {
        match self {
            Self::Near => (11, 2),
            Self::Far => (6, 1),
        }
    }
}

/// The one character that says how a part stands.
pub fn mark(standing: Standing) -> char {
    match standing {
        Standing::Bad => '#',
        Standing::Next => '>',
        Standing::Suspect => '?',
        Standing::Good => '=',
        Standing::Cannot => '-',
        Standing::NotChecked => ' ',
    }
}

/// The word for it.
pub fn word(standing: Standing) -> &'static str {
    match standing {
        Standing::Bad => "proof stands",
        Standing::Next => "next check",
        Standing::Suspect => "suspect",
        Standing::Good => "found good",
        Standing::Cannot => "cannot be checked",
        Standing::NotChecked => "not checked",
    }
}

/// Rows of the picture in a window of some columns and rows, with the part at the middle of it
/// where one is wanted in sight.
pub fn draw(
    scene: &Scene,
    zoom: Zoom,
    lines: Lines,
    (columns, rows): (usize, usize),
    in_sight: Option<usize>,
) -> Vec<String> {
    let (wide, high) = zoom.cell();
    let mut canvas = Canvas::new(scene.columns * wide + 1, scene.rows * high);
    for pipe in &scene.pipes {
        let stroke = match (pipe.drains, pipe.live) {
            (true, _) => Stroke::Drain,
            (false, true) => Stroke::Live,
            (false, false) => Stroke::Empty,
        };
        let at = |(x, y): (u32, u32)| (x as usize * wide, y as usize * high);
        canvas.join(at(pipe.from), at(pipe.to), stroke);
    }
    for part in &scene.parts {
        let (x, y) = (part.at.0 as usize * wide, part.at.1 as usize * high);
        let text = label(part, zoom, in_sight == Some(part.place));
        canvas.write(x + 1, y, &text);
    }
    let place = in_sight.and_then(|place| scene.parts.iter().find(|part| part.place == place));
    let middle = place.map_or((0, 0), |part| {
        let (x, y) = part.at;
        (x as usize * wide + wide / 2, y as usize * high)
    });
    canvas.window(middle, (columns, rows), lines)
}

fn label(part: &scene::Drawn, zoom: Zoom, marked: bool) -> String {
    let mark = mark(part.standing);
    let (open, close) = if marked { ('<', '>') } else { ('[', ']') };
    match zoom {
        Zoom::Far => format!("{}{mark}{}", if marked { "<" } else { "" }, part.code),
        Zoom::Near => {
            let share = part.likeliest.map_or(0, |(_, share)| of_100(share));
            let share = if share >= 1 {
                share.to_string()
            } else {
                String::new()
            };
            format!(
                "{open}{mark}{close}{}{}{share}",
                part.code,
                if share.is_empty() { "" } else { " " }
            )
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_standing_has_a_mark_of_its_own() {
        let all = [
            Standing::Bad,
            Standing::Next,
            Standing::Suspect,
            Standing::Good,
            Standing::Cannot,
            Standing::NotChecked,
        ];
        let marks: std::collections::BTreeSet<char> = all.into_iter().map(mark).collect();
        assert_eq!(marks.len(), all.len());
    }
}
