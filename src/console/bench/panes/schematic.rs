//! The aircraft drawn as it stands, and every part of the sheet below it.

use crate::base::text::pad;
use crate::base::unit::BAR;
use crate::base::unit::Unit;
use crate::console::bench::state::{Pane, State};
use crate::console::page::{Page, Role};
use crate::console::schematic::{Scene, draw, mark};
use crate::diagnosis::standing_of_parts::Standing;
use crate::plant::handle::{Handle, Leg};

/// The smallest pane that has room for the picture: columns, rows.
const PICTURE: (usize, usize) = (50, 12);
/// Rows of the list that stay in sight below the picture.
const LISTED: usize = 4;

/// Writes the pane.
pub fn write(page: &mut Page, state: &State, rows: usize) {
    let plant = state.play.plant();
    let course = state.play.course();
    let faults = course.faults();
    let faulty = |part: &str| {
        let mut names = faults.iter().filter_map(|(name, _)| name.split_once('/'));
        names.any(|(known, _)| known == part)
    };
    let scene = Scene::standing(plant, state.sheet, &faulty);
    page.row_of(
        Role::Strong,
        &format!("{}, as it stands. Not to scale.", state.sheet.word()),
    );
    let mut below = Page::new(page.columns);
    below.text(&drains(plant));
    let has_room = page.columns >= PICTURE.0 && rows >= PICTURE.1 && rows < usize::MAX;
    if has_room {
        below.row("== under pressure, live or moved  -- not  ~~ where the store goes  [#] fault");
        let own = state.pane == Pane::Schematic;
        let listed = if own { LISTED } else { 0 };
        let room = rows.saturating_sub(1 + below.rows.len() + listed);
        let parts = &scene.parts;
        let marked = parts.get(if own { state.marked() } else { usize::MAX });
        let store = parts.iter().find(|part| is_store(plant, part.place));
        let in_sight = marked.or(store).map(|part| part.place);
        let lines = state.preferences.lines;
        for row in draw(&scene, state.zoom, lines, (page.columns, room), in_sight) {
            page.row(&row);
        }
    }
    if !has_room {
        page.fix();
    }
    page.rows.append(&mut below.rows);
    if has_room {
        page.fix();
    }
    for (place, part) in scene.parts.iter().enumerate() {
        let sign = if part.standing == Standing::Bad {
            mark(Standing::Bad)
        } else {
            ' '
        };
        let pressure = pressures(plant, part.place);
        let line = format!("[{sign}] {} {}{pressure}", pad(&part.code, 6), part.title);
        page.item(place, &line);
    }
}

fn is_store(plant: &Handle, place: usize) -> bool {
    let part = plant.aircraft().parts.get(place);
    part.is_some_and(|part| part.kind.name == "accumulator")
}

/// The pressures at the ports of a part, in the order of its kind.
fn pressures(plant: &Handle, place: usize) -> String {
    let Some(part) = plant.aircraft().parts.get(place) else {
        return String::new();
    };
    let ports = part.kind.ports.iter();
    let known = ports.filter_map(|port| plant.pressure(&part.id, port.name));
    let bar: Vec<String> = known
        .map(|pressure| format!("{:.0}", pressure.pascals() / BAR + 0.0))
        .collect();
    if bar.is_empty() {
        return String::new();
    }
    format!(": {} bar", bar.join(" "))
}

/// Where the store goes just now, part by part.
pub fn drains(plant: &Handle) -> String {
    let legs = plant.drain();
    if legs.is_empty() {
        return "Nothing drains the store.".to_owned();
    }
    let words: Vec<String> = legs.iter().map(|leg| leg_words(plant, leg)).collect();
    format!("The store goes: {}.", words.join(" > "))
}

fn leg_words(plant: &Handle, leg: &Leg) -> String {
    let part = plant.aircraft().parts.get(leg.part);
    let title = part.map_or("?", |part| part.title.as_str());
    let flow = Unit::find("mL/min").map_or(0.0, |unit| unit.from_si(leg.flow));
    if leg.overboard {
        return format!("{title} {flow:.1} mL/min overboard");
    }
    let bar = (leg.pressures.1 / BAR).max(0.0);
    format!("{title} {flow:.1} mL/min to {bar:.0} bar")
}
