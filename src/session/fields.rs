//! Everything a job asks beside checks and conditions, in its order. Adding a field is one row.
//!
//! The order of the intake is that of the first twenty questions of the trade: people, chocks,
//! identity, then what the first pump start would erase, then how it was parked.

use super::field::{Field, Form, Section};

const fn field(
    id: &'static str,
    section: Section,
    form: Form,
    ask: &'static str,
    how: &'static str,
) -> Field {
    Field {
        id,
        section,
        ask,
        how,
        form,
        must: false,
        lock: None,
        after_chocks: false,
    }
}

#[expect(
    clippy::needless_pass_by_value,
    reason = "a constant is taken apart, not copied"
)]
const fn after_chocks(field: Field) -> Field {
    Field {
        after_chocks: true,
        ..field
    }
}

#[expect(
    clippy::needless_pass_by_value,
    reason = "a constant is taken apart, not copied"
)]
const fn must(field: Field) -> Field {
    Field {
        must: true,
        ..field
    }
}

#[expect(
    clippy::needless_pass_by_value,
    reason = "a constant is taken apart, not copied"
)]
const fn opens(lock: &'static str, field: Field) -> Field {
    Field {
        lock: Some(lock),
        ..field
    }
}

use Form::{OutOfTen, Pressure, Temperature, Text, Time, YesNo};
use Section as S;

