//! Basic events: their chance on the scale of the tree, and what people read about them.

use super::around::Around;
use super::forms;
use super::located::Located;
use super::words;
use crate::authoring::scalar::quantity;
use crate::authoring::shape;
use crate::authoring::shape::tree::Event as Shape;
use crate::base::dimension::Dimension;
use crate::base::physical::{Rate, Seconds};
use crate::base::probability::Probability;
use crate::diagnosis::cause::{Cause, Part, Remedy};
use crate::diagnosis::time_to_movement::Moves;
use crate::plant::aircraft::Fault;
use crate::source::codes::tree as code;
use crate::source::place::Place;
use crate::source::problem::Problem;
use crate::tree::fault_tree::Chance;

/// What an event needs beside the tree around it.
pub struct Exposed<'a> {
    /// The tree around it.
    pub around: Around<'a>,
    /// Roles the tree asks for.
    pub roles: &'a [String],
    /// Exposure of the whole tree.
    pub exposure: Option<Seconds>,
}

/// Lowers one event. Adds what is wrong with it and returns what could be understood.
pub fn lower(
    entry: &Located<'_>,
    shape: Shape,
    tree: &Exposed<'_>,
    problems: &mut Vec<Problem>,
) -> (Chance, Cause) {
    let mut title = shape.title.clone();
    let mut source = shape.source.clone();
    let chance = chance(entry, &shape, tree, problems, &mut title, &mut source);
    let moves = moves(entry, problems);
    let fault = shape.fault.as_deref().and_then(|text| {
        let (role, fault) = text.split_once('/')?;
        Some((role.to_owned(), fault.to_owned()))
    });
    let cause = Cause {
        id: entry.key.to_owned(),
        title: title.unwrap_or_else(|| entry.key.replace('-', " ")),
        part: if chance == Chance::Dropped {
            Part::Dropped
        } else {
            Part::Cause
        },
        fault,
        moves,
        confirm: None,
        remedy: remedy(entry),
        looks_like: shape.looks_like,
        cautions: words::cautions(&shape.cautions),
        reference: shape.reference,
        source: source.or_else(|| tree.around.source.map(str::to_owned)),
    };
    (chance, cause)
}

fn chance(
    entry: &Located<'_>,
    shape: &Shape,
    tree: &Exposed<'_>,
    problems: &mut Vec<Problem>,
    title: &mut Option<String>,
    source: &mut Option<String>,
) -> Chance {
    let forms = forms::standing(&[
        ("fault", shape.fault.is_some()),
        ("rate", shape.rate.is_some()),
        ("chance", shape.chance.is_some()),
        ("seen", shape.seen.is_some()),
    ]);
    let nothing = Chance::PerParking(0.0);
    match forms[..] {
        ["fault"] => match part_fault(entry, tree) {
            Ok(Some(fault)) => {
                title.get_or_insert_with(|| fault.title.clone());
                if source.is_none() {
                    source.clone_from(&fault.source);
                }
                from_rate(entry, shape, tree, fault.rate, problems)
            }
            Ok(None) if tree.around.aircraft.is_some() => Chance::Dropped,
            // Without an aircraft only the structure is looked at.
            Ok(None) => nothing,
            Err(problem) => {
                problems.push(problem);
                nothing
            }
        },
        ["rate"] => {
            let text = shape.rate.as_deref().unwrap_or_default();
            let rate = quantity(text, Dimension::Rate, entry.place_of("rate"));
            match rate.ok().and_then(|rate| Rate::new(rate.si())) {
                Some(rate) => from_rate(entry, shape, tree, rate, problems),
                None => nothing,
            }
        }
        ["chance"] => Chance::PerParking(shape.chance.unwrap_or_default()),
        ["seen"] => seen(entry, shape, tree, problems),
        _ => {
            let found = forms::found(&forms, "no fault, rate, chance or count");
            let message = format!("event `{}` has {found}", entry.key);
            let problem = Problem::new(code::EVENT_CHANCE, entry.place(), message);
            problems.push(problem.hint("write exactly one of `fault`, `rate`, `chance`, `seen`"));
            nothing
        }
    }
}

