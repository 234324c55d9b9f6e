//! A fault tree as a drawing: standard gate symbols, top on the left, one row for each event.
//!
//! Lying on its side a tree stays readable at any size: text runs with the lines, and three
//! hundred rows scroll. A gate is drawn once; where it is used again stands a transfer triangle, as
//! IEC 61025 and NUREG-0492 have it (symbols from memory).

mod symbols;

use serde_json::{Value, json};

use crate::diagnosis::cause::Part;
use crate::diagnosis::model::Model;
use crate::tree::node::{Node, Operator};
use symbols::symbol;

/// Distance of two rows and of two columns.
const ROW: usize = 40;
const COLUMN: usize = 190;
/// Room around the drawing, for the head and for texts at the right.
const MARGIN: usize = 40;
const HEAD: usize = 60;
const TEXT: usize = 520;

/// What stands at one place of the drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Kind {
    Gate(Operator, usize),
    Event,
    Lacking,
    Condition,
    Transfer,
}

impl Kind {
    fn word(self) -> &'static str {
        match self {
            Self::Gate(Operator::Any, _) => "or",
            Self::Gate(Operator::All, _) => "and",
            Self::Gate(Operator::AtLeast(_), _) => "at-least",
            Self::Gate(Operator::Not, _) => "not",
            Self::Gate(Operator::Either, _) => "either",
            Self::Event => "event",
            Self::Lacking => "lacking",
            Self::Condition => "condition",
            Self::Transfer => "transfer",
        }
    }
}

/// One place of the drawing.
#[derive(Debug, Clone, PartialEq)]
struct Item {
    node: Node,
    kind: Kind,
    /// Column, the top at 0.
    column: usize,
    /// Twice the row, so that a gate may stand between two.
    twice_row: usize,
    inputs: Vec<usize>,
}

/// Places everything below the top.
fn layout(model: &Model) -> Vec<Item> {
    let mut items = Vec::new();
    let mut drawn = vec![false; model.tree.gates.len()];
    let mut rows = 0;
    place(model, model.tree.top, 0, &mut rows, &mut drawn, &mut items);
    items
}

fn place(
    model: &Model,
    node: Node,
    column: usize,
    rows: &mut usize,
    drawn: &mut [bool],
    items: &mut Vec<Item>,
) -> usize {
    let kind = kind(model, node, drawn);
    let at = items.len();
    items.push(Item {
        node,
        kind,
        column,
        twice_row: 0,
        inputs: Vec::new(),
    });
    if let (Node::Gate(gate), Kind::Gate(..)) = (node, kind) {
        drawn[gate] = true;
        let inputs: Vec<usize> = model
            .tree
            .inputs(node)
            .into_iter()
            .map(|input| place(model, input, column + 1, rows, drawn, items))
            .collect();
        let ends =
            [inputs.first(), inputs.last()].map(|end| end.map_or(0, |end| items[*end].twice_row));
        items[at].twice_row = usize::midpoint(ends[0], ends[1]);
        items[at].inputs = inputs;
    } else {
        items[at].twice_row = 2 * *rows;
        *rows += 1;
    }
    at
}

fn kind(model: &Model, node: Node, drawn: &[bool]) -> Kind {
    match node {
        Node::Gate(gate) if drawn[gate] => Kind::Transfer,
        Node::Gate(gate) => Kind::Gate(
            model.tree.gates[gate].operator,
            model.tree.gates[gate].inputs.len(),
        ),
        Node::Event(event) if model.causes[event].part == Part::Dropped => Kind::Lacking,
        Node::Event(_) => Kind::Event,
        Node::Value { .. } => Kind::Condition,
    }
}

/// The words beside a place: what it is, and its chance where it has one.
fn words(model: &Model, item: &Item) -> String {
    let name = model.tree.name(item.node);
    match (item.node, item.kind) {
        (Node::Event(event), Kind::Event) => {
            let title = &model.causes[event].title;
            format!("{title} ({name}), {:.1e}", model.priors.events[event])
        }
        (Node::Event(event), _) => {
            let title = &model.causes[event].title;
            format!("{title} ({name}), not on this aircraft")
        }
        (Node::Value { condition, value }, _) => {
            let chance = model.tree.conditions[condition].values[value].1;
            format!("{name}, {chance:.2}")
        }
        (Node::Gate(_), Kind::Transfer) => format!("{name}: drawn above"),
        (Node::Gate(_), _) => name,
    }
}

/// Text that can stand in XML.
fn escaped(text: &str) -> String {
    let text = text.replace('&', "&amp;").replace('<', "&lt;");
    text.replace('>', "&gt;").replace('"', "&quot;")
}

