//! Links: ports resolved, joined into nets, open ports found.

use super::located::Located;
use crate::authoring::conform;
use crate::authoring::form::Form;
use crate::authoring::yaml::Node;
use crate::base::text::with_article;
use crate::plant::aircraft::Part;
use crate::plant::graph::{LinkError, Net, PartGraph, PortRef};
use crate::plant::kind::{Kind, PortType};
use crate::source::codes::aircraft as code;
use crate::source::place::{FileId, Place};
use crate::source::problem::Problem;

/// Lowers all links into a graph.
pub fn lower(
    file: FileId,
    links: &[Node],
    parts: &[Part],
    part_entries: &[Located<'_>],
    problems: &mut Vec<Problem>,
) -> PartGraph {
    let mut nets = Vec::new();
    let mut places: Vec<Vec<Place>> = Vec::new();
    let before = problems.len();
    for node in links {
        if let Some((net, ports)) = link(file, node, parts, problems) {
            nets.push(net);
            places.push(ports);
        }
    }
    let kinds: Vec<&'static Kind> = parts.iter().map(|part| part.kind).collect();
    let (graph, errors) = PartGraph::build(&kinds, &nets);
    problems.extend(
        errors
            .iter()
            .map(|error| link_problem(error, &nets, parts, &places)),
    );
    // A misspelt port leaves the right one open; saying so twice would not help.
    if problems.len() == before {
        for port in graph.open_ports(&kinds) {
            problems.extend(open_problem(port, parts, part_entries));
        }
    }
    graph
}

fn link(
    file: FileId,
    node: &Node,
    parts: &[Part],
    problems: &mut Vec<Problem>,
) -> Option<(Net, Vec<Place>)> {
    let place = |bytes: &std::ops::Range<usize>| Place::new(file, bytes.clone());
    let form = |at: Place, message: String| {
        let hint = "write `{hydraulic: [part.port, other.port]}`";
        Problem::new(code::LINK_FORM, at, message).hint(hint)
    };
    let [entry] = node.entries() else {
        let message = format!(
            "a link is a mapping with one key, and {} was found",
            node.word()
        );
        problems.push(form(place(&node.bytes), message));
        return None;
    };
    let Some(port_type) = PortType::from_word(&entry.key) else {
        let known: Vec<&str> = PortType::ALL.into_iter().map(PortType::word).collect();
        let message = format!("`{}` is not a kind of link", entry.key);
        let problem = Problem::new(code::LINK_FORM, place(&entry.key_bytes), message);
        problems.push(problem.suggest(&entry.key, &known));
        return None;
    };
    let before = problems.len();
    let list = Form::List(&Form::Text);
    conform::conform(&entry.value, &list, file, problems);
    let items = entry.value.items();
    if problems.len() == before && items.len() < 2 {
        let message = format!(
            "a link joins at least two ports, and {} stands here",
            items.len()
        );
        problems.push(form(place(&entry.key_bytes), message));
        return None;
    }
    let mut net = Net {
        port_type,
        ports: Vec::new(),
    };
    let mut places = Vec::new();
    for item in items {
        match port(item.text().unwrap_or_default(), parts, place(&item.bytes)) {
            Ok(port) => {
                net.ports.push(port);
                places.push(place(&item.bytes));
            }
            Err(problem) => problems.push(problem),
        }
    }
    Some((net, places))
}

fn port(text: &str, parts: &[Part], place: Place) -> Result<PortRef, Problem> {
    let (part_name, port_name) = text.split_once('.').unwrap_or((text, ""));
    let Some(part) = parts.iter().position(|part| part.id == part_name) else {
        let known: Vec<&str> = parts.iter().map(|part| part.id.as_str()).collect();
        let message = format!("there is no part `{part_name}`");
        return Err(Problem::new(code::UNKNOWN_PORT, place, message).suggest(part_name, &known));
    };
    let kind = parts[part].kind;
    let port = kind.ports.iter().position(|port| port.name == port_name);
    port.map(|port| PortRef { part, port }).ok_or_else(|| {
        let known: Vec<&str> = kind.ports.iter().map(|port| port.name).collect();
        let message = format!("{} has no port `{port_name}`", with_article(kind.name));
        Problem::new(code::UNKNOWN_PORT, place, message).suggest(port_name, &known)
    })
}

fn port_name(port: PortRef, parts: &[Part]) -> String {
    let part = &parts[port.part];
    format!("{}.{}", part.id, part.kind.ports[port.port].name)
}

fn link_problem(error: &LinkError, nets: &[Net], parts: &[Part], places: &[Vec<Place>]) -> Problem {
    match error {
        LinkError::OtherType { link, port, found } => {
            let net = &nets[*link];
            let name = port_name(net.ports[*port], parts);
            let (found, wanted) = (found.word(), net.port_type.word());
            let message = format!("`{name}` is {found}, and the link is {wanted}");
            Problem::new(code::PORT_TYPE, places[*link][*port].clone(), message)
                .hint("look at the port, or change the kind of link")
        }
        LinkError::JoinedTwice {
            link,
            port,
            earlier,
        } => {
            let reference = nets[*link].ports[*port];
            let name = port_name(reference, parts);
            let first = nets[*earlier]
                .ports
                .iter()
                .position(|other| *other == reference);
            let first = places[*earlier][first.unwrap_or_default()].clone();
            let message = format!("`{name}` is joined a second time");
            Problem::new(code::PORT_TWICE, places[*link][*port].clone(), message)
                .second(first, "first joined here")
                .hint("put all ports of a net into one link")
        }
    }
}

fn open_problem(port: PortRef, parts: &[Part], part_entries: &[Located<'_>]) -> Option<Problem> {
    let id = &parts[port.part].id;
    let entry = part_entries.iter().find(|entry| entry.key == id)?;
    let message = format!("port `{}` is left open", port_name(port, parts));
    let word = parts[port.part].kind.ports[port.port].port_type.word();
    Some(
        Problem::new(code::OPEN_PORT, entry.place(), message)
            .hint(format!("add it to a {word} link")),
    )
}
