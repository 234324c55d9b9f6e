//! Documents: which kind a text is, and the way from its name to the model.

use std::sync::Arc;

use super::conform::conform_document;
use super::desk::{Desk, Opened};
use super::form::Table;
use super::lower;
use super::tables::aircraft::AIRCRAFT;
use super::tables::bench::BENCH;
use super::tables::tree::{SHARED, TREE};
use super::yaml::Node;
use crate::base::text::listed;
use crate::diagnosis::model::Model;
use crate::plant::aircraft::Aircraft;
use crate::plant::course::Course;
use crate::source::codes::{document as code, tree as tree_code};
use crate::source::place::{FileId, Place};
use crate::source::problem::Problem;

/// A text that was followed to its end and checked against its table.
#[derive(Debug)]
pub struct Source {
    /// The text.
    pub file: FileId,
    /// Its value.
    pub root: Node,
}

impl Source {
    /// Where a single value at the head of the document stands.
    pub fn place_of(&self, key: &str) -> Place {
        let bytes = match self.root.entry(key) {
            Some(entry) if entry.value.text().is_some_and(|text| !text.is_empty()) => {
                entry.value.bytes.clone()
            }
            Some(entry) => entry.key_bytes.clone(),
            None => 0..0,
        };
        Place::new(self.file, bytes)
    }
}

/// The texts of a tree, and the aircraft it is joined to.
#[derive(Debug)]
pub struct Joined {
    /// The tree itself first, then the files it takes in.
    pub sources: Vec<Source>,
    /// The aircraft, and the text it stands in.
    pub aircraft: Option<(Arc<Aircraft>, FileId)>,
}

/// The kinds of document.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DocumentKind {
    /// A fault tree.
    Tree,
    /// An aircraft.
    Aircraft,
    /// A course of the bench.
    Bench,
}

impl DocumentKind {
    /// All kinds.
    pub const ALL: [Self; 3] = [Self::Tree, Self::Aircraft, Self::Bench];

    /// The word in the first line of a document.
    pub fn word(self) -> &'static str {
        match self {
            Self::Tree => "tree",
            Self::Aircraft => "aircraft",
            Self::Bench => "bench",
        }
    }

    /// The newest version of the format this program reads.
    pub fn version(self) -> u32 {
        1
    }
}

/// A document of any kind.
#[derive(Debug)]
pub enum Document {
    /// A fault tree joined to its aircraft; `None` where there was no aircraft to join it to.
    Tree(Option<Box<Model>>),
    /// An aircraft.
    Aircraft(Box<Aircraft>),
    /// A course of the bench.
    Bench(Box<OnBench>),
}

/// A course together with the aircraft it is played on.
#[derive(Debug)]
pub struct OnBench {
    /// How the aircraft was named, as it is opened from anywhere.
    pub name: String,
    /// The aircraft.
    pub aircraft: Arc<Aircraft>,
    /// The course.
    pub course: Course,
}

/// Reads a document of whatever kind, by id or path. Its problems are left on the desk.
pub fn any(desk: &mut Desk, name: &str, aircraft: Option<&str>) -> Option<Document> {
    let opened = desk.open(name)?;
    match kind(desk, &opened)? {
        DocumentKind::Tree => {
            let had_aircraft = aircraft.is_some() || opened.root.get("aircraft").is_some();
            let model = tree_from(desk, opened, aircraft);
            let clean = !desk.has_errors();
            (clean && (model.is_some() || !had_aircraft))
                .then(|| Document::Tree(model.map(Box::new)))
        }
        DocumentKind::Aircraft => {
            let aircraft = aircraft_from(desk, opened)?;
            Some(Document::Aircraft(Box::new(aircraft)))
        }
        DocumentKind::Bench => Some(Document::Bench(Box::new(bench_from(desk, opened)?))),
    }
}

/// Reads a tree, by id or path.
pub fn tree(desk: &mut Desk, name: &str, aircraft: Option<&str>) -> Option<Model> {
    let opened = desk.open(name)?;
    wanted(desk, &opened, DocumentKind::Tree)?;
    tree_from(desk, opened, aircraft)
}

