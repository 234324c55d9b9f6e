//! Which net each port is on, and which hydraulic node each net is.

use super::aircraft::Aircraft;
use super::graph::PortRef;
use super::kind::PortType;

/// Ports, nets and nodes as tables.
#[derive(Debug, Clone, PartialEq)]
pub struct Wiring {
    /// For each part the nets of its ports, in the order of its kind.
    pub nets: Vec<Vec<Option<usize>>>,
    /// For each net its hydraulic node.
    pub nodes: Vec<Option<usize>>,
    /// For each hydraulic node the net it is.
    pub net_of_node: Vec<usize>,
    /// The parts that do more than stand in the hydraulic network.
    pub active: Vec<usize>,
    /// The mechanical nets.
    pub mechanical: Vec<usize>,
    /// The node of the open air, after all others.
    pub outside: usize,
}

impl Wiring {
    /// The tables of an aircraft.
    pub fn new(aircraft: &Aircraft) -> Self {
        let ports = |part: usize, count: usize| {
            (0..count)
                .map(|port| aircraft.graph.net_of(PortRef { part, port }))
                .collect()
        };
        let nets = aircraft
            .parts
            .iter()
            .enumerate()
            .map(|(at, part)| ports(at, part.kind.ports.len()))
            .collect();
        let active = aircraft.parts.iter().enumerate();
        let active = active
            .filter(|(_, part)| !part.kind.behaviour.only_stamps())
            .map(|(at, _)| at);
        let mechanical = aircraft.graph.nets().iter().enumerate();
        let mechanical = mechanical
            .filter(|(_, net)| net.port_type == PortType::Mechanical)
            .map(|(at, _)| at);
        let mut nodes = Vec::new();
        let mut net_of_node = Vec::new();
        for (at, net) in aircraft.graph.nets().iter().enumerate() {
            if net.port_type == PortType::Hydraulic {
                nodes.push(Some(net_of_node.len()));
                net_of_node.push(at);
            } else {
                nodes.push(None);
            }
        }
        Self {
            active: active.collect(),
            mechanical: mechanical.collect(),
            nets,
            nodes,
            outside: net_of_node.len(),
            net_of_node,
        }
    }

    /// The net of a port by its name.
    pub fn net(&self, aircraft: &Aircraft, part: usize, port: &str) -> Option<usize> {
        let kind = aircraft.parts.get(part)?.kind;
        let at = kind.ports.iter().position(|spec| spec.name == port)?;
        self.nets.get(part)?.get(at).copied().flatten()
    }

    /// A net in words: its first port, as documents write it.
    pub fn net_name(&self, aircraft: &Aircraft, net: usize) -> String {
        let first = aircraft.graph.nets().get(net).and_then(|n| n.ports.first());
        let port = first.and_then(|port| {
            let part = aircraft.parts.get(port.part)?;
            Some(format!(
                "{}.{}",
                part.id,
                part.kind.ports.get(port.port)?.name
            ))
        });
        port.unwrap_or_else(|| "the open air".to_owned())
    }

    /// A node in words.
    pub fn node_name(&self, aircraft: &Aircraft, node: usize) -> String {
        match self.net_of_node.get(node) {
            Some(net) => self.net_name(aircraft, *net),
            None => "the open air".to_owned(),
        }
    }
}
