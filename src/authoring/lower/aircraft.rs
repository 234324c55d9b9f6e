//! A whole aircraft: switches, actions, parts, links, roles.

use super::located::Located;
use super::{link, part, setting, solvable, words};
use crate::authoring::desk::Desk;
use crate::authoring::document::Source;
use crate::authoring::scalar::quantity;
use crate::authoring::shape;
use crate::authoring::shape::aircraft as shapes;
use crate::base::dimension::Dimension;
use crate::base::physical::Mass;
use crate::base::quantity::Quantity;
use crate::base::text::plural;
use crate::plant::aircraft::{Aircraft, Environment, Fluid, Part};
use crate::plant::procedure::{Access, Action, Step};
use crate::plant::state::{State, Switch};
use crate::source::codes::aircraft as code;
use crate::source::codes::units::OUT_OF_RANGE;
use crate::source::place::Place;
use crate::source::problem::Problem;

/// Lowers an aircraft. `None` where an error was found on the way.
pub fn lower(desk: &mut Desk, source: &Source) -> Option<Aircraft> {
    let mut problems = std::mem::take(&mut desk.problems);
    let aircraft = Work {
        source,
        problems: &mut problems,
    }
    .lower();
    desk.problems = problems;
    Some(aircraft).filter(|_| !desk.has_errors())
}

struct Work<'a> {
    source: &'a Source,
    problems: &'a mut Vec<Problem>,
}

impl<'a> Work<'a> {
    fn lower(mut self) -> Aircraft {
        let switches = self.switches();
        let as_found = self.as_found(&switches);
        let actions = self.actions(&switches);
        let accesses = self.accesses();
        let entries = self.section("parts");
        let parts = self.parts(&entries);
        let links = self
            .source
            .root
            .get("links")
            .map_or(&[][..], |node| node.items());
        let before = self.problems.iter().any(Problem::is_error);
        let graph = if before && parts.len() < entries.len() {
            // Links to a part that could not be read would all be wrong too.
            crate::plant::graph::PartGraph::default()
        } else {
            link::lower(self.source.file, links, &parts, &entries, self.problems)
        };
        if !self.problems.iter().any(Problem::is_error) {
            solvable::climate(&self.source.root, self.source.file, self.problems);
            solvable::two_supplies(self.source.file, links, &parts, &graph, self.problems);
            solvable::precharge(&parts, &entries, self.problems);
            solvable::nothing(&self.source.root, self.source.file, &entries, self.problems);
        }
        let roles = self.roles(&parts, &entries);
        let environment = Environment {
            temperature: self.quantity("environment", "temperature", Dimension::Temperature),
            slope: self.quantity("environment", "slope", Dimension::Slope),
            wind: self.quantity("environment", "wind", Dimension::Speed),
        };
        Aircraft {
            id: self.text("id"),
            title: self.text("title"),
            note: self.text("note"),
            mass: self.mass(),
            fluid: self.fluid(),
            environment,
            switches,
            as_found,
            actions,
            accesses,
            parts,
            graph,
            roles,
        }
    }

    fn text(&self, key: &str) -> String {
        let node = self.source.root.get(key);
        node.and_then(|node| node.text())
            .unwrap_or_default()
            .to_owned()
    }

