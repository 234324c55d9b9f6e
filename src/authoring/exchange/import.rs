//! An Open-PSA model as a tree of ours.

use std::collections::{BTreeMap, BTreeSet};

use roxmltree::{Document, Node, ParsingOptions};

use super::Exchanged;
use super::formula::{Formulas, start_of};
use super::written::{Event, tree_text};
use crate::authoring::desk::Desk;
use crate::base::name::{as_name, is_name};
use crate::base::text::listed;
use crate::source::codes::exchange as code;
use crate::source::place::{FileId, Place};
use crate::source::problem::Problem;

/// Elements of one text that are looked at.
const MOST_NODES: u32 = 400_000;
/// Brackets that may stand open at once; a reader of XML may take its own stack for them.
const DEEPEST: usize = 200;

/// Reads a file and gives the text of a tree. Problems are left on the desk.
///
/// Errors: no XML, entities or a document type (refused unread), elements that cannot be carried,
/// names that are not defined, numbers that are no chances, no top.
pub fn import(desk: &mut Desk, name: &str) -> Option<Exchanged> {
    let file = desk.read(name)?;
    let text = desk.files.get(file).text.clone();
    let mut problems = Vec::new();
    let made = read(&text, file, &mut problems);
    let clean = problems.is_empty();
    desk.problems.append(&mut problems);
    made.filter(|_| clean)
}

fn read(text: &str, file: FileId, problems: &mut Vec<Problem>) -> Option<Exchanged> {
    if let Some(problem) = refused_unread(text, file) {
        problems.push(problem);
        return None;
    }
    let options = ParsingOptions {
        allow_dtd: false,
        nodes_limit: MOST_NODES,
        ..ParsingOptions::default()
    };
    let document = match Document::parse_with_options(text, options) {
        Ok(document) => document,
        Err(error) => {
            let at = offset(text, error.pos());
            let message = format!("this is not XML here: {}", plain(&error.to_string()));
            let problem = Problem::new(code::NOT_XML, Place::new(file, at..at), message);
            problems.push(problem.hint("look at the tag before this place"));
            return None;
        }
    };
    let root = document.root_element();
    if root.tag_name().name() != "opsa-mef" {
        let message = format!(
            "the first element is `{}`, and `opsa-mef` is wanted",
            root.tag_name().name()
        );
        let problem = Problem::new(code::ELEMENT, Place::new(file, start_of(root)), message);
        problems.push(problem.hint("name an Open-PSA model"));
        return None;
    }
    let defined = defined(root, file, problems);
    let names = names(&defined);
    let mut formulas = Formulas {
        file,
        names: &names,
        gates: Vec::new(),
        uses: BTreeMap::new(),
        problems: Vec::new(),
    };
    let mut lost = BTreeSet::new();
    let events = events(root, &defined, &mut formulas, &mut lost);
    let top = top(&defined, &mut formulas, root);
    undefined(&defined, &mut formulas);
    let gates = std::mem::take(&mut formulas.gates);
    problems.append(&mut formulas.problems);
    let top = names.get(&top?)?;
    let title = root.attribute("name").or_else(|| {
        let tree = root
            .children()
            .find(|node| node.has_tag_name("define-fault-tree"))?;
        tree.attribute("name")
    });
    Some(Exchanged {
        text: tree_text(title.unwrap_or("imported"), &events, &gates, top),
        lost: lost.into_iter().collect(),
    })
}

/// A document type, and brackets too deep, before any reader sees them.
fn refused_unread(text: &str, file: FileId) -> Option<Problem> {
    if let Some(at) = text.find("<!DOCTYPE").or_else(|| text.find("<!ENTITY")) {
        let place = Place::new(file, at..at + 9);
        let message = "a document type with its entities is not accepted";
        return Some(
            Problem::new(code::ENTITY, place, message).hint("take it out; a model needs none"),
        );
    }
    let mut open = 0_usize;
    for (at, _) in text.match_indices('<') {
        let rest = text.get(at..).unwrap_or_default();
        let end = rest.find('>').unwrap_or(rest.len());
        let tag = rest.get(..end).unwrap_or_default();
        if tag.starts_with("</") {
            open = open.saturating_sub(1);
        } else if !tag.starts_with("<!") && !tag.starts_with("<?") && !tag.ends_with('/') {
            open += 1;
        }
        if open > DEEPEST {
            let message = format!("elements stand more than {DEEPEST} deep in each other");
            let problem = Problem::new(code::ELEMENT, Place::new(file, at..at + 1), message);
            return Some(problem.hint("define gates of their own"));
        }
    }
    None
}

