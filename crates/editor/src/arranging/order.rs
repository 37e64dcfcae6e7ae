//! The order within each column: sweeps by the mean place of neighbours, then swaps of pairs, for few crossings.

use super::columns::Layered;

/// Sweeps over all columns.
const SWEEPS: usize = 12;
/// Above this many nodes one order is enough and pairs are not swapped: it would take too long.
const MOST_TRIED: usize = 600;

/// Orders worth looking at: begun from the left in document order and the other way round.
pub fn candidates(layered: &Layered) -> Vec<Vec<Vec<usize>>> {
    let (before, after) = joined(layered);
    let is_small = layered.columns.len() <= MOST_TRIED;
    let starts: &[bool] = if is_small { &[false, true] } else { &[false] };
    let mut found: Vec<Vec<Vec<usize>>> = Vec::new();
    for &reversed in starts {
        for rightwards in [true, false] {
            let rows = swept(layered, &before, &after, reversed, rightwards, is_small);
            if !found.contains(&rows) {
                found.push(rows);
            }
        }
    }
    found
}

type Joined = Vec<Vec<usize>>;

fn joined(layered: &Layered) -> (Joined, Joined) {
    let count = layered.columns.len();
    let (mut before, mut after) = (vec![Vec::new(); count], vec![Vec::new(); count]);
    for (from, to, _) in &layered.arrows {
        before[*to].push(*from);
        after[*from].push(*to);
    }
    (before, after)
}

fn swept(
    layered: &Layered,
    before: &Joined,
    after: &Joined,
    reversed: bool,
    rightwards: bool,
    swaps: bool,
) -> Vec<Vec<usize>> {
    let mut rows = first_order(layered, after, reversed);
    let mut best = (crossings(&rows, after), rows.clone());
    for sweep in 0..SWEEPS {
        if best.0 == 0 {
            break;
        }
        if (sweep % 2 == 0) == rightwards {
            (1..rows.len()).for_each(|column| sort(&mut rows, column, before));
        } else {
            (0..rows.len().saturating_sub(1))
                .rev()
                .for_each(|column| sort(&mut rows, column, after));
        }
        if swaps {
            swap_pairs(&mut rows, before, after);
        }
        let count = crossings(&rows, after);
        if count < best.0 {
            best = (count, rows.clone());
        }
    }
    best.1
}

/// As a walk along the arrows meets them.
fn first_order(layered: &Layered, after: &Joined, reversed: bool) -> Vec<Vec<usize>> {
    let mut rows = vec![Vec::new(); layered.by_column().len()];
    let mut seen = vec![false; layered.columns.len()];
    let mut starts: Vec<usize> = layered.by_column().concat();
    if reversed {
        starts.sort_by_key(|node| (layered.columns[*node], std::cmp::Reverse(*node)));
    }
    for start in starts {
        let mut stack = vec![start];
        while let Some(node) = stack.pop() {
            if std::mem::replace(&mut seen[node], true) {
                continue;
            }
            rows[layered.columns[node]].push(node);
            if reversed {
                stack.extend(&after[node]);
            } else {
                stack.extend(after[node].iter().rev());
            }
        }
    }
    rows
}

/// Sorts a column by the mean place of what each of its nodes is joined to; what is joined to nothing stays.
fn sort(rows: &mut [Vec<usize>], column: usize, joined: &Joined) {
    let places = places(rows, joined.len());
    let row = rows[column].clone();
    let mean = |node: usize| {
        let places = joined[node].iter().map(|other| places[*other]);
        let count = joined[node].len();
        (count > 0).then(|| places.sum::<f64>() / count as f64)
    };
    let mut moving: Vec<(f64, usize)> = row
        .iter()
        .filter_map(|node| Some((mean(*node)?, *node)))
        .collect();
    moving.sort_by(|one, other| one.0.total_cmp(&other.0));
    let mut next = moving.into_iter();
    rows[column] = row
        .iter()
        .filter_map(|node| match mean(*node) {
            Some(_) => next.next().map(|(_, node)| node),
            None => Some(*node),
        })
        .collect();
}

/// Places of nodes within their columns, as shares of the column, so that columns of different lengths compare.
fn places(rows: &[Vec<usize>], count: usize) -> Vec<f64> {
    let mut places = vec![0.0; count];
    for row in rows {
        for (place, node) in row.iter().enumerate() {
            places[*node] = (place as f64 + 0.5) / row.len() as f64;
        }
    }
    places
}

/// Swaps neighbours in a column where that takes crossings away.
fn swap_pairs(rows: &mut [Vec<usize>], before: &Joined, after: &Joined) {
    for column in 0..rows.len() {
        for _ in 0..rows[column].len() {
            let places = places(rows, before.len());
            let mut swapped = false;
            for place in 1..rows[column].len() {
                let (one, other) = (rows[column][place - 1], rows[column][place]);
                let as_is = between(&before[one], &before[other], &places)
                    + between(&after[one], &after[other], &places);
                let turned = between(&before[other], &before[one], &places)
                    + between(&after[other], &after[one], &places);
                if turned < as_is {
                    rows[column].swap(place - 1, place);
                    swapped = true;
                }
            }
            if !swapped {
                break;
            }
        }
    }
}

/// Crossings of the ways of a node with those of the node below it.
fn between(upper: &[usize], lower: &[usize], places: &[f64]) -> usize {
    upper
        .iter()
        .map(|one| {
            lower
                .iter()
                .filter(|other| places[**other] < places[*one])
                .count()
        })
        .sum()
}

fn crossings(rows: &[Vec<usize>], after: &Joined) -> usize {
    let places = places(rows, after.len());
    rows.iter()
        .map(|row| {
            let pairs = row.iter().enumerate();
            pairs
                .map(|(place, one)| {
                    row[place + 1..]
                        .iter()
                        .map(|other| between(&after[*one], &after[*other], &places))
                        .sum::<usize>()
                })
                .sum::<usize>()
        })
        .sum()
}