/// Reads a tree together with the texts it stands in, so that what is found later has a place.
pub fn tree_with_sources(
    desk: &mut Desk,
    name: &str,
    aircraft: Option<&str>,
) -> Option<(Model, Vec<Source>)> {
    let opened = desk.open(name)?;
    wanted(desk, &opened, DocumentKind::Tree)?;
    let joined = tree_sources(desk, opened, aircraft);
    let model = lower::tree::lower(desk, &joined)?;
    Some((model, joined.sources))
}

/// Reads an aircraft, by id or path.
pub fn aircraft(desk: &mut Desk, name: &str) -> Option<Aircraft> {
    aircraft_with_text(desk, name).map(|(aircraft, _)| aircraft)
}

/// Reads a course of the bench, by path.
pub fn bench(desk: &mut Desk, name: &str) -> Option<OnBench> {
    let opened = desk.open(name)?;
    wanted(desk, &opened, DocumentKind::Bench)?;
    bench_from(desk, opened)
}

fn bench_from(desk: &mut Desk, opened: Opened) -> Option<OnBench> {
    let source = checked(desk, opened, &BENCH);
    let (aircraft, file) = tree_aircraft(desk, &source, None)?;
    let course = lower::bench::lower(desk, &source, &aircraft)?;
    let opened = desk.files.get(file).name.clone();
    let own = source.root.get("aircraft").and_then(|node| node.text());
    let name = own.filter(|own| crate::base::name::is_name(own));
    Some(OnBench {
        name: name.map_or(opened, str::to_owned),
        aircraft,
        course,
    })
}

fn aircraft_with_text(desk: &mut Desk, name: &str) -> Option<(Aircraft, FileId)> {
    let opened = desk.open(name)?;
    wanted(desk, &opened, DocumentKind::Aircraft)?;
    let file = opened.file;
    aircraft_from(desk, opened).map(|aircraft| (aircraft, file))
}

fn aircraft_from(desk: &mut Desk, opened: Opened) -> Option<Aircraft> {
    let source = checked(desk, opened, &AIRCRAFT);
    lower::aircraft::lower(desk, &source)
}

fn tree_from(desk: &mut Desk, opened: Opened, aircraft: Option<&str>) -> Option<Model> {
    let joined = tree_sources(desk, opened, aircraft);
    lower::tree::lower(desk, &joined)
}

/// A tree with every file it takes in, and its aircraft.
fn tree_sources(desk: &mut Desk, opened: Opened, aircraft: Option<&str>) -> Joined {
    let main = checked(desk, opened, &TREE);
    let aircraft = tree_aircraft(desk, &main, aircraft);
    let mut sources = vec![main];
    let mut names = vec![desk.files.get(sources[0].file).name.clone()];
    let mut at = 0;
    // Files taken in may take in others; every file is read once.
    while at < sources.len() {
        let (file, wanted) = uses(&sources[at]);
        for (name, place) in wanted {
            let beside = desk.beside(file, &name);
            if names.contains(&beside) {
                if at > 0 || beside == names[0] {
                    let message = format!("`{name}` is taken in already");
                    let problem = Problem::new(tree_code::USE, place, message);
                    desk.problems.push(problem.hint("take it out here"));
                }
                continue;
            }
            names.push(beside.clone());
            if let Some(source) = taken_in(desk, &beside, place) {
                sources.push(source);
            }
        }
        at += 1;
    }
    Joined { sources, aircraft }
}

/// Files that a tree takes in, with the places that name them.
fn uses(source: &Source) -> (FileId, Vec<(String, Place)>) {
    let items = source.root.get("use").map_or(&[][..], |node| node.items());
    let named = items.iter().filter_map(|item| {
        let place = Place::new(source.file, item.bytes.clone());
        Some((item.text()?.to_owned(), place))
    });
    (source.file, named.collect())
}

fn taken_in(desk: &mut Desk, name: &str, place: Place) -> Option<Source> {
    let (before, readable) = (desk.problems.len(), !desk.unreadable);
    let opened = desk.open(name);
    let mut reason = String::new();
    // The tree itself was read, so a file missing inside it is a problem of the tree.
    if readable && desk.unreadable {
        desk.unreadable = false;
        let refusals = desk.problems.drain(before..).map(|problem| problem.message);
        reason = refusals.map(|message| format!(": {message}")).collect();
    }
    let usable = opened.filter(|opened| {
        let first = opened.root.get("stillwheel").and_then(|node| node.text());
        first.is_some_and(|text| text.starts_with("tree "))
    });
    if usable.is_none() {
        let message = format!("`{name}` cannot be taken in{reason}");
        let problem = Problem::new(tree_code::USE, place, message);
        desk.problems
            .push(problem.hint("name a tree file, with its path relative to this one"));
    }
    usable.map(|opened| checked(desk, opened, &SHARED))
}