/// Every field.
// A row of a table reads better on one line than on six.
#[rustfmt::skip]
pub const FIELDS: &[Field] = &[
    must(field("hurt", S::Safety, YesNo, "Anyone hurt, anything hit, or is it still moving?", "People first. A yes freezes the scene until those in charge give it free.")),
    opens("chocks", must(field("nose-chocks", S::Safety, YesNo, "Nose chocks IN, both ways, snug?", "From the side. Nobody in front of or behind any wheel until this is done."))),
    opens("chocks", must(field("main-chocks", S::Safety, YesNo, "Main chocks IN, both ways, ice cleared under tyre and chock?", "Only after the nose, and after heat was judged from a distance."))),
    opens("flight-deck", field("flight-deck", S::Safety, YesNo, "Flight deck held by a named person, or shut and tagged?", "Park lever, pump switches and ground cart: DO NOT OPERATE.")),
    opens("pump-state", field("pump-state", S::Safety, YesNo, "Pump switches read and written down?", "Read only. Pumping up now would erase the pressure and how fast it fell.")),
    after_chocks(field("chocks-by", S::Safety, Text, "Who saw the chocks in, and when?", "Name and time. It stands first in the hand-over.")),
    field("frozen-people", S::Frozen, YesNo, "People cared for, help called?", "Nothing else counts until this is done."),
    field("frozen-scene", S::Frozen, YesNo, "Scene frozen: no power, no recharge, no tow, nobody aboard?", "Nose chocks from the side if it can be done safely. Aircraft, records and recordings are preserved (49 CFR 830.10; other States have their like)."),
    field("frozen-told", S::Frozen, Text, "Who was told, and when?", "The duty manager first. Names and times."),
    must(field("aircraft", S::Aircraft, Text, "Which aircraft is this? Read it off the aircraft.", "As it stands on the aircraft, not as it stands in the call.")),
    must(field("right-one", S::Aircraft, YesNo, "Is that the aircraft of the report?", "A no ends the job as a wrong report.")),
    field("stand", S::Aircraft, Text, "Stand or place?", "Where it stands now, and where it stood before."),
    field("reporter", S::Aircraft, Text, "Who reported it, in which words, and when?", "The words as they were said."),
    field("lever-as-found", S::Evidence, Text, "Park lever and both seats' pedals: where, when first seen, by whom?", "Look, do not nudge."),
    after_chocks(field("pressure-as-found", S::Evidence, Pressure, "Pressure on the gas side of the store now, with its unit?", "Gear pins and door locks in before the well. Before any pump runs. Steady at precharge means EMPTY.")),
    after_chocks(field("temperature-as-found", S::Evidence, Temperature, "Temperature at the gas side, with its unit?", "C or F. It moves the reading.")),
    field("gauges-as-found", S::Evidence, Text, "Every other gauge: which, which side, what, when?", "With instrument number where it has one."),
    field("pumps-as-found", S::Evidence, Text, "Pump switches, ground power and battery switch: which positions?", "As read, before anybody touched them."),
    field("indications", S::Evidence, Text, "Light, caption, valve indicator, breaker: what, with what power on?", "Push nothing."),
    field("marks-as-found", S::Evidence, Text, "Marks on tyres, ground and chocks; photo numbers?", "Before anybody tows it back."),
    field("aboard", S::Details, Text, "Who is aboard or under it; tug, steps or bridge attached?", ""),
    field("touched", S::Details, Text, "What was touched, moved or towed since it was found?", ""),
    field("power-history", S::Details, Text, "Battery, breakers and ground power since it was set; ever disconnected?", ""),
    field("shutdown", S::Details, Text, "Crew's reading and time at shutdown; lever before or after pumps off?", ""),
    field("motion", S::Details, Text, "Rolled or slid; which way, how far, what stopped it?", ""),
    field("seen", S::Details, Text, "Last seen still, by whom; first seen moved?", "Two times, not one."),
    field("chock-history", S::Details, Text, "Chocks earlier: fitted, gap, removed by whom, on whose word?", ""),
    field("surroundings", S::Details, Text, "Slope, surface, wind, jet blast; warmest and coldest since?", ""),
    field("use", S::Details, Text, "Loading, fuelling, washing, de-icing, flap or door use after shutdown?", ""),
    field("fluid", S::Details, Text, "Fluid: where, which wheel; both reservoirs against the log?", "Touch nothing with a bare hand."),
    field("last-work", S::Details, Text, "Last work here, last gas service, open deferrals, pins or blanks?", ""),
    field("before", S::Details, Text, "Before on this one, or on its sisters?", ""),
    field("means", S::Details, Text, "Departure time, people, tools, parts, approved data at hand; who has been told?", ""),
    field("idea", S::Idea, Text, "What do you think it is?", "Kept for the debrief; it does not change the causes."),
    field("idea-sure", S::Idea, OutOfTen, "How sure, of 10?", ""),
    field("work-done", S::Work, Text, "Work done, with task reference and revision?", "Facts only."),
    field("part-off", S::Work, Text, "Part off: name, serial, reason?", ""),
    field("part-on", S::Work, Text, "Part on: name, serial?", ""),
    field("opened", S::Work, Text, "What was opened, blanked or collared, and what closed it?", ""),
    field("leak-down-limit", S::Proof, Text, "Leak-down limit and time, from approved data?", "Typed by you. This program supplies none."),
    field("leak-down-reference", S::Proof, Text, "Reference of that limit, with revision?", ""),
    field("leak-down-start", S::Proof, Pressure, "Pressure at the start, with unit?", "Ten minutes after pumps off."),
    field("leak-down-end", S::Proof, Pressure, "Pressure at the end, with unit?", ""),
    field("leak-down-time", S::Proof, Time, "Time between the two, with unit?", ""),
    field("leak-down-within", S::Proof, YesNo, "Within the approved limit?", ""),
    field("deferral", S::Deferral, Text, "Which approved item, what it asks, log entry number?", "Placard, chocks, crew told."),
    field("tools", S::TidyUp, YesNo, "Tools, jars and lights counted?", ""),
    field("panels", S::TidyUp, YesNo, "Panels closed, blanks and rig pins out?", ""),
    field("tags", S::TidyUp, YesNo, "Tags and breaker collars off, or written down as left?", ""),
    field("inspections", S::TidyUp, YesNo, "Inspections after an uncommanded roll done or entered?", "Tow bar, nose gear, tyres, contact."),
    field("log-entry", S::TidyUp, Text, "Log-book entry number?", "This program is not the record."),
    field("chocks-left", S::TidyUp, YesNo, "Chocks still IN?", "They come out last, on a live pressure read by name."),
    field("takes-over", S::HandOver, Text, "Who takes over?", "0 where nobody does."),
    field("open-now", S::HandOver, Text, "What is open, blanked, collared, tagged, and must not be energised?", ""),
    field("next-step", S::HandOver, Text, "Next step, and its lock?", ""),
    field("ring", S::HandOver, Text, "Whom to ring; parts and tools out?", ""),
    field("read-back-safe", S::HandOver, Text, "Read-back by the next person: it cannot roll because ...", "In his own words."),
    field("read-back-first", S::HandOver, Text, "Read-back: the first thing I will do is ...", ""),
    field("read-back-not", S::HandOver, Text, "Read-back: I must not ...", ""),
    field("accepted", S::HandOver, YesNo, "Accepted by the next person?", ""),
];

/// The place of a field.
pub fn place(id: &str) -> Option<usize> {
    FIELDS.iter().position(|field| field.id == id)
}

/// Places of the fields of a section, in order.
pub fn of(section: Section) -> impl Iterator<Item = usize> {
    let all = FIELDS.iter().enumerate();
    all.filter(move |(_, field)| field.section == section)
        .map(|(at, _)| at)
}
