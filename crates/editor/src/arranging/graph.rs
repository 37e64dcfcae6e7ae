//! What is set out: shafts and symbols as nodes, ends as edges, and the room that each takes.

use std::collections::{BTreeMap, BTreeSet};

use layshaft_layout::{Element, Id, Layout};

use crate::catalogue::Kind;
use crate::geometry::Point;
use crate::parts::{is_frame, ports};
use crate::scene::ONE_PORT_REACH;

/// Room of a shaft: its circle above, its label below.
const SHAFT_ROOM: (f64, f64) = (32.0, 76.0);
/// Room of a symbol: its label above.
const SYMBOL_ROOM: (f64, f64) = (50.0, 26.0);

/// What a node stands for, by its number in the document.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// A shaft.
    Shaft(usize),
    /// An element's symbol.
    Element(usize),
}

/// A node with the room that it takes.
#[derive(Clone, Debug)]
pub struct Node {
    /// What it stands for.
    pub what: What,
    /// Whether power comes from it.
    pub is_source: bool,
    /// Whether power goes into it.
    pub is_load: bool,
    /// Room above its centre.
    pub up: f64,
    /// Room below its centre.
    pub down: f64,
}

/// Nodes and what joins them.
#[derive(Clone, Debug, Default)]
pub struct Graph {
    /// Shafts first, then symbols, both in document order.
    pub nodes: Vec<Node>,
    /// Ends: a shaft's node and a symbol's.
    pub edges: Vec<(usize, usize)>,
    /// Elements that stand at one shaft and take no column: number, number of the shaft, offset from it.
    pub beside: Vec<(usize, usize, Point)>,
}

impl Graph {
    /// The graph of a whole layout.
    pub fn of(layout: &Layout) -> Self {
        let number_of: BTreeMap<&Id, usize> = layout
            .shafts
            .iter()
            .enumerate()
            .map(|(number, shaft)| (&shaft.id, number))
            .collect();
        let mut graph = Self::default();
        for number in 0..layout.shafts.len() {
            graph.nodes.push(node(What::Shaft(number), SHAFT_ROOM, None));
        }
        let mut held = vec![0_usize; layout.shafts.len()];
        for (number, element) in layout.elements.iter().enumerate() {
            let on = shafts_of(element, &number_of);
            let kind = Kind::of(&element.kind);
            match on[..] {
                [] => {}
                [shaft] if !kind.is_source() && !kind.is_load() => {
                    graph.put_beside(number, shaft, held[shaft]);
                    held[shaft] += 1;
                }
                _ => {
                    let symbol = graph.nodes.len();
                    graph
                        .nodes
                        .push(node(What::Element(number), SYMBOL_ROOM, Some(kind)));
                    graph.edges.extend(on.into_iter().map(|shaft| (shaft, symbol)));
                }
            }
        }
        graph
    }

    /// What holds a shaft stands below it, a second one above, more further off.
    fn put_beside(&mut self, number: usize, shaft: usize, before: usize) {
        let far = ONE_PORT_REACH * (1.0 + (before / 2) as f64 * 0.8);
        let is_below = before.is_multiple_of(2);
        let off = Point::new(0.0, if is_below { far } else { -far });
        self.beside.push((number, shaft, off));
        let node = &mut self.nodes[shaft];
        let room = if is_below { &mut node.down } else { &mut node.up };
        *room = far + 64.0;
    }

    /// The nodes on these shafts: they, and the symbols of elements that sit on nothing else.
    pub fn within(&self, layout: &Layout, only: &BTreeSet<Id>) -> Vec<usize> {
        let mut stays: Vec<bool> = self
            .nodes
            .iter()
            .map(|node| match node.what {
                What::Shaft(number) => only.contains(&layout.shafts[number].id),
                What::Element(_) => true,
            })
            .collect();
        for (shaft, symbol) in &self.edges {
            stays[*symbol] &= stays[*shaft];
        }
        (0..stays.len()).filter(|node| stays[*node]).collect()
    }

    /// Node numbers of every part that hangs together, in the order of their first nodes.
    pub fn parts(&self) -> Vec<Vec<usize>> {
        let neighbours = self.neighbours();
        let mut seen = vec![false; self.nodes.len()];
        let mut parts = Vec::new();
        for start in 0..self.nodes.len() {
            if std::mem::replace(&mut seen[start], true) {
                continue;
            }
            let mut part = vec![start];
            let mut next = 0;
            while let Some(&node) = part.get(next) {
                next += 1;
                for &other in &neighbours[node] {
                    if !std::mem::replace(&mut seen[other], true) {
                        part.push(other);
                    }
                }
            }
            part.sort_unstable();
            parts.push(part);
        }
        parts
    }

    /// Some of the nodes as a graph of their own, in the order given.
    pub fn only(&self, part: &[usize]) -> Self {
        let mut names = vec![usize::MAX; self.nodes.len()];
        for (new, old) in part.iter().enumerate() {
            names[*old] = new;
        }
        Self {
            nodes: part.iter().map(|node| self.nodes[*node].clone()).collect(),
            edges: self
                .edges
                .iter()
                .filter(|(shaft, symbol)| names[*shaft] != usize::MAX && names[*symbol] != usize::MAX)
                .map(|(shaft, symbol)| (names[*shaft], names[*symbol]))
                .collect(),
            beside: self.beside_of(part),
        }
    }

    /// What stands at those of these nodes that are shafts.
    fn beside_of(&self, part: &[usize]) -> Vec<(usize, usize, Point)> {
        let is_in = |shaft: usize| part.binary_search(&shaft).is_ok();
        // In the whole graph a shaft's node bears the shaft's number.
        self.beside
            .iter()
            .filter(|(_, shaft, _)| is_in(*shaft))
            .copied()
            .collect()
    }

    /// What each node is joined to.
    pub fn neighbours(&self) -> Vec<Vec<usize>> {
        let mut neighbours = vec![Vec::new(); self.nodes.len()];
        for (one, other) in &self.edges {
            neighbours[*one].push(*other);
            neighbours[*other].push(*one);
        }
        neighbours
    }

    /// Which nodes power comes from.
    pub fn sources(&self) -> Vec<bool> {
        self.nodes.iter().map(|node| node.is_source).collect()
    }
}

fn node(what: What, (up, down): (f64, f64), kind: Option<Kind>) -> Node {
    Node {
        what,
        is_source: kind.is_some_and(Kind::is_source),
        is_load: kind.is_some_and(Kind::is_load),
        up,
        down,
    }
}

/// The different shafts that an element sits on, in the order of its ends; the frame is none.
fn shafts_of(element: &Element, number_of: &BTreeMap<&Id, usize>) -> Vec<usize> {
    let mut on = Vec::new();
    for port in ports(&element.kind) {
        if is_frame(port.shaft) {
            continue;
        }
        if let Some(&number) = number_of.get(port.shaft)
            && !on.contains(&number)
        {
            on.push(number);
        }
    }
    on
}