/// The drawing as SVG.
pub fn svg(model: &Model) -> String {
    let items = layout(model);
    let last_row = items.iter().map(|item| item.twice_row).max().unwrap_or(0) / 2;
    let last_column = items.iter().map(|item| item.column).max().unwrap_or(0);
    let width = 2 * MARGIN + last_column * COLUMN + TEXT;
    let height = MARGIN + HEAD + (last_row + 1) * ROW;
    let mut text = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\" viewBox=\"0 0 {width} {height}\" font-family=\"sans-serif\" font-size=\"13\">\n\
         <title>{}</title>\n<rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>\n\
         <text x=\"{MARGIN}\" y=\"30\" font-size=\"18\">{}</text>\n\
         <g fill=\"none\" stroke=\"#000000\" stroke-width=\"1.5\">\n",
        escaped(&model.title),
        escaped(&model.title)
    );
    let point = |item: &Item| {
        let x = MARGIN + item.column * COLUMN;
        (x, HEAD + item.twice_row * ROW / 2 + ROW / 2)
    };
    for item in &items {
        let (x, y) = point(item);
        for input in &item.inputs {
            let (to_x, to_y) = point(&items[*input]);
            let bend = x + COLUMN / 2;
            text.push_str(&format!(
                "<path d=\"M{} {y} H{bend} V{to_y} H{to_x}\"/>\n",
                x + 34
            ));
        }
    }
    for item in &items {
        let (x, y) = point(item);
        text.push_str(&symbol(item.kind, x, y));
    }
    text.push_str("</g>\n<g fill=\"#000000\">\n");
    for item in &items {
        let (x, y) = point(item);
        let words = escaped(&words(model, item));
        // The words of a gate stand over it, where its lines do not run.
        let (x, y) = match item.kind {
            Kind::Gate(..) => (x, y - 16),
            _ => (x + 42, y + 5),
        };
        text.push_str(&format!("<text x=\"{x}\" y=\"{y}\">{words}</text>\n"));
    }
    text.push_str("</g>\n</svg>\n");
    text
}

/// The drawing for Graphviz, which places it itself; a gate is drawn once and has many users.
pub fn graphviz(model: &Model) -> String {
    let quoted = |text: &str| text.replace('\\', "\\\\").replace('"', "\\\"");
    let mut text = format!(
        "digraph \"{}\" {{\n  rankdir=LR;\n  node [fontname=\"sans-serif\", fontsize=11];\n",
        quoted(&model.id)
    );
    let items = layout(model);
    let mut once = std::collections::BTreeSet::new();
    for item in items
        .iter()
        .filter(|item| item.kind != Kind::Transfer && once.insert(item.node))
    {
        let (shape, label) = match item.kind {
            Kind::Gate(Operator::Any, _) => ("invhouse", "or".to_owned()),
            Kind::Gate(Operator::All, _) => ("house", "and".to_owned()),
            Kind::Gate(Operator::AtLeast(count), of) => ("invhouse", format!("{count} of {of}")),
            Kind::Gate(Operator::Not, _) => ("invtriangle", "not".to_owned()),
            Kind::Gate(Operator::Either, _) => ("invhouse", "either".to_owned()),
            Kind::Condition => ("ellipse", String::new()),
            _ => ("circle", String::new()),
        };
        let words = words(model, item);
        let label = if label.is_empty() {
            words
        } else {
            format!("{words}\\n{label}")
        };
        let name = model.tree.name(item.node);
        text.push_str(&format!(
            "  \"{}\" [shape={shape}, label=\"{}\"];\n",
            quoted(&name),
            label.replace('"', "\\\"")
        ));
    }
    for item in items.iter().filter(|item| !item.inputs.is_empty()) {
        let from = quoted(&model.tree.name(item.node));
        for input in &item.inputs {
            let to = quoted(&model.tree.name(items[*input].node));
            text.push_str(&format!("  \"{from}\" -> \"{to}\" [dir=none];\n"));
        }
    }
    text.push_str("}\n");
    text
}

/// What is drawn where, for other programs.
pub fn layout_json(model: &Model) -> Value {
    let items = layout(model);
    let item = |item: &Item| {
        json!({
            "name": model.tree.name(item.node),
            "kind": item.kind.word(),
            "column": item.column,
            "row": f64::from(u32::try_from(item.twice_row).unwrap_or(u32::MAX)) / 2.0,
            "inputs": item.inputs,
        })
    };
    json!({"tree": model.id, "items": items.iter().map(item).collect::<Vec<_>>()})
}
