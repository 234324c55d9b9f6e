//! The bench line by line: the typed commands of the same table, for pipes and dumb terminals.
//!
//! No escape byte, no line over 78 columns; the same lines give the same text, byte for byte.

use std::io;

use super::app::{Files, done};
use super::effect::Effect;
use super::panes;
use super::state::{Pane, State};
use super::table::{Act, by_word};
use super::update::typed;
use crate::base::text::plural;
use crate::base::unit::BAR;
use crate::base::unit::PSI;
use crate::console::page::Role;
use crate::console::plain::Lines;
use crate::plant::course::{Point, clock};
use crate::plant::handle::Handle;
use crate::report::parking_text::NOT_APPROVED;

const COLUMNS: usize = 78;

/// Takes lines until somebody leaves or the input ends.
pub fn run(state: &mut State, lines: &mut Lines<'_>, files: &mut Files<'_>) -> io::Result<()> {
    let title = state.play.aircraft().title.clone();
    lines.say(&format!("Bench: {title}."))?;
    for said in std::mem::take(&mut state.said) {
        lines.say(&said)?;
    }
    lines.say("One command a line; help lists them, quit leaves.")?;
    status(state, lines)?;
    while let Some(line) = lines.read()? {
        if line.is_empty() || line.starts_with('#') {
            continue;
        }
        let act = by_word(&line).ok();
        let alone = act.as_ref().is_some_and(|(_, rest)| rest.is_empty());
        let act = act.map(|(act, _)| act);
        if act == Some(Act::Run) && alone {
            lines.say("Write run and a time, such as run 8 h, or run until moves.")?;
            continue;
        }
        let (now, before) = (state.play.now(), state.play.course().clone());
        let effect = typed(state, &line);
        // What the screen asks further is typed whole here.
        state.input = None;
        match effect {
            Some(Effect::Leave) => return lines.say("Left."),
            Some(Effect::Suspend) | None => {}
            Some(file) => {
                done(state, &file, files);
            }
        }
        for said in std::mem::take(&mut state.said) {
            lines.say(&said)?;
        }
        if let Some(act) = act {
            shown(state, lines, act)?;
        }
        if now != state.play.now() || before != *state.play.course() {
            status(state, lines)?;
        }
    }
    lines.say("End of input.")
}

/// Prints what a command shows.
fn shown(state: &State, lines: &mut Lines<'_>, act: Act) -> io::Result<()> {
    let panes: &[Pane] = match act {
        Act::Show(Pane::Controls) => &[Pane::Controls],
        Act::Show(Pane::Faults) => &[Pane::Faults],
        Act::Show(Pane::Schematic) | Act::Sheet => &[Pane::Schematic],
        Act::Show(Pane::Plot) => &[Pane::Plot],
        Act::Show(Pane::Account) => &[Pane::Account],
        Act::Show(Pane::Help) => &[Pane::Help],
        Act::Show(Pane::Readings) | Act::Try | Act::Differ => &[Pane::Readings],
        Act::ShowAll => &[Pane::Readings, Pane::Account],
        _ => &[],
    };
    for pane in panes {
        if *pane == Pane::Readings {
            readings(state, lines)?;
            continue;
        }
        let page = panes::page(state, *pane, COLUMNS, usize::MAX);
        for row in page.rows.iter().filter(|row| row.role != Role::Rule) {
            lines.say(&row.text)?;
        }
    }
    Ok(())
}

/// Readings whole, one a line: nothing is cut here.
fn readings(state: &State, lines: &mut Lines<'_>) -> io::Result<()> {
    let looks = state.shown.len();
    let tried = state.tried.iter().flat_map(|tried| &tried.shown);
    for (place, row) in state.shown.iter().chain(tried).enumerate() {
        if place == looks
            && let Some(when) = state.tried_when()
        {
            lines.say(&format!("{when}:"))?;
        }
        if row.dead || state.only_different && !row.differs {
            continue;
        }
        let (mark, healthy) = if row.differs {
            ('*', format!(" (healthy: {})", row.healthy))
        } else {
            (' ', String::new())
        };
        lines.say(&format!("{mark} {}: {}{healthy}", row.title, row.found))?;
    }
    lines.say(&format!(
        "{} from the healthy twin.",
        plural(state.differences(), "difference")
    ))
}

/// Everything at the end of a course: where it stands, every reading, the account.
pub fn report(state: &State, lines: &mut Lines<'_>) -> io::Result<()> {
    let aircraft = state.play.aircraft();
    lines.say(&format!("{}. {}", aircraft.title, aircraft.note))?;
    status(state, lines)?;
    shown(state, lines, Act::ShowAll)?;
    lines.say(NOT_APPROVED)
}

/// Where it stands, in a line for each aircraft.
fn status(state: &State, lines: &mut Lines<'_>) -> io::Result<()> {
    let time = clock(state.play.now());
    lines.say(&format!("At {time}: {}", stands(state.play.plant())))?;
    if state.play.differs() {
        lines.say(&format!("Healthy twin: {}", stands(state.play.twin())))?;
    }
    Ok(())
}

fn stands(plant: &Handle) -> String {
    let point = Point::of(plant);
    let psi = point.gas * BAR / PSI;
    let (clamped, all) = plant.clamped();
    let moves = if plant.excess() > 0.0 {
        "MOVES"
    } else {
        "stands"
    };
    format!(
        "gas side {:.1} bar ({psi:.0} psi), brakes {}, {clamped} of {all} clamped, {moves}.",
        point.gas + 0.0,
        brakes(&point)
    )
}

/// `96.2 bar`, or from the least to the most.
fn brakes(point: &Point) -> String {
    let (least, most) = (point.least + 0.0, point.most + 0.0);
    if most - least < 0.1 {
        return format!("{most:.1} bar");
    }
    format!("{least:.1} to {most:.1} bar")
}
