//! How high each axis lies: as far from the axes it meshes with as the tooth counts say, clear of all others.
//!
//! Axes are put one after another, beginning at the drive's, each at the best of a few heights beside its neighbour. A plane
//! drawing can't keep all distances of a closed ring of axes; gears are then drawn in the proportion of their tooth counts and
//! meet where the axes happen to be.

use std::collections::VecDeque;

/// Two axes that want to be at some distance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wish {
    /// The axes.
    pub axes: [usize; 2],
    /// The distance.
    pub distance: f64,
    /// One runs inside the other's ring: their axes may be close.
    pub is_inside: bool,
}

/// Nearest that axes that don't mesh inside one another may come.
pub const LEAST_GAP: f64 = 54.0;
/// Free height between trains that nothing joins.
const BETWEEN_TRAINS: f64 = 120.0;
/// Shares of the wished distance that are tried.
const TRIED: [f64; 6] = [1.0, 1.2, 1.5, 1.9, 2.4, 3.0];
/// Heights are compared with so many axes at most, the last ones put: a train of hundreds stays quick to set out.
const COMPARED: usize = 60;

/// The height of every axis, downwards; `first` is where it begins.
pub fn rows(n_axes: usize, first: usize, wishes: &[Wish]) -> Vec<f64> {
    let mut near: Vec<Vec<usize>> = vec![Vec::new(); n_axes];
    for (number, wish) in wishes.iter().enumerate() {
        near[wish.axes[0]].push(number);
        near[wish.axes[1]].push(number);
    }
    let mut heights: Vec<Option<f64>> = vec![None; n_axes];
    let mut placed: Vec<usize> = Vec::new();
    let starts = (first < n_axes).then_some(first).into_iter().chain(0..n_axes);
    for start in starts {
        if heights[start].is_some() {
            continue;
        }
        let lowest = placed
            .iter()
            .filter_map(|axis| heights[*axis])
            .fold(f64::NEG_INFINITY, f64::max);
        heights[start] = Some(if placed.is_empty() {
            0.0
        } else {
            lowest + BETWEEN_TRAINS
        });
        placed.push(start);
        let begin = placed.len() - 1;
        let mut waiting = VecDeque::from([start]);
        while let Some(axis) = waiting.pop_front() {
            for wish in &near[axis] {
                let wish = wishes[*wish];
                let next = other(wish, axis);
                if heights[next].is_none() {
                    let height =
                        best_height(next, axis, wish, wishes, &near[next], &heights, &placed[begin..]);
                    heights[next] = Some(height);
                    placed.push(next);
                    waiting.push_back(next);
                }
            }
        }
        lower_below(&mut heights, &placed, begin, lowest);
    }
    heights.into_iter().map(Option::unwrap_or_default).collect()
}

/// A train begins below everything that was put before it, also where it reaches above its first axis.
fn lower_below(heights: &mut [Option<f64>], placed: &[usize], begin: usize, lowest: f64) {
    let top = placed[begin..]
        .iter()
        .filter_map(|axis| heights[*axis])
        .fold(f64::INFINITY, f64::min);
    let by = lowest + BETWEEN_TRAINS - top;
    if begin > 0 && by > 0.0 {
        for axis in &placed[begin..] {
            heights[*axis] = heights[*axis].map(|height| height + by);
        }
    }
}

fn other(wish: Wish, axis: usize) -> usize {
    if wish.axes[0] == axis {
        wish.axes[1]
    } else {
        wish.axes[0]
    }
}

fn best_height(
    next: usize,
    from: usize,
    wish: Wish,
    wishes: &[Wish],
    near: &[usize],
    heights: &[Option<f64>],
    placed: &[usize],
) -> f64 {
    let start = heights[from].unwrap_or_default();
    let beside: Vec<(Wish, f64)> = near
        .iter()
        .filter_map(|number| Some((wishes[*number], heights[other(wishes[*number], next)]?)))
        .collect();
    let mut best = (f64::INFINITY, start + wish.distance);
    for (rank, share) in TRIED.into_iter().enumerate() {
        for (side, down) in [1.0, -1.0].into_iter().enumerate() {
            let height = start + down * wish.distance * share;
            let price = price(height, &beside, heights, placed) + side as f64 * 3.0 + rank as f64;
            if price < best.0 {
                best = (price, height);
            }
        }
    }
    best.1
}

fn price(height: f64, beside: &[(Wish, f64)], heights: &[Option<f64>], placed: &[usize]) -> f64 {
    let mut sum = 0.0;
    for (wish, there) in beside {
        let distance = (height - there).abs();
        sum += libm::log(distance.max(1.0) / wish.distance.max(1.0)).abs() * 30.0;
        let between = compared(placed)
            .iter()
            .filter_map(|axis| heights[*axis])
            .filter(|other| *other > height.min(*there) + 1.0 && *other < height.max(*there) - 1.0);
        sum += between.count() as f64 * 10.0;
    }
    for there in compared(placed).iter().filter_map(|axis| heights[*axis]) {
        let distance = (height - there).abs();
        let inside = beside
            .iter()
            .any(|(wish, other)| wish.is_inside && (*other - there).abs() < 1e-9);
        if distance < LEAST_GAP && !inside {
            sum += 60.0 + (LEAST_GAP - distance);
        }
    }
    sum
}

fn compared(placed: &[usize]) -> &[usize] {
    &placed[placed.len().saturating_sub(COMPARED)..]
}

/// Moves axes apart until each pair has at least the room it needs, and each axis is clear of what is drawn on its neighbours.
///
/// `rooms` is how far what is on an axis reaches to either side of it, wheels of pairs left out.
pub fn spread(heights: &mut [f64], needs: &[Wish], rooms: &[f64]) {
    let mut order: Vec<usize> = (0..heights.len()).collect();
    order.sort_by(|one, other| heights[*one].total_cmp(&heights[*other]).then(one.cmp(other)));
    for n in 1..order.len() {
        let axis = order[n];
        let mut least = f64::NEG_INFINITY;
        for need in needs.iter().filter(|need| need.axes.contains(&axis)) {
            let beside = other(*need, axis);
            if order[..n].contains(&beside) {
                least = least.max(heights[beside] + need.distance);
            }
        }
        let above = order[n - 1];
        let inside = needs
            .iter()
            .any(|need| need.is_inside && need.axes.contains(&axis) && need.axes.contains(&above));
        if !inside {
            least = least.max(heights[above] + (rooms[above].max(rooms[axis]) + 16.0).max(LEAST_GAP * 0.8));
        }
        let by = least - heights[axis];
        if by > 0.0 {
            for lower in &order[n..] {
                heights[*lower] += by;
            }
        }
    }
}