/// Every gate and event that is defined, by its name there, with its element.
fn defined<'a, 'i>(
    root: Node<'a, 'i>,
    file: FileId,
    problems: &mut Vec<Problem>,
) -> Vec<(String, Node<'a, 'i>)> {
    let kinds = ["define-gate", "define-basic-event", "define-house-event"];
    let mut found: Vec<(String, Node<'a, 'i>)> = Vec::new();
    for node in root
        .descendants()
        .filter(|node| kinds.contains(&node.tag_name().name()))
    {
        let place = Place::new(file, start_of(node));
        let Some(name) = node.attribute("name") else {
            let message = format!("`{}` has no name", node.tag_name().name());
            problems.push(Problem::new(code::ELEMENT, place, message).hint("add `name`"));
            continue;
        };
        if found.iter().any(|(known, _)| known == name) {
            let message = format!("`{name}` is defined twice");
            problems.push(
                Problem::new(code::ELEMENT, place, message).hint("give one of them another name"),
            );
            continue;
        }
        found.push((name.to_owned(), node));
    }
    found
}

/// A name of ours for each name there.
fn names(defined: &[(String, Node<'_, '_>)]) -> BTreeMap<String, String> {
    let mut names: BTreeMap<String, String> = BTreeMap::new();
    let mut taken = BTreeSet::new();
    for (name, _) in defined {
        let mut ours = as_name(name);
        if !is_name(&ours) {
            ours = as_name(&format!("n-{name}"));
        }
        while !is_name(&ours) || taken.contains(&ours) {
            ours = format!("{}-x", if is_name(&ours) { ours.as_str() } else { "n" });
        }
        taken.insert(ours.clone());
        names.insert(name.clone(), ours);
    }
    names
}

/// Takes gates into the formulas and gives the events.
fn events(
    root: Node<'_, '_>,
    defined: &[(String, Node<'_, '_>)],
    formulas: &mut Formulas<'_>,
    lost: &mut BTreeSet<String>,
) -> Vec<Event> {
    let about = ["label", "attributes"];
    let mut events = Vec::new();
    for (name, node) in defined {
        let ours = formulas.names[name].clone();
        let inner = node
            .children()
            .find(|part| part.is_element() && !about.contains(&part.tag_name().name()));
        if node.children().any(|part| part.has_tag_name("attributes")) {
            lost.insert("attributes of gates and events".to_owned());
        }
        let Some(inner) = inner else {
            let message = format!("`{name}` says nothing");
            formulas.refuse(
                *node,
                code::NUMBER,
                message,
                "give it a formula, a chance or a constant",
            );
            continue;
        };
        let label = node.children().find(|part| part.has_tag_name("label"));
        let title = label
            .and_then(|label| label.text())
            .map(|text| text.trim().to_owned());
        let found = match node.tag_name().name() {
            "define-gate" => {
                formulas.gate(&ours, inner);
                continue;
            }
            "define-house-event" => {
                lost.insert("house events: written as events with a chance of 0 or 1".to_owned());
                house(name, inner)
            }
            _ => basic(name, inner, root),
        };
        match found {
            Ok(chance) => events.push(Event {
                name: ours,
                title,
                chance,
            }),
            Err((message, hint)) => formulas.refuse(inner, code::NUMBER, message, hint),
        }
    }
    events
}