fn tree_aircraft(
    desk: &mut Desk,
    main: &Source,
    name: Option<&str>,
) -> Option<(Arc<Aircraft>, FileId)> {
    let own = main.root.get("aircraft").and_then(|node| node.text());
    let name = match (name, own) {
        (Some(name), _) => name.to_owned(),
        (None, Some(own)) if crate::base::name::is_name(own) => own.to_owned(),
        (None, Some(own)) => desk.beside(main.file, own),
        (None, None) => return None,
    };
    let mut apart = Desk {
        files: std::mem::take(&mut desk.files),
        ..Desk::default()
    };
    let found = aircraft_with_text(&mut apart, &name);
    desk.files = apart.files;
    desk.bytes_read += apart.bytes_read;
    let mut reason = String::new();
    if apart.unreadable {
        let refusals = apart.problems.drain(..).map(|problem| problem.message);
        reason = refusals.map(|message| format!(": {message}")).collect();
    }
    desk.problems.extend(apart.problems);
    if found.is_none() {
        let message = format!("the aircraft `{name}` cannot be used{reason}");
        let place = main.place_of("aircraft");
        let problem = Problem::new(tree_code::AIRCRAFT, place, message);
        desk.problems
            .push(problem.hint("name an embedded aircraft, or a path beside this file"));
    }
    found.map(|(aircraft, file)| (Arc::new(aircraft), file))
}

fn checked(desk: &mut Desk, opened: Opened, table: &Table) -> Source {
    conform_document(&opened.root, table, opened.file, &mut desk.problems);
    Source {
        file: opened.file,
        root: opened.root,
    }
}

fn wanted(desk: &mut Desk, opened: &Opened, kind_wanted: DocumentKind) -> Option<()> {
    let found = kind(desk, opened)?;
    if found == kind_wanted {
        return Some(());
    }
    let (found, wanted) = (found.word(), kind_wanted.word());
    let message = format!("this is the document of kind `{found}`, and `{wanted}` is wanted");
    let place = Place::new(opened.file, 0..0);
    let problem = Problem::new(code::UNKNOWN_DOCUMENT, place, message);
    desk.problems.push(problem.hint(format!(
        "name a document that starts `stillwheel: {wanted} 1`"
    )));
    None
}

/// Which kind a document says it is.
fn kind(desk: &mut Desk, opened: &Opened) -> Option<DocumentKind> {
    let forms: Vec<String> = DocumentKind::ALL
        .iter()
        .map(|kind| format!("`stillwheel: {} {}`", kind.word(), kind.version()))
        .collect();
    let hint = format!("start with {}", listed(&forms, "or"));
    let first = opened.root.entries().first();
    let Some(first) = first.filter(|entry| entry.key == "stillwheel") else {
        let bytes = first.map_or(0..0, |entry| entry.key_bytes.clone());
        let place = Place::new(opened.file, bytes);
        let message = "the first key is not `stillwheel`";
        desk.problems
            .push(Problem::new(code::UNKNOWN_DOCUMENT, place, message).hint(hint));
        return None;
    };
    let text = first.value.text().unwrap_or_default();
    let place = Place::new(opened.file, first.value.bytes.clone());
    let (word, version) = text.split_once(' ').unwrap_or((text, ""));
    let kind = DocumentKind::ALL
        .into_iter()
        .find(|kind| kind.word() == word);
    let (message, hint) = match (kind, version.trim().parse::<u32>()) {
        (Some(kind), Ok(version)) if (1..=kind.version()).contains(&version) => return Some(kind),
        (Some(kind), Ok(version)) if version > kind.version() => (
            format!("`{text}` was written for a newer program"),
            format!(
                "this program reads `{word}` up to version {}",
                kind.version()
            ),
        ),
        _ => (
            format!("`{text}` is not a kind of document with its version"),
            hint,
        ),
    };
    desk.problems
        .push(Problem::new(code::UNKNOWN_DOCUMENT, place, message).hint(hint));
    None
}
