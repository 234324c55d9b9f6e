//! Where the fluid is and where it went, and what holds the aircraft.

use crate::base::text::pad;
use crate::base::unit::BAR;
use crate::console::bench::state::State;
use crate::console::page::{Page, Role};
use crate::plant::account::Balance;
use crate::plant::aircraft::Aircraft;
use crate::plant::handle::Handle;

/// Cubic centimetres in 1 m3.
const CM3: f64 = 1e6;
/// Newtons in 1 kN.
const KN: f64 = 1e3;

/// Writes the pane.
pub fn write(page: &mut Page, state: &State) {
    let (plant, twin) = (state.play.plant(), state.play.twin());
    let title = page.columns.saturating_sub(24).clamp(14, 40);
    let heading = format!(
        "{} {:>10} {:>10}",
        pad("Account, cm3", title),
        "here",
        "healthy"
    );
    page.row_of(Role::Strong, &heading);
    let (here, healthy) = (plant.balance(), twin.balance());
    let rows = lines(state.play.aircraft(), &here);
    for ((words, volume), (_, other)) in rows.iter().zip(lines(state.play.aircraft(), &healthy)) {
        // Adding zero after rounding turns a negative zero into a plain one.
        let whole = |volume: f64| (volume * CM3).round() + 0.0;
        let (volume, other) = (whole(*volume), whole(other));
        page.row(&format!("{} {volume:>10} {other:>10}", pad(words, title)));
    }
    page.text(&closes(&here));
    page.blank();
    page.text(&holds(plant));
    page.text(&format!("Healthy twin: {}", holds(twin)));
}

fn lines(aircraft: &Aircraft, balance: &Balance) -> Vec<(String, f64)> {
    let mut rows = vec![
        ("Stored under pressure".to_owned(), balance.stored),
        ("Stored, change".to_owned(), balance.stored_change),
    ];
    for (id, gained) in &balance.reservoirs {
        let part = aircraft.parts.iter().find(|part| part.id == *id);
        let title = part.map_or(id.as_str(), |part| part.title.as_str());
        rows.push((format!("To {title}"), *gained));
    }
    rows.push(("Overboard".to_owned(), balance.overboard));
    let gained: f64 = balance.reservoirs.iter().map(|(_, gained)| gained).sum();
    let all = balance.stored_change + gained + balance.overboard;
    rows.push(("Sum, which should be 0".to_owned(), all));
    rows
}

/// Whether the account closes, in cm3.
fn closes(balance: &Balance) -> String {
    let amiss = balance.amiss.abs() * CM3;
    if amiss < 1e-3 {
        return "It closes within 0.001 cm3.".to_owned();
    }
    format!("It does not close: {amiss:.3} cm3 are amiss.")
}

/// What pushes, what holds, and from which pressure on.
pub fn holds(plant: &Handle) -> String {
    let push = plant.ground().push.force() / KN;
    let rolled = plant.motion().metres;
    let excess = plant.excess() / KN;
    let from = plant.holds_from().map(|pressure| pressure / BAR);
    let needs = from.map_or("it stands without brakes".to_owned(), |bar| {
        format!("brakes hold it from {bar:.1} bar on")
    });
    let now = if excess > 0.0 {
        format!("IT MOVES, {excess:.1} kN left over")
    } else {
        format!("it stands, {:.1} kN in hand", -excess)
    };
    let rolled = if rolled > 0.0 {
        format!("; rolled {rolled:.1} m")
    } else {
        String::new()
    };
    format!("{push:.1} kN push it, {needs}; {now}{rolled}.")
}
