//! How parts are joined: a petgraph graph of parts and nets, one net per set of joined ports.

use std::collections::{BTreeMap, BTreeSet};

use petgraph::graph::{NodeIndex, UnGraph};

use super::kind::{Kind, PortType};

/// A port of a part, both as places in their lists.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PortRef {
    /// Which part.
    pub part: usize,
    /// Which port of its kind.
    pub port: usize,
}

/// A node of the graph.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PlantNode {
    /// A part.
    Part(usize),
    /// A net: everything that shares one pressure, one voltage or one travel.
    Net(usize),
}

/// A set of joined ports.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Net {
    /// What passes through it.
    pub port_type: PortType,
    /// The ports, in the order written.
    pub ports: Vec<PortRef>,
}

/// Parts and nets; an edge is a port of a part on a net.
#[derive(Debug, Clone, Default)]
pub struct PartGraph {
    nets: Vec<Net>,
    graph: UnGraph<PlantNode, PortRef>,
}

/// Why ports cannot be joined. Indices are places in the list of links, then of ports in a link.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LinkError {
    /// A port was already joined by an earlier link.
    JoinedTwice {
        /// The later link.
        link: usize,
        /// The port in it.
        port: usize,
        /// The earlier link.
        earlier: usize,
    },
    /// The port passes something else than the link.
    OtherType {
        /// The link.
        link: usize,
        /// The port in it.
        port: usize,
        /// What the port passes.
        found: PortType,
    },
}

impl PartGraph {
    /// Joins ports into nets. Returns the graph of what could be joined, and what could not.
    pub fn build(kinds: &[&'static Kind], links: &[Net]) -> (Self, Vec<LinkError>) {
        let mut graph = UnGraph::default();
        let parts: Vec<NodeIndex> = (0..kinds.len())
            .map(|part| graph.add_node(PlantNode::Part(part)))
            .collect();
        let mut errors = Vec::new();
        let mut joined: BTreeMap<PortRef, usize> = BTreeMap::new();
        let mut nets = Vec::new();
        for (link, net) in links.iter().enumerate() {
            let node = graph.add_node(PlantNode::Net(nets.len()));
            for (at, port) in net.ports.iter().enumerate() {
                let found = kinds
                    .get(port.part)
                    .and_then(|kind| kind.ports.get(port.port))
                    .map_or(net.port_type, |spec| spec.port_type);
                if found != net.port_type {
                    errors.push(LinkError::OtherType {
                        link,
                        port: at,
                        found,
                    });
                } else if let Some(&earlier) = joined.get(port) {
                    errors.push(LinkError::JoinedTwice {
                        link,
                        port: at,
                        earlier,
                    });
                } else if let Some(&part) = parts.get(port.part) {
                    joined.insert(*port, link);
                    graph.add_edge(part, node, *port);
                }
            }
            nets.push(net.clone());
        }
        (Self { nets, graph }, errors)
    }

    /// The nets, in the order written.
    pub fn nets(&self) -> &[Net] {
        &self.nets
    }

    /// The net a port is on; `None` for an open port.
    pub fn net_of(&self, port: PortRef) -> Option<usize> {
        self.graph
            .edge_indices()
            .find(|edge| self.graph.edge_weight(*edge) == Some(&port))
            .and_then(|edge| self.graph.edge_endpoints(edge))
            .and_then(|(_, net)| match self.graph.node_weight(net) {
                Some(PlantNode::Net(index)) => Some(*index),
                _ => None,
            })
    }

    /// Ports that must be joined and are not, in the order of parts and ports.
    pub fn open_ports(&self, kinds: &[&'static Kind]) -> Vec<PortRef> {
        let joined: BTreeSet<&PortRef> = self.graph.edge_weights().collect();
        let mut open = Vec::new();
        for (part, kind) in kinds.iter().enumerate() {
            for (port, spec) in kind.ports.iter().enumerate() {
                let port = PortRef { part, port };
                if !spec.optional && !joined.contains(&port) {
                    open.push(port);
                }
            }
        }
        open
    }
}
