//! What a plant could not be solved with, found where it is written.

use super::located::Located;
use crate::authoring::yaml::Node;
use crate::base::dimension::Dimension;
use crate::base::quantity::Quantity;
use crate::plant::aircraft::{Parameter, Part};
use crate::plant::climate::possible_temperature;
use crate::plant::graph::{PartGraph, PortRef};
use crate::source::codes::aircraft as code;
use crate::source::codes::units::OUT_OF_RANGE;
use crate::source::place::{FileId, Place};
use crate::source::problem::Problem;

/// Nets that two parts hold at a pressure of their own. `links` are those the graph was made of.
pub fn two_supplies(
    file: FileId,
    links: &[Node],
    parts: &[Part],
    graph: &PartGraph,
    problems: &mut Vec<Problem>,
) {
    let holds = |port: &&PortRef| {
        let kind = parts[port.part].kind;
        kind.behaviour.holds().contains(&kind.ports[port.port].name)
    };
    for (net, link) in graph.nets().iter().zip(links) {
        let held: Vec<&PortRef> = net.ports.iter().filter(holds).collect();
        let Some(first) = held.first() else { continue };
        // A part may hold several ports of one net.
        for other in held.iter().filter(|port| port.part != first.part) {
            let place = |port: &PortRef| {
                let at = net.ports.iter().position(|known| known == port);
                let item = link.entries().first()?.value.items().get(at?)?;
                Some(Place::new(file, item.bytes.clone()))
            };
            let (Some(here), Some(there)) = (place(other), place(first)) else {
                continue;
            };
            let name = |port: &PortRef| {
                let part = &parts[port.part];
                format!("{}.{}", part.id, part.kind.ports[port.port].name)
            };
            let message = format!("`{}` and `{}` both feed one net", name(first), name(other));
            let problem = Problem::new(code::TWO_SUPPLIES, here, message);
            problems.push(
                problem
                    .second(there, "the other one")
                    .hint("join them through a check valve or a changer"),
            );
        }
    }
}

/// What is divided by, and is nothing: the room for gas, the stiffness of the fluid.
pub fn nothing(root: &Node, file: FileId, entries: &[Located<'_>], problems: &mut Vec<Problem>) {
    let fluid = root.entry("fluid").map(|entry| Located::of(file, entry));
    let stiffness = fluid.and_then(|fluid| fluid.field("bulk-modulus"));
    let rooms = entries.iter().filter_map(|entry| entry.field("gas-volume"));
    for field in rooms.chain(stiffness) {
        let text = field.node.text().unwrap_or_default();
        if Quantity::parse_any(text).is_ok_and(|quantity| quantity.si() <= 0.0) {
            let message = format!("`{text}` of `{}` is nothing", field.key);
            let problem = Problem::new(OUT_OF_RANGE, field.value_place(), message);
            problems.push(problem.hint("write a figure above 0"));
        }
    }
}

/// Air in which gas and fluid are not what the plant knows of them.
pub fn climate(root: &Node, file: FileId, problems: &mut Vec<Problem>) {
    let place = root.entry("environment").map(|e| Located::of(file, e));
    let Some(field) = place.and_then(|environment| environment.field("temperature")) else {
        return;
    };
    let text = field.node.text().unwrap_or_default();
    let known = |quantity: Quantity| possible_temperature(quantity.si());
    if Quantity::parse(text, Dimension::Temperature).is_ok_and(|quantity| !known(quantity)) {
        let message = format!("`{text}` is outside of -70 C to 100 C");
        let problem = Problem::new(OUT_OF_RANGE, field.value_place(), message);
        problems.push(problem.hint("look at the figure and at its unit"));
    }
}

/// Accumulators that are charged above what the strongest pump gives.
pub fn precharge(parts: &[Part], entries: &[Located<'_>], problems: &mut Vec<Problem>) {
    let given = |part: &Part, key: &str| {
        let found = part.parameters.iter().find(|(name, _)| *name == key);
        found.and_then(|(_, value)| match value {
            Parameter::Quantity(quantity) | Parameter::At(quantity, _) => Some(*quantity),
            Parameter::Number(_) | Parameter::Word(_) => None,
        })
    };
    let pumps = parts.iter().filter(|part| part.kind.name == "pump");
    let pressures = pumps.filter_map(|part| given(part, "pressure"));
    let strongest = pressures.max_by(|a, b| a.si().total_cmp(&b.si()));
    let Some(strongest) = strongest else { return };
    for part in parts.iter().filter(|part| part.kind.name == "accumulator") {
        let Some(charge) = given(part, "precharge").filter(|charge| charge.si() > strongest.si())
        else {
            continue;
        };
        let Some(entry) = entries.iter().find(|entry| entry.key == part.id) else {
            continue;
        };
        let message = format!("`{charge}` is above the `{strongest}` that the pumps give");
        let place = entry.place_of("precharge");
        let problem = Problem::new(code::PRECHARGE, place, message);
        problems.push(problem.hint(slip(charge, strongest)));
    }
}

/// The same figure in the other unit, where that would be a usual charge.
fn slip(charge: Quantity, strongest: Quantity) -> String {
    let other = match charge.unit().symbol {
        "psi" => "bar",
        _ => "psi",
    };
    let twin = format!("{} {other}", charge.number());
    let read = Quantity::parse(&twin, Dimension::GaugePressure);
    if read.is_ok_and(|twin| twin.si() > 0.0 && twin.si() < strongest.si()) {
        return format!("was `{twin}` meant?");
    }
    "look at the figure and at its unit; a usual charge is a third of the pumps' pressure"
        .to_owned()
}