/// The fault of the aircraft that an event names; `None` where the aircraft lacks the part.
fn part_fault<'a>(entry: &Located<'_>, tree: &Exposed<'a>) -> Result<Option<&'a Fault>, Problem> {
    let text = entry
        .field("fault")
        .and_then(|f| f.node.text())
        .unwrap_or_default();
    let place = entry.place_of("fault");
    let Some((role, fault)) = text.split_once('/') else {
        let message = format!("`{text}` is not a part and its fault");
        return Err(Problem::new(code::UNKNOWN_FAULT, place, message)
            .hint("write `role/fault`, such as `park-valve/jammed-open`"));
    };
    let Some(aircraft) = tree.around.aircraft else {
        return Ok(None);
    };
    let Some(part) = aircraft.part_for(role) else {
        // A role the tree declares may be missing on an aircraft; a misspelt one may not.
        if tree.roles.iter().any(|known| known == role) {
            return Ok(None);
        }
        let mut known: Vec<&str> = tree.roles.iter().map(String::as_str).collect();
        known.extend(aircraft.parts.iter().map(|part| part.id.as_str()));
        let message = format!("`{role}` is neither a role of this tree nor a part of the aircraft");
        return Err(Problem::new(code::ROLE, place, message).suggest(role, &known));
    };
    part.fault(fault).map(Some).ok_or_else(|| {
        let known: Vec<&str> = part.faults.iter().map(|fault| fault.id.as_str()).collect();
        let message = format!("part `{}` has no fault `{fault}`", part.id);
        Problem::new(code::UNKNOWN_FAULT, place, message).suggest(fault, &known)
    })
}

fn from_rate(
    entry: &Located<'_>,
    shape: &Shape,
    tree: &Exposed<'_>,
    rate: Rate,
    problems: &mut Vec<Problem>,
) -> Chance {
    let own = shape.exposure.as_deref().and_then(|text| {
        let exposure = quantity(text, Dimension::Time, entry.place_of("exposure"));
        Seconds::new(exposure.ok()?.si())
    });
    let Some(exposure) = own.or(tree.exposure) else {
        let message = format!("`{}` has a rate and no exposure", entry.key);
        let problem = Problem::new(code::EXPOSURE, entry.place(), message);
        problems.push(problem.hint("add `exposure: 100 h` to the event or to the tree"));
        return Chance::PerParking(0.0);
    };
    Chance::PerParking(Probability::from_rate(rate, exposure).value())
}

fn seen(
    entry: &Located<'_>,
    shape: &Shape,
    tree: &Exposed<'_>,
    problems: &mut Vec<Problem>,
) -> Chance {
    let Some(seen) = shape.seen else {
        return Chance::PerParking(0.0);
    };
    if seen.of == 0 || seen.count > seen.of {
        let message = format!("{} of {} is not a share", seen.count, seen.of);
        let problem = Problem::new(code::SHARES, entry.place_of("seen"), message);
        problems.push(problem.hint("`of` is above 0, and `count` at most `of`"));
        return Chance::PerParking(0.0);
    }
    let given = shape.given.as_deref().and_then(|text| {
        let place = entry.place_of("given");
        tree.around
            .names
            .node(text, tree.around.conditions, place)
            .map_err(|problem| problems.push(problem))
            .ok()
    });
    let share = f64::from(seen.count) / f64::from(seen.of);
    Chance::Seen { share, given }
}

fn remedy(entry: &Located<'_>) -> Option<Remedy> {
    let field = entry.field("remedy")?;
    if field.node.text() == Some("none") {
        return Some(Remedy::Nothing);
    }
    let work: shape::tree::Remedy = shape::read(field.node).ok()?;
    Some(Remedy::Work {
        instruction: work.instruction,
        minutes: work.minutes,
        people: work.people,
        puts_back: words::closings(&work.puts_back),
    })
}

/// When it moves the aircraft, as the author says it.
fn moves(entry: &Located<'_>, problems: &mut Vec<Problem>) -> Option<Moves> {
    let field = entry.field("moves")?;
    match field.node.text() {
        Some("at-once") => return Some(Moves::AtOnce),
        Some("as-designed") => return Some(Moves::AsDesigned),
        _ => {}
    }
    let mut ends = Vec::new();
    for item in field.node.items() {
        let place = Place::new(entry.file, item.bytes.clone());
        match quantity(item.text().unwrap_or_default(), Dimension::Time, place) {
            Ok(time) => ends.push(time.si() / 3600.0),
            Err(problem) => {
                problems.push(problem);
                return None;
            }
        }
    }
    if let [low, high] = ends[..]
        && 0.0 < low
        && low < high
    {
        return Some(Moves::Between(low, high));
    }
    let message = "`moves` is none of `at-once`, `as-designed` and a range of times";
    let problem = Problem::new(code::MOVES, field.value_place(), message);
    problems.push(problem.hint("write `at-once`, `as-designed` or `[0.1 h, 8 h]`"));
    None
}
