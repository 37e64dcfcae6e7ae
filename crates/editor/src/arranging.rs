//! Setting a layout out anew: sources left, loads right, parallel paths above one another.
//!
//! Shafts and symbols become nodes of one graph (`graph`), each joint points the way that leads from the drive to the
//! loads (`direction`), columns follow from that (`columns`), then an order within each column with few crossings
//! (`order`) and heights that keep long ways straight (`heights`). Wires on the bench are straight, so several ways
//! to set out the same graph are tried and the best one as drawn is taken (`quality`). Only what is joined to what
//! decides, never where things stood: arranging twice changes nothing. A layered drawing after Sugiyama, Tagawa and
//! Toda, “Methods for visual understanding of hierarchical system structures”, IEEE Trans. SMC 11 (1981), from memory.

mod columns;
mod direction;
mod graph;
mod heights;
mod order;
mod quality;

use std::collections::BTreeSet;

use layshaft_layout::{Command, Id, Layout};

use crate::geometry::Point;
use crate::placement::GRID;
use crate::scene::element_places;
use graph::{Graph, What};

/// Distance between the column of a shaft and that of a symbol beside it, in bench units.
const COLUMN: f64 = 80.0;
/// Room between parts that nothing joins, in bench units.
const APART: f64 = 60.0;
/// How far a symbol may stand from its planned place and still be left to stand by itself.
const NEAR: f64 = 6.0;

/// New places.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Arrangement {
    /// Where shafts go.
    pub shafts: Vec<(Id, [f64; 2])>,
    /// Where symbols go; none: between their shafts, by themselves.
    pub symbols: Vec<(Id, Option<[f64; 2]>)>,
}

impl Arrangement {
    /// The change that makes it so.
    #[must_use]
    pub fn command(self) -> Command {
        Command::Batch(vec![
            Command::MoveShafts { moves: self.shafts },
            Command::MoveElements { moves: self.symbols },
        ])
    }
}

/// Sets out all shafts, or only these with the elements that sit on nothing else; then the first of them stays where it
/// is. `drive`: where trains begin that have no source.
#[must_use]
pub fn arrange(layout: &Layout, drive: Option<&Id>, only: Option<&BTreeSet<Id>>) -> Arrangement {
    let whole = Graph::of(layout);
    let all_ranks = direction::ranks(&whole, layout, drive);
    let (graph, ranks) = match only {
        Some(only) => {
            let kept = whole.within(layout, only);
            (
                whole.only(&kept),
                kept.iter().map(|node| all_ranks[*node]).collect(),
            )
        }
        None => (whole, all_ranks),
    };
    let mut places: Vec<Option<Point>> = vec![None; graph.nodes.len()];
    let mut top = 0.0;
    for part in graph.parts() {
        let set_out = set_out(&graph.only(&part), &part, &ranks);
        let upper = set_out
            .iter()
            .map(|(node, at)| at.y - graph.nodes[*node].up)
            .fold(f64::INFINITY, f64::min);
        let lower = set_out
            .iter()
            .map(|(node, at)| at.y + graph.nodes[*node].down)
            .fold(f64::NEG_INFINITY, f64::max);
        for (node, at) in set_out {
            places[node] = Some(Point::new(at.x, at.y + top - upper));
        }
        top += lower - upper + APART;
    }
    finish(layout, &graph, &places, only.is_some())
}

/// Places of the nodes of one part that hangs together; the numbers are those of the whole graph.
fn set_out(part: &Graph, names: &[usize], ranks: &[direction::Rank]) -> Vec<(usize, Point)> {
    let ranks: Vec<&direction::Rank> = names.iter().map(|name| &ranks[*name]).collect();
    let arrows = direction::arrows(part, &ranks);
    let columns = columns::columns(part.nodes.len(), &arrows, &part.sources());
    let layered = columns::with_bends(part, &columns, &arrows);
    let mut best: Option<(f64, Vec<Point>)> = None;
    for rows in order::candidates(&layered) {
        let heights = heights::heights(&layered, &rows);
        let places: Vec<Point> = (0..part.nodes.len())
            .map(|node| Point::new(columns[node] as f64 * COLUMN, heights[node]))
            .collect();
        let price = quality::price(part, &places);
        if best.as_ref().is_none_or(|(least, _)| price < *least) {
            best = Some((price, places));
        }
    }
    let places = best.map(|(_, places)| places).unwrap_or_default();
    names.iter().copied().zip(places).collect()
}

/// On the grid, with the drive's row at height 0, or moved so that the first shaft stays where it is.
fn finish(layout: &Layout, graph: &Graph, places: &[Option<Point>], first_stays: bool) -> Arrangement {
    let mut arrangement = Arrangement::default();
    let place_of = |node: usize| places[node].map(|at| Point::new(at.x, (at.y / 10.0).round() * 10.0));
    let first = graph
        .nodes
        .iter()
        .position(|node| matches!(node.what, What::Shaft(_)));
    let anchor = first.and_then(|node| Some((place_of(node)?, graph.nodes[node].what)));
    let by = match anchor {
        Some((at, What::Shaft(number))) if first_stays => Point::from(layout.shafts[number].at) - at,
        Some((at, _)) => Point::default() - at,
        None => Point::default(),
    };
    let mut set = layout.clone();
    let mut planned = Vec::new();
    for (node, part) in graph.nodes.iter().enumerate() {
        let Some(at) = place_of(node).map(|at| at + by) else {
            continue;
        };
        match part.what {
            What::Shaft(number) => {
                let at = [at.x.round(), at.y.round()];
                arrangement.shafts.push((layout.shafts[number].id.clone(), at));
                set.shafts[number].at = at;
            }
            What::Element(number) => planned.push((number, at)),
        }
    }
    for (number, shaft, off) in &graph.beside {
        let beside = Point::from(set.shafts[*shaft].at) + *off;
        planned.push((*number, beside));
    }
    arrangement.symbols = symbols(&mut set, &planned)
        .into_iter()
        .map(|(number, at)| (layout.elements[number].id.clone(), at))
        .collect();
    arrangement
}

/// A symbol that would stand in its place by itself is left to do so, since then it follows its shafts.
fn symbols(set: &mut Layout, planned: &[(usize, Point)]) -> Vec<(usize, Option<[f64; 2]>)> {
    for (number, _) in planned {
        set.elements[*number].at = None;
    }
    // Fixing some symbols can push others away, so it is asked again until all stand where they should.
    for _ in 0..=planned.len().min(8) {
        let by_itself = element_places(set);
        let mut moved = false;
        for (number, at) in planned {
            if set.elements[*number].at.is_none() && by_itself[*number].distance(*at) > NEAR {
                set.elements[*number].at = Some([at.x.round(), at.y.round()]);
                moved = true;
            }
        }
        if !moved {
            break;
        }
    }
    planned
        .iter()
        .map(|(number, _)| (*number, set.elements[*number].at))
        .collect()
}

/// A height on half a grid step.
fn stepped(height: f64) -> f64 {
    (height / GRID * 2.0).round() * GRID / 2.0
}

#[cfg(test)]
mod tests;
