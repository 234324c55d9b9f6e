//! A whole tree: its files gathered, every entry lowered, the chances put on one scale.

use std::sync::Arc;

use super::around::Around;
use super::header::Header;
use super::located::{Located, section};
use super::names::{Meaning, Names};
use super::{broken, case, check, condition, derived, event, gate, scale, usage};
use crate::authoring::desk::Desk;
use crate::authoring::document::{Joined, Source};
use crate::authoring::kept::{self, Kept};
use crate::authoring::rules::{self, Whole};
use crate::authoring::shape;
use crate::base::checksum::checksum;
use crate::base::text::with_article;
use crate::diagnosis::cause::Cause;
use crate::diagnosis::check::Check;
use crate::diagnosis::model::{Model, Question, WorkedOut};
use crate::plant::aircraft::Aircraft;
use crate::plant::kind::Kind;
use crate::source::codes::document::{DUPLICATE_KEY, WRONG_FORM};
use crate::source::codes::tree as code;
use crate::source::problem::Problem;
use crate::tree::fault_tree::{Chance, Condition, Cycle, Event, FaultTree, Gate};
use crate::tree::node::Node;
use crate::tree::scale::{Priors, priors};

/// Lowers a tree and the files it takes in. `None` where an error was found on the way.
pub fn lower(desk: &mut Desk, joined: &Joined) -> Option<Model> {
    let sources = &joined.sources;
    let main = sources.first()?;
    let text = |file| desk.files.get(file).text.as_str();
    let mut texts: Vec<&str> = sources.iter().map(|source| text(source.file)).collect();
    let checksum = checksum(texts.iter().copied());
    texts.extend(joined.aircraft.iter().map(|(_, file)| text(*file)));
    let all = kept::checksum_of(&texts);
    let kept = kept::beside(desk, main.file, all);
    let mut work = Work {
        header: Header::read(main, &mut desk.problems),
        main,
        checksum,
        kept,
        aircraft: joined
            .aircraft
            .as_ref()
            .map(|(aircraft, _)| Arc::clone(aircraft)),
        names: Names::default(),
        conditions: Vec::new(),
        questions: Vec::new(),
        problems: std::mem::take(&mut desk.problems),
        notes: Vec::new(),
    };
    let model = work.lower(sources);
    desk.notes.append(&mut work.notes);
    desk.problems = work.problems;
    model.filter(|_| !desk.has_errors())
}

struct Work<'a> {
    header: Header,
    main: &'a Source,
    checksum: String,
    kept: Kept,
    aircraft: Option<Arc<Aircraft>>,
    names: Names,
    conditions: Vec<Condition>,
    questions: Vec<Question>,
    problems: Vec<Problem>,
    notes: Vec<String>,
}

/// A section that may use events.
fn events_users<'a>(main: &'a Source, key: &str) -> Option<Located<'a>> {
    main.root
        .entry(key)
        .map(|entry| Located::of(main.file, entry))
}

