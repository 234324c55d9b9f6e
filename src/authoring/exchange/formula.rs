//! Formulas of the exchange format: gates within gates, taken apart into gates with names.

use std::collections::BTreeMap;
use std::ops::Range;

use roxmltree::Node;

use crate::source::codes::exchange as code;
use crate::source::place::{FileId, Place};
use crate::source::problem::Problem;

/// Formulas within formulas beyond this are no fault tree.
const DEEPEST: usize = 64;

/// A gate as it will be written.
#[derive(Debug, Clone, PartialEq)]
pub struct Gate {
    /// Its name.
    pub name: String,
    /// Operator and inputs as text of a tree, such as `any: [a, b]`.
    pub joins: Joins,
}

/// How a gate joins its inputs.
#[derive(Debug, Clone, PartialEq)]
pub struct Joins {
    /// `any`, `all`, `at-least`, `not` or `either`.
    pub operator: &'static str,
    /// The count of `at-least`.
    pub count: usize,
    /// Names of the inputs.
    pub inputs: Vec<String>,
}

impl Joins {
    fn of(operator: &'static str, inputs: Vec<String>) -> Self {
        Self {
            operator,
            count: 0,
            inputs,
        }
    }
}

/// What a name was used as, and where first.
pub type Uses = BTreeMap<String, Range<usize>>;

/// Takes the formulas of one text apart.
pub struct Formulas<'a> {
    /// The text.
    pub file: FileId,
    /// Names of ours for names there.
    pub names: &'a BTreeMap<String, String>,
    /// The gates so far, those with names and those that stand for inner formulas.
    pub gates: Vec<Gate>,
    /// What was named.
    pub uses: Uses,
    /// What is wrong.
    pub problems: Vec<Problem>,
}

impl Formulas<'_> {
    /// A problem at an element.
    pub fn refuse(
        &mut self,
        node: Node<'_, '_>,
        code: &'static crate::source::code::Code,
        message: String,
        hint: &str,
    ) {
        let place = Place::new(self.file, start_of(node));
        self.problems
            .push(Problem::new(code, place, message).hint(hint));
    }

    /// Takes the formula of a gate in.
    pub fn gate(&mut self, name: &str, formula: Node<'_, '_>) {
        if let Some(joins) = self.joins(name, formula, 0) {
            let name = name.to_owned();
            self.gates.push(Gate { name, joins });
        }
    }

    fn joins(&mut self, gate: &str, formula: Node<'_, '_>, depth: usize) -> Option<Joins> {
        if depth > DEEPEST {
            let message = format!("formulas stand more than {DEEPEST} deep in each other");
            self.refuse(formula, code::ELEMENT, message, "define gates of their own");
            return None;
        }
        let word = formula.tag_name().name();
        let inner: Vec<Node<'_, '_>> = formula.children().filter(Node::is_element).collect();
        if is_reference(word) {
            let one = self.reference(formula)?;
            return Some(Joins::of("any", vec![one]));
        }
        let known = ["or", "and", "not", "xor", "atleast", "nor", "nand"];
        if !known.contains(&word) {
            let message = format!("`{word}` is no formula that can be taken in");
            self.refuse(
                formula,
                code::ELEMENT,
                message,
                "or, and, not, xor, atleast, nor and nand are",
            );
            return None;
        }
        let mut inputs = Vec::new();
        for (nth, part) in inner.iter().enumerate() {
            let part_name = part.tag_name().name();
            if is_reference(part_name) {
                inputs.push(self.reference(*part)?);
                continue;
            }
            let name = self.free(&format!("{gate}-{}", nth + 1));
            let joins = self.joins(&name, *part, depth + 1)?;
            self.gates.push(Gate {
                name: name.clone(),
                joins,
            });
            inputs.push(name);
        }
        if inputs.is_empty() {
            let message = format!("`{word}` joins nothing");
            self.refuse(formula, code::ELEMENT, message, "give it inputs");
            return None;
        }
        self.operator(gate, formula, inputs)
    }

    fn operator(
        &mut self,
        gate: &str,
        formula: Node<'_, '_>,
        inputs: Vec<String>,
    ) -> Option<Joins> {
        let inside = |this: &mut Self, operator, inputs| {
            let name = this.free(&format!("{gate}-of"));
            this.gates.push(Gate {
                name: name.clone(),
                joins: Joins::of(operator, inputs),
            });
            name
        };
        Some(match formula.tag_name().name() {
            "or" => Joins::of("any", inputs),
            "and" => Joins::of("all", inputs),
            "not" if inputs.len() > 1 => {
                self.refuse(
                    formula,
                    code::ELEMENT,
                    "`not` takes one input".to_owned(),
                    "join them first",
                );
                return None;
            }
            "not" => Joins::of("not", inputs),
            "nor" => Joins::of("not", vec![inside(self, "any", inputs)]),
            "nand" => Joins::of("not", vec![inside(self, "all", inputs)]),
            "xor" => {
                // An odd number of several, two at a time.
                let mut rest = inputs;
                while rest.len() > 2 {
                    let pair = rest.split_off(rest.len() - 2);
                    rest.push(inside(self, "either", pair));
                }
                if rest.len() == 1 {
                    return Some(Joins::of("any", rest));
                }
                Joins::of("either", rest)
            }
            _ => return self.vote(formula, inputs),
        })
    }

    fn vote(&mut self, formula: Node<'_, '_>, inputs: Vec<String>) -> Option<Joins> {
        let count = formula.attribute("min");
        let count = count.and_then(|min| min.parse::<usize>().ok());
        let Some(count) = count.filter(|count| (1..=inputs.len()).contains(count)) else {
            let message = format!("`min` of `atleast` is not from 1 to {}", inputs.len());
            let hint = "write how many of the inputs make it true";
            self.refuse(formula, code::ELEMENT, message, hint);
            return None;
        };
        Some(Joins {
            operator: "at-least",
            count,
            inputs,
        })
    }

    /// The name of ours for what an element names.
    fn reference(&mut self, node: Node<'_, '_>) -> Option<String> {
        let Some(name) = node.attribute("name") else {
            let message = format!("`{}` has no name", node.tag_name().name());
            self.refuse(node, code::ELEMENT, message, "add `name`");
            return None;
        };
        // A path into a component ends in the name itself.
        let last = name.rsplit('.').next().unwrap_or(name);
        self.uses
            .entry(last.to_owned())
            .or_insert_with(|| start_of(node));
        Some(
            self.names
                .get(last)
                .cloned()
                .unwrap_or_else(|| last.to_owned()),
        )
    }

    /// A name that is not taken.
    fn free(&self, wanted: &str) -> String {
        let taken = |name: &str| {
            self.names.values().any(|known| known == name)
                || self.gates.iter().any(|gate| gate.name == name)
        };
        let mut name = wanted.to_owned();
        while taken(&name) {
            name.push_str("-x");
        }
        name
    }
}

/// Whether an element names something instead of joining.
fn is_reference(word: &str) -> bool {
    matches!(word, "gate" | "basic-event" | "house-event" | "event")
}

/// Where the tag of an element stands: its opening bracket and name.
pub fn start_of(node: Node<'_, '_>) -> Range<usize> {
    let start = node.range().start;
    start..start + 1 + node.tag_name().name().len()
}
