//! A drawn screen as a picture (SVG), for documents.

use ratatui::buffer::Buffer;
use ratatui::style::{Modifier, Style};

use super::theme::{Look, hex};

/// Width and height of a cell, and where its letters stand, in units of the picture.
const CELL: (usize, usize, usize) = (9, 18, 14);

/// The picture of a buffer in a look that names its own paper: day or night.
pub fn svg(buffer: &Buffer, look: Look) -> String {
    let (columns, rows) = (buffer.area.width, buffer.area.height);
    let (wide, high) = (usize::from(columns) * CELL.0, usize::from(rows) * CELL.1);
    let paper = look.theme().paper;
    let mut picture = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {wide} {high}\" \
         font-family=\"monospace\" font-size=\"15\" xml:space=\"preserve\">\n\
         <rect width=\"{wide}\" height=\"{high}\" fill=\"{}\"/>\n",
        hex(paper.bg)
    );
    for y in 0..rows {
        let mut from = 0;
        for x in 1..=columns {
            if x < columns && buffer[(x, y)].style() == buffer[(from, y)].style() {
                continue;
            }
            let text: String = (from..x).map(|at| buffer[(at, y)].symbol()).collect();
            run(&mut picture, (from, y), &text, buffer[(from, y)].style());
            from = x;
        }
    }
    picture.push_str("</svg>\n");
    picture
}

/// One run of cells of one style.
fn run(picture: &mut String, (x, y): (u16, u16), text: &str, style: Style) {
    let (left, top) = (usize::from(x) * CELL.0, usize::from(y) * CELL.1);
    let reversed = style.add_modifier.contains(Modifier::REVERSED);
    let (ink, paper) = if reversed {
        (style.bg, style.fg)
    } else {
        (style.fg, style.bg)
    };
    let wide = text.chars().count() * CELL.0;
    if reversed {
        let (high, fill) = (CELL.1, hex(paper));
        picture.push_str(&format!(
            "<rect x=\"{left}\" y=\"{top}\" width=\"{wide}\" height=\"{high}\" fill=\"{fill}\"/>\n"
        ));
    }
    if text.trim().is_empty() {
        return;
    }
    let weight = if style.add_modifier.contains(Modifier::BOLD) {
        " font-weight=\"bold\""
    } else {
        ""
    };
    let escaped = text
        .trim_end()
        .replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;");
    let length = text.trim_end().chars().count() * CELL.0;
    let (base, fill) = (top + CELL.2, hex(ink));
    picture.push_str(&format!(
        "<text x=\"{left}\" y=\"{base}\" fill=\"{fill}\" textLength=\"{length}\"{weight}>{escaped}</text>\n"
    ));
}