impl Work<'_> {
    fn lower(&mut self, sources: &[Source]) -> Option<Model> {
        let entries = ["conditions", "events", "gates", "checks"].map(|key| section(sources, key));
        let [
            condition_entries,
            event_entries,
            gate_entries,
            check_entries,
        ] = &entries;
        self.name_all(condition_entries, Meaning::Condition);
        self.name_all(event_entries, Meaning::Event);
        self.name_all(gate_entries, Meaning::Gate);
        self.name_all(check_entries, Meaning::Check);
        self.roles();
        self.lower_conditions(condition_entries);
        let (chances, causes) = self.lower_events(event_entries);
        let gates = self.lower_gates(gate_entries);
        let checks = self.lower_checks(check_entries);
        let causes = self.confirm(event_entries, causes, &checks);
        let top = self.top();
        let events: Vec<Event> = causes
            .iter()
            .zip(chances)
            .map(|(cause, chance)| Event {
                id: cause.id.clone(),
                chance,
            })
            .collect();
        let tree = self.build(events, &gates, top)?;
        let entries = entries.each_ref().map(Vec::as_slice);
        self.finish(tree, causes, checks, entries)
    }

    fn name_all(&mut self, entries: &[Located<'_>], meaning: fn(usize) -> Meaning) {
        for (at, entry) in entries.iter().enumerate() {
            let twin = self.names.add(entry, meaning(at));
            // The survey has said so already where both stand in one mapping.
            let said = |p: &Problem| p.code == DUPLICATE_KEY && p.place == entry.place();
            if !self.problems.iter().any(said) {
                self.problems.extend(twin);
            }
        }
    }

    /// Reads an entry into its shape, unless the form check has found an error in it.
    fn shape<T: serde::de::DeserializeOwned>(&mut self, entry: &Located<'_>) -> Option<T> {
        if entry.is_broken(&self.problems) {
            return None;
        }
        match shape::read(entry.node) {
            Ok(shape) => Some(shape),
            Err(error) => {
                let message = format!("`{}` could not be read: {error}", entry.key);
                let problem = Problem::new(WRONG_FORM, entry.place(), message);
                self.problems
                    .push(problem.hint("compare it with an entry of a shipped tree"));
                None
            }
        }
    }

    fn around(&self) -> Around<'_> {
        Around {
            aircraft: self.aircraft.as_deref(),
            source: self.header.source.as_deref(),
            names: &self.names,
            conditions: &self.conditions,
        }
    }

    /// Roles against the aircraft: the kind the tree wants and the part the aircraft binds.
    fn roles(&mut self) {
        let Some(wanted) = self.main.root.get("needs-parts") else {
            return;
        };
        for role in Located::entries(self.main.file, wanted) {
            let kind = role.node.text().unwrap_or_default();
            if Kind::find(kind).is_none() {
                let known: Vec<&str> = crate::plant::kinds::KINDS.iter().map(|k| k.name).collect();
                let message = format!("there is no kind of part `{kind}`");
                let problem = Problem::new(code::ROLE, role.value_place(), message);
                self.problems.push(problem.suggest(kind, &known));
                continue;
            }
            let part = self.aircraft.as_deref().and_then(|a| a.part_for(role.key));
            if let Some(part) = part.filter(|part| part.kind.name != kind) {
                let message = format!(
                    "role `{}` takes {}, and the aircraft plays it with `{}`, {}",
                    role.key,
                    with_article(kind),
                    part.id,
                    with_article(part.kind.name)
                );
                let problem = Problem::new(code::ROLE, role.value_place(), message);
                self.problems
                    .push(problem.hint("bind another part, or ask for another kind"));
            }
        }
    }

    fn lower_conditions(&mut self, entries: &[Located<'_>]) {
        for entry in entries {
            let lowered = self
                .shape(entry)
                .map(|shape| condition::lower(entry, &shape, &mut self.problems));
            let (condition, question) = lowered.unwrap_or_else(|| broken::condition(entry));
            self.conditions.push(condition);
            self.questions.push(question);
        }
        self.problems
            .extend(condition::twice(entries, &self.questions));
    }

    fn lower_events(&mut self, entries: &[Located<'_>]) -> (Vec<Chance>, Vec<Cause>) {
        let mut chances = Vec::new();
        let mut causes = Vec::new();
        for entry in entries {
            let Some(shape) = self.shape::<shape::tree::Event>(entry) else {
                chances.push(Chance::PerParking(0.0));
                causes.push(Cause::named(entry.key));
                continue;
            };
            let mut problems = std::mem::take(&mut self.problems);
            let tree = event::Exposed {
                around: self.around(),
                roles: &self.header.roles,
                exposure: self.header.exposure,
            };
            let (chance, cause) = event::lower(entry, shape, &tree, &mut problems);
            self.problems = problems;
            chances.push(chance);
            causes.push(cause);
        }
        let sum = scale::sum_of_shares(entries, &chances);
        self.problems.extend(sum);
        (chances, causes)
    }

    fn lower_gates<'e>(&mut self, entries: &[Located<'e>]) -> Vec<(Located<'e>, Gate)> {
        let mut gates = Vec::new();
        for entry in entries {
            let gate = match self.shape(entry) {
                Some(shape) => {
                    let problems = &mut self.problems;
                    gate::lower(entry, &shape, &self.names, &self.conditions, problems)
                }
                None => Gate {
                    id: entry.key.to_owned(),
                    operator: crate::tree::node::Operator::Any,
                    inputs: Vec::new(),
                },
            };
            gates.push((*entry, gate));
        }
        gates
    }

    fn lower_checks(&mut self, entries: &[Located<'_>]) -> Vec<Check> {
        let mut checks = Vec::new();
        for entry in entries {
            let shape: Option<shape::check::Check> = self.shape(entry);
            let shape = shape.unwrap_or_else(broken::check);
            let broken = entry.is_broken(&self.problems);
            let mut problems = std::mem::take(&mut self.problems);
            let before = problems.len();
            checks.push(check::lower(entry, shape, &self.around(), &mut problems));
            self.problems = problems;
            if broken {
                self.problems.truncate(before);
            }
        }
        checks
    }

    fn confirm(
        &mut self,
        entries: &[Located<'_>],
        mut causes: Vec<Cause>,
        checks: &[Check],
    ) -> Vec<Cause> {
        for (entry, cause) in entries.iter().zip(&mut causes) {
            let shape = entry
                .field("confirm")
                .filter(|f| !f.is_broken(&self.problems));
            let shape: Option<shape::tree::Confirm> = shape.and_then(|f| shape::read(f.node).ok());
            match shape.map(|shape| case::confirm(entry, &shape, &self.names, checks)) {
                Some(Ok(confirm)) => cause.confirm = confirm,
                Some(Err(problem)) => self.problems.push(problem),
                None => {}
            }
        }
        causes
    }

    fn top(&mut self) -> Option<Node> {
        let text = self.main.root.get("top")?.text()?;
        let place = self.main.place_of("top");
        self.names
            .node(text, &self.conditions, place)
            .map_err(|problem| self.problems.push(problem))
            .ok()
    }

    fn build(
        &mut self,
        events: Vec<Event>,
        gates: &[(Located<'_>, Gate)],
        top: Option<Node>,
    ) -> Option<FaultTree> {
        let conditions = self.conditions.clone();
        let list = gates.iter().map(|(_, gate)| gate.clone()).collect();
        // A missing top is an error already; any node serves to look for cycles.
        let stand_in = Node::Event(0);
        match FaultTree::build(events, conditions, list, top.unwrap_or(stand_in)) {
            Ok(mut tree) => {
                tree.unlisted = self.header.unlisted;
                tree.per_parking = self.header.per_parking;
                top.map(|_| tree)
            }
            Err(Cycle(path)) => {
                self.problems.extend(gate::cycle_problem(&path, gates));
                None
            }
        }
    }

    fn finish(
        &mut self,
        tree: FaultTree,
        mut causes: Vec<Cause>,
        checks: Vec<Check>,
        entries: [&[Located<'_>]; 4],
    ) -> Option<Model> {
        let [_, events, _, check_entries] = entries;
        let before = self.problems.iter().any(Problem::is_error);
        let parts = usage::parts(&tree);
        usage::big_chances(&tree, &parts, events, &mut self.problems);
        for (cause, part) in causes.iter_mut().zip(parts) {
            cause.part = part;
        }
        let mut model = self.model(tree, Priors::default(), causes, checks);
        if !before {
            let said = (&mut self.problems, &mut self.notes);
            derived::complete(&mut model, check_entries, &self.kept, said);
        }
        // A mistake in a gate or a check may hide the one use of an event.
        let users = ["gates", "checks"].map(|key| events_users(self.main, key));
        let broken = |section: Located<'_>| section.is_broken(&self.problems);
        let whole = !users.into_iter().flatten().any(broken);
        if whole && !(before && derived::any(check_entries)) {
            usage::unused(&model, events, &mut self.problems);
        }
        // Cases need names alone, so their mistakes come out with all the others.
        model.cases = case::cases(self.main, &model, &mut self.problems);
        if before {
            return None;
        }
        let top = self.main.place_of("top");
        self.problems.extend(usage::needs_a_cause(&model.tree, top));
        model.priors = match priors(&model.tree) {
            Ok(priors) => priors,
            // Without an aircraft the rates of its parts are not known: structure alone.
            Err(_)
                if model.aircraft.is_none() && model.causes.iter().any(|c| c.fault.is_some()) =>
            {
                return None;
            }
            Err(error) => {
                let problem = scale::problem(&error, self.main, events);
                self.problems.push(problem);
                return None;
            }
        };
        if self.problems.iter().any(Problem::is_error) {
            return None;
        }
        self.warn(&model, entries);
        Some(model)
    }

    /// What had better be otherwise in a tree without errors.
    fn warn(&mut self, model: &Model, entries: [&[Located<'_>]; 4]) {
        let [_, events, _, checks] = entries;
        usage::shares(model, events, &mut self.problems);
        usage::no_time(model, events, &mut self.problems);
        usage::for_release(model, events, checks, &mut self.problems);
        rules::apply(Whole::of(model, self.main, entries), &mut self.problems);
    }

    fn model(
        &self,
        tree: FaultTree,
        priors: Priors,
        causes: Vec<Cause>,
        checks: Vec<Check>,
    ) -> Model {
        let text = |key: &str| {
            let node = self.main.root.get(key);
            node.and_then(|node| node.text()).map(str::to_owned)
        };
        Model {
            id: text("id").unwrap_or_default(),
            title: text("title").unwrap_or_default(),
            version: text("version"),
            checksum: self.checksum.clone(),
            report: text("report").unwrap_or_default(),
            note: text("note"),
            aircraft: self.aircraft.clone(),
            tree,
            priors,
            causes,
            questions: self.questions.clone(),
            checks,
            rule: self.header.rule,
            moves: self.header.moves,
            cases: Vec::new(),
            worked_out: WorkedOut::default(),
        }
    }
}