/// What is wrong with a number, and the hint.
type Refused = (String, &'static str);

/// The chance of a house event: 1 or 0.
fn house(name: &str, inner: Node<'_, '_>) -> Result<f64, Refused> {
    match inner.attribute("value") {
        Some("true") => Ok(1.0),
        Some("false") => Ok(0.0),
        _ => Err((
            format!("house event `{name}` is neither true nor false"),
            "write <constant value=\"true\"/>",
        )),
    }
}

/// The chance of a basic event.
fn basic(name: &str, inner: Node<'_, '_>, root: Node<'_, '_>) -> Result<f64, Refused> {
    match chance(inner, root, 0) {
        Some(chance) if (0.0..=1.0).contains(&chance) => Ok(chance),
        Some(chance) => Err((
            format!("`{name}` has a chance of {chance}"),
            "a chance is from 0 to 1",
        )),
        None => {
            let word = inner.tag_name().name();
            Err((
                format!("`{word}` of `{name}` is no plain number"),
                "a number, a parameter or an exponential can be taken in",
            ))
        }
    }
}

/// The number of an expression, where it is plain.
fn chance(node: Node<'_, '_>, root: Node<'_, '_>, depth: usize) -> Option<f64> {
    let number = |text: Option<&str>| text?.trim().parse::<f64>().ok().filter(|n| n.is_finite());
    let parts = || node.children().filter(Node::is_element);
    match node.tag_name().name() {
        "float" | "int" => number(node.attribute("value")),
        // Chance of a failure by a time, at a constant rate.
        "exponential" if depth < 8 => {
            let parts: Vec<Node<'_, '_>> = parts().collect();
            let [rate, time] = parts[..] else { return None };
            let [rate, time] = [rate, time].map(|part| chance(part, root, depth + 1));
            Some(-(-rate? * time?).exp_m1())
        }
        "parameter" if depth < 8 => {
            let name = node.attribute("name")?;
            let mut all = root.descendants();
            let found = all.find(|n| {
                n.has_tag_name("define-parameter") && n.attribute("name") == Some(name)
            })?;
            let mut inner = found.children().filter(Node::is_element);
            let inner = inner.find(|n| !["label", "attributes"].contains(&n.tag_name().name()))?;
            chance(inner, root, depth + 1)
        }
        _ => None,
    }
}

/// The one gate that no other uses.
fn top(
    defined: &[(String, Node<'_, '_>)],
    formulas: &mut Formulas<'_>,
    root: Node<'_, '_>,
) -> Option<String> {
    let gates = defined
        .iter()
        .filter(|(_, node)| node.has_tag_name("define-gate"));
    let free: Vec<&String> = gates
        .map(|(name, _)| name)
        .filter(|name| !formulas.uses.contains_key(*name))
        .collect();
    if let [only] = free[..] {
        return Some(only.clone());
    }
    let message = if free.is_empty() {
        "no gate stands above all others".to_owned()
    } else {
        let names: Vec<String> = free.iter().map(|name| format!("`{name}`")).collect();
        format!(
            "several gates stand above all others: {}",
            listed(&names, "and")
        )
    };
    formulas.refuse(
        root,
        code::TOP,
        message,
        "one gate that no other uses is the top",
    );
    None
}

/// Names that are used and not defined, each where it is used first.
fn undefined(defined: &[(String, Node<'_, '_>)], formulas: &mut Formulas<'_>) {
    let known: Vec<&str> = defined.iter().map(|(name, _)| name.as_str()).collect();
    let missing: Vec<(String, std::ops::Range<usize>)> = formulas
        .uses
        .iter()
        .filter(|(name, _)| !known.contains(&name.as_str()))
        .map(|(name, bytes)| (name.clone(), bytes.clone()))
        .collect();
    for (name, bytes) in missing {
        let message = format!("`{name}` is used and not defined");
        let problem = Problem::new(code::MISSING, Place::new(formulas.file, bytes), message);
        formulas.problems.push(problem.suggest(&name, &known));
    }
}

/// The byte at a line and a column, both from 1.
fn offset(text: &str, at: roxmltree::TextPos) -> usize {
    let row = at.row as usize;
    let before: usize = text
        .split_inclusive('\n')
        .take(row.saturating_sub(1))
        .map(str::len)
        .sum();
    let line = text.get(before..).unwrap_or_default();
    let column = (at.col as usize).saturating_sub(1);
    let inside = line
        .char_indices()
        .nth(column)
        .map_or(line.len(), |(at, _)| at);
    (before + inside).min(text.len())
}

/// What the reader found, without the place, which stands beside it.
fn plain(words: &str) -> String {
    words
        .rsplit_once(" at ")
        .map_or(words, |(words, _)| words)
        .to_owned()
}
