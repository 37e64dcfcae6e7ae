//! Heights within the columns: as near as can be to what each node is joined to, no two nodes in one another's room.

use super::columns::Layered;
use super::stepped;

/// Passes over all columns; heights settle long before.
const PASSES: usize = 40;
/// A kink no higher than this is taken out where there is room.
const KINK: f64 = 30.0;

/// The height of every node's centre, for an order within columns.
pub fn heights(layered: &Layered, rows: &[Vec<usize>]) -> Vec<f64> {
    let joined = joined(layered);
    let mut heights = vec![0.0; layered.columns.len()];
    for row in rows {
        place(layered, row, &mut heights, |_| None);
    }
    for pass in 0..PASSES {
        let side = match pass % 3 {
            _ if pass + 4 >= PASSES => Side::Both,
            0 => Side::Left,
            1 => Side::Right,
            _ => Side::Both,
        };
        let mut order: Vec<usize> = (0..rows.len()).collect();
        if side == Side::Right {
            order.reverse();
        }
        for column in order {
            let wanted: Vec<Option<(f64, f64)>> = rows[column]
                .iter()
                .map(|node| wish(layered, &joined[*node], *node, side, &heights))
                .collect();
            place(layered, &rows[column], &mut heights, |place| wanted[place]);
        }
    }
    for height in &mut heights {
        *height = stepped(*height);
    }
    straighten(layered, rows, &joined, &mut heights);
    heights
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Side {
    Left,
    Right,
    Both,
}

/// Neighbours of every node, with the worth of a straight way to them.
type Joined = Vec<Vec<(usize, f64)>>;

fn joined(layered: &Layered) -> Joined {
    let mut joined = vec![Vec::new(); layered.columns.len()];
    for (from, to, worth) in &layered.arrows {
        joined[*from].push((*to, *worth));
        joined[*to].push((*from, *worth));
    }
    joined
}

/// The mean height of a node's neighbours on one side, with its weight.
fn wish(
    layered: &Layered,
    neighbours: &[(usize, f64)],
    node: usize,
    side: Side,
    heights: &[f64],
) -> Option<(f64, f64)> {
    let column = layered.columns[node];
    let (mut sum, mut weight) = (0.0, 0.0);
    for (other, worth) in neighbours {
        let counts = match side {
            Side::Left => layered.columns[*other] < column,
            Side::Right => layered.columns[*other] > column,
            Side::Both => true,
        };
        if counts {
            sum += heights[*other] * worth;
            weight += worth;
        }
    }
    (weight > 0.0).then(|| (sum / weight, weight))
}

/// Sets the heights of one column: the least weighted squares of the distances from the wishes, in the given order and
/// with room between neighbours. Blocks that run into one another are pooled (the method of adjacent violators).
fn place(layered: &Layered, row: &[usize], heights: &mut [f64], wish: impl Fn(usize) -> Option<(f64, f64)>) {
    let mut offset = 0.0;
    let mut offsets = Vec::with_capacity(row.len());
    // Blocks of nodes that touch: height of the block less its offset, weight, number of nodes.
    let mut blocks: Vec<(f64, f64, usize)> = Vec::new();
    for (place, node) in row.iter().enumerate() {
        if place > 0 {
            offset += layered.rooms[row[place - 1]].1 + layered.rooms[*node].0;
        }
        offsets.push(offset);
        let (height, weight) = wish(place).unwrap_or((heights[*node], 0.05));
        blocks.push((height - offset, weight, 1));
        while let [
            ..,
            (upper, upper_weight, upper_count),
            (lower, lower_weight, lower_count),
        ] = blocks[..]
            && upper > lower
        {
            let weight = upper_weight + lower_weight;
            let mean = (upper * upper_weight + lower * lower_weight) / weight;
            blocks.truncate(blocks.len() - 2);
            blocks.push((mean, weight, upper_count + lower_count));
        }
    }
    let mut place = 0;
    for (height, _, count) in blocks {
        for _ in 0..count {
            heights[row[place]] = height + offsets[place];
            place += 1;
        }
    }
}

/// Takes small kinks out: a node goes to the height of a neighbour to its left where it has the room.
fn straighten(layered: &Layered, rows: &[Vec<usize>], joined: &Joined, heights: &mut [f64]) {
    for row in rows {
        for (place, &node) in row.iter().enumerate() {
            let left = joined[node]
                .iter()
                .filter(|(other, _)| layered.columns[*other] < layered.columns[node])
                .map(|(other, _)| heights[*other])
                .min_by(|one, other| {
                    let far = |height: f64| (height - heights[node]).abs();
                    far(*one).total_cmp(&far(*other))
                });
            let Some(wanted) = left.filter(|left| (left - heights[node]).abs() <= KINK) else {
                continue;
            };
            let clear_above = place == 0
                || wanted - heights[row[place - 1]]
                    >= layered.rooms[row[place - 1]].1 + layered.rooms[node].0 - 10.0;
            let clear_below = row.get(place + 1).is_none_or(|next| {
                heights[*next] - wanted >= layered.rooms[node].1 + layered.rooms[*next].0 - 10.0
            });
            if clear_above && clear_below {
                heights[node] = wanted;
            }
        }
    }
}
