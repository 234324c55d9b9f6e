//! The aircraft drawn: the picture where there is room, and every part in a list below it.

use crate::base::text::pad;
use crate::base::unit::Unit;
use crate::console::page::{Page, Role};
use crate::console::schematic::{Drawn, Scene, draw, mark, word};
use crate::console::state::State;
use crate::diagnosis::ranking::of_100;
use crate::diagnosis::standing_of_parts::Standing;
use crate::plant::handle::Leg;

/// The smallest window that has room for the picture: columns, rows.
const PICTURE: (usize, usize) = (50, 16);
/// Rows of the list that stay in sight below the picture.
const LISTED: usize = 5;

/// Writes the screen. Enter on a part opens its most probable cause.
pub fn write(page: &mut Page, state: &State, rows: usize) {
    let Some(scene) = Scene::of(&state.job, state.sheet) else {
        page.text("The tree names no aircraft that could be drawn.");
        return;
    };
    let order = in_order(&scene);
    let marked = state.marked.and_then(|nth| order.get(nth).copied());
    let fault = scene.fault_shown(&state.job, marked);
    let scene = scene.draining(&state.job, fault);
    let has_room = page.columns >= PICTURE.0 && rows >= PICTURE.1 && rows < usize::MAX;
    page.row_of(Role::Strong, &heading(state));
    let mut below = Page::new(page.columns);
    drains(&mut below, state, &scene);
    legend(&mut below, has_room);
    if has_room {
        let room = rows.saturating_sub(1 + below.rows.len() + LISTED);
        let size = (page.columns, room);
        let lines = state.preferences.lines;
        let picture = draw(&scene, state.zoom, lines, size, marked);
        for row in picture {
            page.row(&row);
        }
    }
    page.rows.append(&mut below.rows);
    if has_room {
        page.fix();
    }
    let parts = order.iter().filter_map(|place| scene.part(*place));
    for part in parts {
        page.item(part.place, &line(part));
    }
}

fn heading(state: &State) -> String {
    format!(
        "{}, healthy, half an hour on. Not to scale.",
        state.sheet.word()
    )
}

/// Suspects and what stands out first, then the order of the document.
fn in_order(scene: &Scene) -> Vec<usize> {
    let mut parts: Vec<&Drawn> = scene.parts.iter().collect();
    let weight = |part: &Drawn| part.likeliest.map_or(0.0, |(_, share)| share);
    let first = |part: &Drawn| matches!(part.standing, Standing::Bad | Standing::Next);
    parts.sort_by(|a, b| {
        let by_share = weight(b).total_cmp(&weight(a));
        first(b)
            .cmp(&first(a))
            .then(by_share)
            .then(a.place.cmp(&b.place))
    });
    parts.into_iter().map(|part| part.place).collect()
}

fn line(part: &Drawn) -> String {
    let share = part.likeliest.map(|(_, share)| of_100(share));
    let share = share
        .filter(|share| *share >= 1)
        .map_or(String::new(), |s| s.to_string());
    format!(
        "[{}] {share:>3} {} {}, {}",
        mark(part.standing),
        pad(&part.code, 6),
        part.title,
        word(part.standing)
    )
}

/// Where the leading cause lets the store go beside a healthy aircraft, part by part.
fn drains(page: &mut Page, state: &State, scene: &Scene) {
    let Some((event, legs)) = &scene.drain else {
        return;
    };
    let model = state.job.model();
    let title = &model.causes[*event].title;
    if legs.is_empty() {
        page.text(&format!(
            "With \"{title}\" nothing leaves the store beyond what leaves a healthy one."
        ));
        return;
    }
    let way: Vec<String> = legs.iter().map(|leg| leg_words(state, leg)).collect();
    page.text(&format!(
        "With \"{title}\" the store goes: {}.",
        way.join(" > ")
    ));
}

fn leg_words(state: &State, leg: &Leg) -> String {
    let aircraft = state.job.model().aircraft.as_deref();
    let part = aircraft.and_then(|aircraft| aircraft.parts.get(leg.part));
    let title = part.map_or("?", |part| part.title.as_str());
    let flow = Unit::find("mL/min").map_or(0.0, |unit| unit.from_si(leg.flow));
    let bar = leg.pressures.1 / 1e5;
    if leg.overboard {
        return format!("{title} {flow:.0} mL/min overboard");
    }
    format!("{title} {flow:.0} mL/min to {:.0} bar", bar.max(0.0))
}

fn legend(page: &mut Page, picture: bool) {
    if picture {
        page.row("== under pressure, live or moved  -- not  ~~ where the store goes");
    }
    page.row("[?] suspect of 100 [>] next [=] good [#] proof stands [-] cannot");
}
