//! Going through the signs of a block whose solution is not proven unique: all of them where they are few, else a search
//! that follows wrong signs and stops at a limit.

use super::block::{Block, Found};

/// Up to so many lossy columns every choice of signs is tried.
const ALL_SIGNS: usize = 16;
/// Operations that the search of many signs may take, so that a drawing never waits for it.
const SEARCH_BUDGET: usize = 30_000_000;
/// Relative closeness at which two solutions are one.
const SAME: f64 = 1e-9;

/// The solutions of a block, by their signs.
pub(super) fn search(block: &Block, right_hand_side: &[f64]) -> Found {
    let lossy = block.lossy();
    let mut search = Search {
        block,
        right_hand_side,
        lossy,
        found: Vec::new(),
    };
    let complete = search.lossy.len() <= ALL_SIGNS;
    if complete {
        search.all();
    } else {
        search.some();
    }
    Found {
        solutions: search.found,
        complete,
    }
}

struct Search<'a> {
    block: &'a Block,
    right_hand_side: &'a [f64],
    lossy: Vec<usize>,
    found: Vec<Vec<f64>>,
}

impl Search<'_> {
    fn all(&mut self) {
        for pattern in 0_u32..1 << self.lossy.len() {
            let mut signs = vec![0.0; self.block.size()];
            for (bit, &column) in self.lossy.iter().enumerate() {
                signs[column] = if pattern >> bit & 1 == 0 { 1.0 } else { -1.0 };
            }
            self.look_at(&signs);
        }
    }

    /// Solves with the given signs, keeps the solution if it has these signs and is new, and names the wrong ones.
    fn look_at(&mut self, signs: &[f64]) -> Option<Vec<usize>> {
        let x = self.block.with_signs(signs, self.right_hand_side)?;
        let wrong: Vec<usize> = self
            .lossy
            .iter()
            .copied()
            .filter(|&column| x[column] * signs[column] < 0.0)
            .collect();
        let close = |other: &Vec<f64>| {
            let size = x.iter().fold(0.0_f64, |size, value| size.max(value.abs()));
            x.iter().zip(other).all(|(a, b)| (a - b).abs() <= SAME * size)
        };
        if wrong.is_empty() && !self.found.iter().any(close) {
            self.found.push(x);
        }
        Some(wrong)
    }

    /// Starts from the lossless solution's signs and from all alike, and turns wrong signs round: all at once (Newton's
    /// step) and one by one.
    fn some(&mut self) {
        let size = self.block.size();
        let mut starts = vec![vec![1.0; size], vec![-1.0; size]];
        if let Some(x) = self.block.with_signs(&vec![0.0; size], self.right_hand_side) {
            starts.push(
                x.iter()
                    .map(|&value| if value < 0.0 { -1.0 } else { 1.0 })
                    .collect(),
            );
        }
        let most = (SEARCH_BUDGET / (size * size)).clamp(50, 20_000);
        let mut tried = std::collections::BTreeSet::new();
        while let Some(signs) = starts.pop() {
            let key: Vec<bool> = signs.iter().map(|&sign| sign < 0.0).collect();
            if tried.len() >= most || !tried.insert(key) {
                continue;
            }
            let Some(wrong) = self.look_at(&signs) else {
                continue;
            };
            let single = wrong.iter().chain(self.lossy.iter().take(2));
            starts.extend(single.map(|&column| flipped(&signs, &[column])));
            starts.push(flipped(&signs, &wrong));
        }
    }
}

fn flipped(signs: &[f64], columns: &[usize]) -> Vec<f64> {
    let mut flipped = signs.to_vec();
    for &column in columns {
        flipped[column] = -flipped[column];
    }
    flipped
}

/// −1, 0 or 1; unlike `signum`, which calls a zero positive or negative.
pub(crate) fn sign(value: f64) -> f64 {
    if value > 0.0 {
        1.0
    } else if value < 0.0 {
        -1.0
    } else {
        0.0
    }
}
