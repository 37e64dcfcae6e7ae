//! The column of every node, and bends on the ways that skip columns.

use super::graph::Graph;

/// Room of a way that passes a column, to either side.
const WAY_ROOM: f64 = 22.0;
/// Above this many nodes, ways that skip columns get no bends: there would be too many.
const MOST_WITH_BENDS: usize = 1500;

/// Nodes, bends behind the real ones, with their columns and the arrows between neighbouring columns.
#[derive(Clone, Debug)]
pub struct Layered {
    /// The column of every node.
    pub columns: Vec<usize>,
    /// Room above and below every node.
    pub rooms: Vec<(f64, f64)>,
    /// Arrows, each to a later column, with how much it is worth to have it straight.
    pub arrows: Vec<(usize, usize, f64)>,
}

impl Layered {
    /// The nodes of every column, by number.
    pub fn by_column(&self) -> Vec<Vec<usize>> {
        let last = self.columns.iter().copied().max().unwrap_or(0);
        let mut rows = vec![Vec::new(); last + 1];
        for (node, column) in self.columns.iter().enumerate() {
            rows[*column].push(node);
        }
        rows
    }
}

/// Columns by the longest way from where arrows begin; whatever has room to move stands midway.
pub fn columns(count: usize, arrows: &[(usize, usize)], is_source: &[bool]) -> Vec<usize> {
    let (mut before, mut after) = (vec![Vec::new(); count], vec![Vec::new(); count]);
    for (from, to) in arrows {
        before[*to].push(*from);
        after[*from].push(*to);
    }
    let order = in_order(&before, &after);
    let mut floor = vec![0; count];
    let earliest = longest(&order, &before, &floor);
    let mut latest = earliest.clone();
    for &node in order.iter().rev().filter(|node| !after[**node].is_empty()) {
        let limit = after[node].iter().map(|next| latest[*next]).min();
        latest[node] = limit.map_or(0, |limit| limit - 1);
    }
    // A second source or a dangling beginning stands beside what it drives.
    for node in (0..count).filter(|node| before[*node].is_empty()) {
        floor[node] = latest[node];
    }
    let begun = longest(&order, &before, &floor);
    let first = begun.iter().copied().min().unwrap_or(0);
    let mut columns: Vec<usize> = begun
        .iter()
        .zip(&latest)
        .map(|(one, other)| one + (other.max(one) - one) / 2 - first)
        .collect();
    // Repeated in both directions, so that the slack of a way spreads over all of it.
    for round in 0..24 {
        let mut moved = false;
        for step in 0..count {
            let node = order[if round % 2 == 0 { step } else { count - 1 - step }];
            if before[node].is_empty() || after[node].is_empty() || is_source[node] {
                continue;
            }
            moved |= relax(node, &mut columns, &before[node], &after[node]);
        }
        if !moved {
            break;
        }
    }
    columns
}

/// Moves a node towards the middle of its neighbours, no further than they allow.
fn relax(node: usize, columns: &mut [usize], before: &[usize], after: &[usize]) -> bool {
    let low = before.iter().map(|other| columns[*other]).max().unwrap_or(0);
    let high = after.iter().map(|other| columns[*other]).min().unwrap_or(0);
    let middle = (low + high) / 2;
    let wanted = middle.clamp(low + 1, (high - 1).max(low + 1));
    let moved = wanted != columns[node];
    columns[node] = wanted;
    moved
}

/// Nodes so that every arrow points forwards; of those that could come next the one of lowest number comes first.
fn in_order(before: &[Vec<usize>], after: &[Vec<usize>]) -> Vec<usize> {
    let mut waits: Vec<usize> = before.iter().map(Vec::len).collect();
    let mut ready: std::collections::BTreeSet<usize> =
        (0..waits.len()).filter(|node| waits[*node] == 0).collect();
    let mut order = Vec::with_capacity(waits.len());
    while let Some(node) = ready.pop_first() {
        order.push(node);
        for &next in &after[node] {
            waits[next] -= 1;
            if waits[next] == 0 {
                ready.insert(next);
            }
        }
    }
    order
}

fn longest(order: &[usize], before: &[Vec<usize>], floor: &[usize]) -> Vec<usize> {
    let mut columns = floor.to_vec();
    for &node in order {
        let after_all = before[node].iter().map(|other| columns[*other] + 1).max();
        columns[node] = columns[node].max(after_all.unwrap_or(0));
    }
    columns
}

/// Puts a bend on every way for every column that it skips.
pub fn with_bends(graph: &Graph, columns: &[usize], arrows: &[(usize, usize)]) -> Layered {
    let real = graph.nodes.len();
    let mut layered = Layered {
        columns: columns.to_vec(),
        rooms: graph.nodes.iter().map(|node| (node.up, node.down)).collect(),
        arrows: Vec::new(),
    };
    let neighbours = graph.neighbours();
    // Where a train goes on, a motor or load on the way gives way to it.
    let is_aside = |node: usize, other: usize| {
        (graph.nodes[node].is_source || graph.nodes[node].is_load) && neighbours[other].len() > 2
    };
    for &(from, to) in arrows {
        let worth = if is_aside(from, to) || is_aside(to, from) {
            0.1
        } else {
            1.0
        };
        let (start, end) = (columns[from], columns[to]);
        if end - start < 2 || real > MOST_WITH_BENDS {
            layered.arrows.push((from, to, worth));
            continue;
        }
        let mut last = from;
        for column in start + 1..end {
            let bend = layered.columns.len();
            layered.columns.push(column);
            layered.rooms.push((WAY_ROOM, WAY_ROOM));
            layered.arrows.push((last, bend, 4.0));
            last = bend;
        }
        layered.arrows.push((last, to, 4.0));
    }
    layered
}
