//! What a cause does inside the aircraft, as the screen of a cause says it.

use crate::console_keys::press;
use crate::console_screens::at_questions;
use stillwheel::console::layout::Room;
use stillwheel::console::screens;
use stillwheel::console::state::{Screen, State};
use stillwheel::diagnosis::mechanism::Mechanism;
use stillwheel::report::mechanism_text::{healthy_lines, mechanism_lines};

fn of(state: &State, id: &str) -> (std::sync::Arc<Mechanism>, String) {
    let model = state.job.model();
    let event = model.cause(id).unwrap();
    let found = state
        .job
        .inference()
        .mechanism(state.job.evidence(), Some(event));
    let found = found.unwrap_or_else(|| panic!("{id} puts no fault in"));
    let aircraft = model.aircraft.as_deref().unwrap();
    let lines = mechanism_lines(aircraft, &found, model.moves);
    (found, lines.join("\n"))
}

/// A sentence of each sort of mechanism, and where the plant must lead to it.
#[test]
fn every_sort_of_mechanism_is_told_by_what_the_plant_shows() {
    let state = at_questions();
    for (id, wanted) in [
        (
            "brake-seal-leaks",
            ["L3 brake, piston seal: ", "something wet to find"],
        ),
        (
            "valve-leaks-outside",
            ["Park shut-off valve, shaft: ", "something wet to find"],
        ),
        (
            "valve-seat-leaks",
            ["Park shut-off valve, seat: ", "Nothing is wet outside"],
        ),
        (
            "latch-switch-open",
            ["0.0 V, healthy 24.0 V", "Nothing is wet outside"],
        ),
        ("gas-lost", ["gas of the store", "another charge of gas"]),
        (
            "gas-core-loose",
            ["gas of the store", "Gas is lost, not fluid"],
        ),
        (
            "isolation-valve-stuck-shut",
            ["lowest brake", "does not reach them"],
        ),
        (
            "lever-rod-broken",
            [
                "Park lever to Park latch 0 % of its travel",
                "before you look for a leak",
            ],
        ),
        ("pawl-worn", ["After 2.0 h: ", "lets go by itself"]),
        (
            "closed-switch-does-not-make",
            ["off, healthy on", "compare what is shown"],
        ),
        (
            "lamp-dead",
            ["as a healthy one does", "only a check of its own finds it"],
        ),
    ] {
        let (_, text) = of(&state, id);
        for part in wanted {
            assert!(text.contains(part), "{id}: no `{part}` in\n{text}");
        }
    }
}

/// The figures are those of the plant: the leak of the demo brake is 10 mL/min (invented) at the
/// pressure behind it, and what it takes is missing in the store.
#[test]
fn the_figures_are_those_of_the_plant() {
    let state = at_questions();
    let (leak, text) = of(&state, "brake-seal-leaks");
    let way = leak.ways.iter().find(|way| way.overboard).unwrap();
    assert!((9.0..11.0).contains(&(way.with * 6e7)), "{way:?}");
    assert!(way.healthy.abs() * 6e7 < 0.1, "{way:?}");
    let (healthy, with) = leak.later;
    assert!(with.gas.unwrap() < healthy.gas.unwrap() - 10e5, "{leak:?}");
    let moved = |hours: Option<f64>| hours.unwrap();
    assert!(moved(leak.lasts.1.to_movement) < moved(leak.lasts.0.to_movement) / 2.0);
    let said = format!("{:.1} h", moved(leak.lasts.0.to_movement));
    assert!(text.contains(&format!("would have held {said}")), "{text}");
}

/// The in-limit leaks that are named are what the store loses.
#[test]
fn why_a_healthy_one_holds_rests_on_its_leaks() {
    let mut state = at_questions();
    let model = state.job.model().clone();
    let healthy = state
        .job
        .inference()
        .mechanism(state.job.evidence(), None)
        .unwrap();
    let sum: f64 = healthy.leaks.iter().map(|way| way.with).sum::<f64>() * 6e7;
    let aircraft = model.aircraft.as_deref().unwrap();
    let lines = healthy_lines(aircraft, &healthy, model.moves).join("\n");
    assert!(
        lines.contains(&format!("loses {sum:.1} mL/min by its in-limit leaks")),
        "{lines}"
    );
    let hours = healthy.lasts.0.to_movement.unwrap();
    assert!(
        lines.contains(&format!(
            "after {hours:.1} h: until then it would have held"
        )),
        "{lines}"
    );
    // A steeper stand needs more pressure, and holds shorter.
    let condition = model
        .tree
        .conditions
        .iter()
        .position(|c| c.id == "slope")
        .unwrap();
    let word = Some("2 %".to_owned());
    let what = stillwheel::session::entry::What::Condition { condition, word };
    let now = state.now;
    stillwheel::console::commit::commit(&mut state, what, now, &mut |_| Ok(()));
    let steep = state
        .job
        .inference()
        .mechanism(state.job.evidence(), None)
        .unwrap();
    assert!(steep.lasts.0.to_movement.unwrap() < hours);
    assert!(steep.lasts.0.brake_then.unwrap() > healthy.lasts.0.brake_then.unwrap());
}

#[test]
fn the_page_of_a_cause_holds_it_in_a_window_and_line_by_line() {
    let mut state = at_questions();
    let model = state.job.model().clone();
    let heading = "What happens inside, by the plant of this aircraft document";
    let mut page = |id: &str, columns: usize| {
        state.screen = Screen::Cause(model.cause(id).unwrap());
        let page = screens::page(&state, Room::One, columns, usize::MAX);
        page.rows
            .iter()
            .map(|row| row.text.clone())
            .collect::<Vec<_>>()
            .join("\n")
    };
    for columns in [20, 40, 78] {
        let text = page("brake-seal-leaks", columns);
        assert!(
            text.lines().all(|line| line.len() <= columns.max(30)),
            "{text}"
        );
    }
    let text = page("brake-seal-leaks", 78);
    assert!(
        text.contains(heading) && text.contains("in-limit leaks"),
        "{text}"
    );
    let designed = page("ran-down-as-designed", 78);
    assert!(
        designed.contains("until then it would have held"),
        "{designed}"
    );
    assert!(!page("let-go-by-a-person", 78).contains(heading));
    press(&mut state, "<");
}
