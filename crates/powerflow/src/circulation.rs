//! Circulating power: how much of the power in a train goes round instead of through.
//!
//! Port powers make a directed graph of shafts and elements. Cycles live in its strongly connected parts. The
//! circulating power of one connection is the most that can belong to a circulation within the flows: the connection's
//! own flow, or less, by a maximum flow from its head back to its tail (L. R. Ford & D. R. Fulkerson, Flows in Networks,
//! 1962). The size of a part is the largest of these; cycles are never added up.

use layshaft_kinematics::{ElementIdx, Train};
use petgraph::algo::{ford_fulkerson, kosaraju_scc};
use petgraph::graph::{DiGraph, NodeIndex};
use petgraph::visit::EdgeRef;

use crate::flow::Flow;

/// Power that goes round in one strongly connected part.
#[derive(Clone, Debug, PartialEq)]
pub struct Circulation {
    /// Its elements in flow order, beginning with the first of the train.
    pub elements: Vec<ElementIdx>,
    /// The largest circulating power of any connection in W.
    pub power: f64,
}

/// Flows below this share of the largest are rounding.
const ROUNDING: f64 = 1e-9;

/// All circulations of a flow, in the order of their first elements.
#[must_use]
pub fn circulation(train: &Train, flow: &Flow) -> Vec<Circulation> {
    let graph = power_graph(train, flow);
    let shafts = train.shaft_count();
    let mut parts: Vec<Circulation> = kosaraju_scc(&graph)
        .into_iter()
        .filter(|nodes| nodes.len() > 1)
        .filter_map(|mut nodes| {
            nodes.sort_unstable();
            part(&graph, &nodes, shafts)
        })
        .collect();
    parts.sort_by_key(|part| part.elements.first().copied());
    parts
}

/// Shafts come first as nodes, then elements; an edge carries the power in W.
fn power_graph(train: &Train, flow: &Flow) -> DiGraph<(), f64> {
    let mut graph = DiGraph::with_capacity(train.shaft_count() + train.elements().len(), 0);
    for _ in 0..train.shaft_count() + train.elements().len() {
        graph.add_node(());
    }
    let mut edges = Vec::new();
    let mut largest = 0.0_f64;
    for (element, kind) in train.indexed() {
        let powers = flow.power_into(train, element);
        let constraint = kind.constraint();
        let mut own: Vec<(usize, f64)> = Vec::with_capacity(3);
        for (term, power) in constraint.terms().iter().zip(powers) {
            let Some(shaft) = term.port.shaft() else { continue };
            largest = largest.max(power.abs());
            // Two ports on one shaft are one piece: what goes in at one and out at the other crosses no connection.
            match own.iter_mut().find(|(other, _)| *other == shaft.at()) {
                Some((_, sum)) => *sum += power,
                None => own.push((shaft.at(), power)),
            }
        }
        edges.extend(
            own.into_iter()
                .map(|(shaft, power)| (shaft, train.shaft_count() + element.at(), power)),
        );
    }
    for (shaft, element, power) in edges {
        let (shaft, element) = (NodeIndex::new(shaft), NodeIndex::new(element));
        if power > ROUNDING * largest {
            graph.add_edge(shaft, element, power);
        } else if power < -ROUNDING * largest {
            graph.add_edge(element, shaft, -power);
        }
    }
    graph
}

fn part(graph: &DiGraph<(), f64>, nodes: &[NodeIndex], shafts: usize) -> Option<Circulation> {
    let mut inner = DiGraph::<NodeIndex, f64>::new();
    let place: Vec<NodeIndex> = nodes.iter().map(|&node| inner.add_node(node)).collect();
    let place_of = |node: NodeIndex| nodes.binary_search(&node).ok().map(|at| place[at]);
    for edge in nodes.iter().flat_map(|&node| graph.edges(node)) {
        if let (Some(from), Some(to)) = (place_of(edge.source()), place_of(edge.target())) {
            inner.add_edge(from, to, *edge.weight());
        }
    }
    let power = inner
        .edge_references()
        .map(|edge| {
            let (back, _) = ford_fulkerson(&inner, edge.target(), edge.source());
            back.min(*edge.weight())
        })
        .fold(0.0, f64::max);
    let elements = flow_order(&inner, shafts);
    (power > 0.0 && !elements.is_empty()).then_some(Circulation { elements, power })
}

/// Elements along the flow: from the first element always on along the widest connection not yet taken.
fn flow_order(inner: &DiGraph<NodeIndex, f64>, shafts: usize) -> Vec<ElementIdx> {
    let element = |node: NodeIndex| {
        let at = inner[node].index();
        (at >= shafts).then(|| ElementIdx(u32::try_from(at - shafts).expect("fewer than 2^32 elements")))
    };
    let mut order = Vec::new();
    let mut seen = vec![false; inner.node_count()];
    let mut pending: Vec<NodeIndex> = inner
        .node_indices()
        .filter(|&node| element(node).is_some())
        .rev()
        .collect();
    while let Some(node) = pending.pop() {
        if std::mem::replace(&mut seen[node.index()], true) {
            continue;
        }
        order.extend(element(node));
        let mut next: Vec<(f64, NodeIndex)> = inner
            .edges(node)
            .map(|edge| (*edge.weight(), edge.target()))
            .collect();
        next.sort_by(|a, b| a.0.total_cmp(&b.0));
        pending.extend(next.into_iter().map(|(_, target)| target));
    }
    order
}

/// Rolling power of an element with a carrier in W: what its teeth transmit in the carrier's frame, at the member that
/// drives there; `(1 − n0)` times it is the loss.
#[must_use]
pub fn rolling_power(train: &Train, flow: &Flow, element: ElementIdx) -> Option<f64> {
    let gear = train.element(element).as_carrier_gear()?;
    let torques = flow.into_element(element);
    let speed = |port: layshaft_kinematics::Port| port.shaft().map_or(0.0, |shaft| flow.speeds[shaft.at()]);
    let carrier = speed(gear.carrier);
    let first = torques[0] * (speed(gear.first) - carrier);
    let second = torques[1] * (speed(gear.second) - carrier);
    Some(first.abs().max(second.abs()))
}
