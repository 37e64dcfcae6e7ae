//! Which way each joint points: away from the sources, towards the loads, never round in a ring.
//!
//! The graph is taken as a net of equal resistors between sources (held at 0) and loads (held at 1). The potential rises
//! along every way from a source to a load, on both branches of a ring too, and is the same all over whatever hangs on
//! one node only; there the distance from the source decides.

use layshaft_layout::{Id, Layout};

use super::graph::{Graph, What};

/// Steps of the solver at most: enough for trains of hundreds of stages, bounded for absurd ones.
const MOST_STEPS: usize = 600;

/// What an arrow points along: potential in millionths, then distance from the source, then the node's number.
pub type Rank = (i64, usize, usize);

/// The rank of every node.
pub fn ranks(graph: &Graph, layout: &Layout, drive: Option<&Id>) -> Vec<Rank> {
    let neighbours = graph.neighbours();
    let mut fixed: Vec<Option<f64>> = graph
        .nodes
        .iter()
        .map(|node| match (node.is_source, node.is_load) {
            (true, _) => Some(0.0),
            (_, true) => Some(1.0),
            _ => None,
        })
        .collect();
    let mut distances = vec![usize::MAX; graph.nodes.len()];
    for part in graph.parts() {
        let mut starts: Vec<usize> = part
            .iter()
            .copied()
            .filter(|node| fixed[*node] == Some(0.0))
            .collect();
        if starts.is_empty() {
            starts.push(start_of(graph, layout, drive, &part));
            fixed[starts[0]] = Some(0.0);
        }
        let reached = spread(&neighbours, &starts, &mut distances);
        if part.iter().all(|node| fixed[*node] != Some(1.0))
            && let Some(last) = reached.last().filter(|last| !starts.contains(last))
        {
            fixed[*last] = Some(1.0);
        }
    }
    let potentials = potentials(&neighbours, &fixed);
    let mut ranks = Vec::with_capacity(potentials.len());
    for (node, potential) in potentials.into_iter().enumerate() {
        ranks.push((millionths(potential), distances[node], node));
    }
    ranks
}

/// Every edge as an arrow from its lower end to its higher one.
pub fn arrows(graph: &Graph, ranks: &[&Rank]) -> Vec<(usize, usize)> {
    graph
        .edges
        .iter()
        .map(|&(one, other)| {
            if ranks[one] < ranks[other] {
                (one, other)
            } else {
                (other, one)
            }
        })
        .collect()
}

#[expect(clippy::cast_possible_truncation, reason = "a potential lies between 0 and 1")]
fn millionths(potential: f64) -> i64 {
    (potential * 1e6).round() as i64
}

/// Where a part without a source begins: at the shaft that ratios refer to, else at its first one.
fn start_of(graph: &Graph, layout: &Layout, drive: Option<&Id>, part: &[usize]) -> usize {
    let is_drive = |node: &&usize| match graph.nodes[**node].what {
        What::Shaft(number) => Some(&layout.shafts[number].id) == drive,
        What::Element(_) => false,
    };
    part.iter().find(is_drive).or(part.first()).copied().unwrap_or(0)
}

/// Distances from some nodes; gives the nodes in the order in which they are reached.
fn spread(neighbours: &[Vec<usize>], starts: &[usize], distances: &mut [usize]) -> Vec<usize> {
    let mut reached = starts.to_vec();
    for start in starts {
        distances[*start] = 0;
    }
    let mut next = 0;
    while let Some(&node) = reached.get(next) {
        next += 1;
        for &other in &neighbours[node] {
            if distances[other] == usize::MAX {
                distances[other] = distances[node] + 1;
                reached.push(other);
            }
        }
    }
    reached
}

/// The potential of every node by conjugate gradients with the diagonal as preconditioner: the net's matrix is
/// symmetric and positive, since every part has a node that is held.
fn potentials(neighbours: &[Vec<usize>], fixed: &[Option<f64>]) -> Vec<f64> {
    let count = neighbours.len();
    let is_free = |node: usize| fixed[node].is_none();
    let mut found: Vec<f64> = fixed.iter().map(|value| value.unwrap_or(0.5)).collect();
    let multiply = |values: &[f64]| -> Vec<f64> {
        (0..count)
            .map(|node| {
                if !is_free(node) {
                    return 0.0;
                }
                let sum: f64 = neighbours[node]
                    .iter()
                    .map(|&other| values[node] - values[other])
                    .sum();
                sum
            })
            .collect()
    };
    let degree = |node: usize| neighbours[node].len().max(1) as f64;
    let dot = |one: &[f64], other: &[f64]| -> f64 { one.iter().zip(other).map(|(a, b)| a * b).sum() };
    let mut rest: Vec<f64> = multiply(&found).iter().map(|value| -value).collect();
    let mut scaled: Vec<f64> = (0..count).map(|node| rest[node] / degree(node)).collect();
    let mut along = scaled.clone();
    let mut size = dot(&rest, &scaled);
    for _ in 0..MOST_STEPS {
        if size < 1e-24 {
            break;
        }
        let across = multiply(&along);
        let step = size / dot(&along, &across);
        for node in 0..count {
            found[node] += step * along[node];
            rest[node] -= step * across[node];
            scaled[node] = rest[node] / degree(node);
        }
        let next = dot(&rest, &scaled);
        let share = next / size;
        size = next;
        for node in 0..count {
            along[node] = scaled[node] + share * along[node];
        }
    }
    found
}
