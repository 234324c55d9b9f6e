//! The symbols of gates and events, lying on their side: the output on the left.

use super::Kind;
use crate::tree::node::Operator;

/// One symbol in SVG with the middle of its left side at a point.
pub fn symbol(kind: Kind, x: usize, y: usize) -> String {
    let (top, bottom) = (y - 12, y + 12);
    let right = x + 34;
    match kind {
        Kind::Gate(Operator::All, _) => format!(
            "<path fill=\"#ffffff\" d=\"M{right} {top} V{bottom} H{} A14 12 0 0 1 {} {top} Z\"/>\n",
            x + 14,
            x + 14
        ),
        Kind::Gate(Operator::Any, _) => shield(x, y),
        Kind::Gate(Operator::AtLeast(count), of) => format!(
            "{}<text x=\"{}\" y=\"{}\" font-size=\"11\" fill=\"#000000\" stroke=\"none\">{count}/{of}</text>\n",
            shield(x, y),
            x + 9,
            y + 4
        ),
        Kind::Gate(Operator::Either, _) => format!(
            "{}<path d=\"M{} {top} Q{} {y} {} {bottom}\"/>\n",
            shield(x, y),
            right + 5,
            right - 3,
            right + 5
        ),
        Kind::Gate(Operator::Not, _) => format!(
            "<path fill=\"#ffffff\" d=\"M{right} {top} V{bottom} L{} {y} Z\"/>\n<circle fill=\"#ffffff\" cx=\"{}\" cy=\"{y}\" r=\"4\"/>\n",
            x + 8,
            x + 4
        ),
        Kind::Event => format!(
            "<circle fill=\"#ffffff\" cx=\"{}\" cy=\"{y}\" r=\"12\"/>\n",
            x + 12
        ),
        Kind::Lacking => format!(
            "<circle fill=\"#ffffff\" stroke-dasharray=\"3 3\" cx=\"{}\" cy=\"{y}\" r=\"12\"/>\n",
            x + 12
        ),
        Kind::Condition => format!(
            "<ellipse fill=\"#ffffff\" cx=\"{}\" cy=\"{y}\" rx=\"17\" ry=\"11\"/>\n",
            x + 17
        ),
        Kind::Transfer => {
            format!("<path fill=\"#ffffff\" d=\"M{x} {y} L{right} {top} V{bottom} Z\"/>\n")
        }
    }
}

/// The pointed shield of an or gate with its hollow back.
fn shield(x: usize, y: usize) -> String {
    let (top, bottom, right) = (y - 12, y + 12, x + 34);
    format!(
        "<path fill=\"#ffffff\" d=\"M{right} {top} Q{} {y} {right} {bottom} Q{} {bottom} {x} {y} Q{} {top} {right} {top} Z\"/>\n",
        right - 9,
        x + 12,
        x + 12
    )
}