    fn section(&self, key: &str) -> Vec<Located<'a>> {
        let section = self.source.root.get(key);
        let entries = section.map(|node| Located::entries(self.source.file, node));
        entries.into_iter().flatten().collect()
    }

    fn mass(&self) -> Option<Mass> {
        let node = self.source.root.get("mass")?;
        let place = Place::new(self.source.file, node.bytes.clone());
        Mass::new(quantity(node.text()?, Dimension::Mass, place).ok()?.si())
    }

    /// A quantity of a section. What is wrong with it was said by the form check.
    fn quantity(&self, section: &str, key: &str, dimension: Dimension) -> Option<Quantity> {
        let entry = self.source.root.get(section)?.entry(key)?;
        let field = Located::of(self.source.file, entry);
        quantity(field.node.text()?, dimension, field.value_place()).ok()
    }

    fn fluid(&mut self) -> Option<Fluid> {
        let points = self.source.root.get("fluid")?.entry("viscosity")?;
        let field = Located::of(self.source.file, points);
        let mut read = Vec::new();
        for item in field.node.items() {
            let place = Place::new(self.source.file, item.bytes.clone());
            match viscosity_point(item.text().unwrap_or_default(), place) {
                Ok(point) => read.push(point),
                Err(problem) => {
                    self.problems.push(problem);
                    return None;
                }
            }
        }
        let [first, second] = read[..] else {
            let message = format!(
                "{} of viscosity, and two are wanted",
                plural(read.len(), "point")
            );
            let problem = Problem::new(code::TWO_POINTS, field.place(), message);
            self.problems
                .push(problem.hint("write [11 mm2/s at 38 C, 3.8 mm2/s at 99 C]"));
            return None;
        };
        if (first.0 - second.0).abs() < 1.0 {
            let message = "both points of viscosity stand at one temperature";
            let problem = Problem::new(code::TWO_POINTS, field.place(), message);
            self.problems
                .push(problem.hint("give points some tens of degrees apart"));
            return None;
        }
        let number =
            |key: &str, dimension| self.quantity("fluid", key, dimension).map(Quantity::si);
        Some(Fluid {
            density: number("density", Dimension::Density)?,
            expansion: number("expansion", Dimension::PerKelvin)?,
            bulk_modulus: number("bulk-modulus", Dimension::GaugePressure)?,
            viscosity: [first, second],
        })
    }

    fn switches(&mut self) -> Vec<Switch> {
        let mut switches = Vec::new();
        for entry in self.section("states") {
            let items = entry.node.items().iter().filter_map(|item| item.text());
            let positions: Vec<String> = items.map(str::to_owned).collect();
            let mut different = positions.clone();
            different.sort_unstable();
            different.dedup();
            if different.len() < 2 || different.len() < positions.len() {
                let message = format!("switch `{}` has not two different positions", entry.key);
                let problem = Problem::new(code::POSITIONS, entry.place(), message);
                self.problems
                    .push(problem.hint("name every position once: [off, on]"));
            }
            let id = entry.key.to_owned();
            switches.push(Switch { id, positions });
        }
        switches
    }

    fn as_found(&mut self, switches: &[Switch]) -> State {
        let mut state = State(vec![0; switches.len()]);
        let Some(entry) = self.source.root.entry("as-found") else {
            return state;
        };
        // The settings stand directly under the key, so the document itself is the entry.
        let wanted = shape::read(&entry.value).unwrap_or_default();
        let whole = Located {
            file: self.source.file,
            key: "as-found",
            key_bytes: &entry.key_bytes,
            node: &self.source.root,
        };
        let problems = &mut *self.problems;
        for setting in setting::settings(
            &whole,
            "as-found",
            &wanted,
            switches,
            code::SETTING,
            problems,
        ) {
            state.0[setting.switch] = setting.position;
        }
        state
    }

    fn actions(&mut self, switches: &[Switch]) -> Vec<Action> {
        let mut actions = Vec::new();
        for entry in self.section("actions") {
            if entry.is_broken(self.problems) {
                continue;
            }
            let Ok(shape) = shape::read::<shapes::Action>(entry.node) else {
                continue;
            };
            let problems = &mut *self.problems;
            let sets = setting::settings(
                &entry,
                "sets",
                &shape.sets,
                switches,
                code::SETTING,
                problems,
            );
            let needs = setting::needs(&entry, &shape.needs, switches, code::SETTING, problems);
            actions.push(Action {
                id: entry.key.to_owned(),
                sets,
                needs,
                minutes: shape.minutes,
                step: Step {
                    instruction: shape.instruction,
                    people: shape.people.unwrap_or(1),
                    locks: words::locks(&shape.locks),
                    takes_away: words::evidences(&shape.takes_away),
                    cautions: words::cautions(&shape.cautions),
                    reference: shape.reference,
                },
            });
        }
        actions
    }

    fn accesses(&mut self) -> Vec<Access> {
        let mut accesses = Vec::new();
        for entry in self.section("access") {
            let Ok(shape) = shape::read::<shapes::Access>(entry.node) else {
                continue;
            };
            accesses.push(Access {
                id: entry.key.to_owned(),
                minutes: shape.minutes,
                step: Step {
                    instruction: shape.instruction,
                    people: shape.people.unwrap_or(1),
                    locks: words::locks(&shape.locks),
                    takes_away: Vec::new(),
                    cautions: words::cautions(&shape.cautions),
                    reference: shape.reference,
                },
            });
        }
        accesses
    }

    fn parts(&mut self, entries: &[Located<'_>]) -> Vec<Part> {
        let parts: Vec<Part> = entries
            .iter()
            .filter_map(|entry| part::lower(entry, self.problems))
            .collect();
        for (at, later) in parts.iter().enumerate() {
            let earlier = parts[..at]
                .iter()
                .find(|part| part.at.is_some() && part.at == later.at);
            let place = |id: &str| entries.iter().find(|entry| entry.key == id);
            if let (Some(earlier), Some(entry)) = (earlier, place(&later.id)) {
                let message = format!("`{}` stands where `{}` stands", later.id, earlier.id);
                let problem = Problem::new(code::SAME_PLACE, entry.place_of("at"), message);
                self.problems
                    .push(problem.hint("give each part a place of its own"));
            }
        }
        parts
    }

    fn roles(&mut self, parts: &[Part], entries: &[Located<'_>]) -> Vec<(String, usize)> {
        let mut roles = Vec::new();
        for role in self.section("bind") {
            let name = role.node.text().unwrap_or_default();
            match parts.iter().position(|part| part.id == name) {
                Some(part) => roles.push((role.key.to_owned(), part)),
                // A part that could not be read has its own problem already.
                None if entries.iter().any(|entry| entry.key == name) => {}
                None => {
                    let known: Vec<&str> = parts.iter().map(|part| part.id.as_str()).collect();
                    let message = format!("there is no part `{name}`");
                    let problem = Problem::new(code::BIND, role.value_place(), message);
                    self.problems.push(problem.suggest(name, &known));
                }
            }
        }
        roles
    }
}

/// Where the short form of the viscosity line ends, m2/s (ASTM D341).
const THINNEST: f64 = 2e-6;

/// `11 mm2/s at 38 C` as kelvin and m2/s.
fn viscosity_point(text: &str, place: Place) -> Result<(f64, f64), Problem> {
    let Some((value, temperature)) = text.split_once(" at ") else {
        let message = format!("`{text}` is not a viscosity at a temperature");
        let problem = Problem::new(code::TWO_POINTS, place, message);
        return Err(problem.hint("write `11 mm2/s at 38 C`"));
    };
    let value = quantity(value, Dimension::Viscosity, place.clone())?;
    if value.si() < THINNEST {
        let message = format!("`{value}` is thinner than the viscosity line can follow");
        let problem = Problem::new(OUT_OF_RANGE, place, message);
        return Err(problem.hint("give points of 2 mm2/s or more"));
    }
    let temperature = quantity(temperature, Dimension::Temperature, place)?;
    Ok((temperature.si(), value.si()))
}
