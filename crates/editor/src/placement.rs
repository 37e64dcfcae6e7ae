//! Where things go that were given no place: a free spot beside a shaft, or layers from the drive to the right.

use std::collections::{BTreeMap, BTreeSet};

use layshaft_layout::{Id, Layout};

use crate::geometry::Point;
use crate::parts::is_frame;

/// Distance between two shafts that are placed side by side, in bench units.
pub const SHAFT_PITCH: f64 = 160.0;
/// Distance between two rows of shafts, in bench units.
pub const ROW_PITCH: f64 = 140.0;
/// Distance between grid lines, in bench units.
pub const GRID: f64 = 20.0;
/// Distance between the symbol and the shafts that are placed with it.
pub const REACH: f64 = SHAFT_PITCH / 2.0;

/// A place on the grid.
#[must_use]
pub fn on_grid(at: Point) -> Point {
    Point::new((at.x / GRID).round() * GRID, (at.y / GRID).round() * GRID)
}

/// A free place for a shaft beside another one: to the right if there is room, else below, above or further off.
#[must_use]
pub fn free_spot(layout: &Layout, beside: Point, taken: &[Point]) -> Point {
    let is_free = |at: Point| {
        let shafts = layout.shafts.iter().map(|shaft| Point::from(shaft.at));
        shafts
            .chain(taken.iter().copied())
            .all(|other| other.distance(at) >= SHAFT_PITCH * 0.55)
    };
    let rows = [0.0, 1.0, -1.0, 2.0, -2.0, 3.0, -3.0];
    let mut candidates = (1..8).flat_map(|column| {
        rows.map(|row| beside + Point::new(f64::from(column) * SHAFT_PITCH, row * ROW_PITCH))
    });
    on_grid(
        candidates
            .find(|at| is_free(*at))
            .unwrap_or(beside + Point::new(SHAFT_PITCH, 0.0)),
    )
}

/// Places for all shafts: one layer for every step from the drive, layers from left to right, each centred.
#[must_use]
pub fn arranged(layout: &Layout, drive: Option<&Id>) -> Vec<(Id, [f64; 2])> {
    let layers = layers(layout, drive);
    let mut rows: BTreeMap<usize, Vec<&Id>> = BTreeMap::new();
    for shaft in &layout.shafts {
        rows.entry(layers.get(&shaft.id).copied().unwrap_or(0))
            .or_default()
            .push(&shaft.id);
    }
    let mut places = Vec::new();
    let mut heights = BTreeMap::new();
    for (layer, mut ids) in rows {
        // Beside what they are joined to: sorting by the mean height of neighbours keeps wires from crossing.
        ids.sort_by(|one, other| {
            mean_height(layout, one, &heights).total_cmp(&mean_height(layout, other, &heights))
        });
        let top = -(ids.len() as f64 - 1.0) * ROW_PITCH / 2.0;
        for (row, id) in ids.into_iter().enumerate() {
            let y = top + row as f64 * ROW_PITCH;
            heights.insert(id.clone(), y);
            places.push((id.clone(), [layer as f64 * SHAFT_PITCH, y]));
        }
    }
    places
}

fn neighbours<'a>(layout: &'a Layout, shaft: &Id) -> BTreeSet<&'a Id> {
    let mut found = BTreeSet::new();
    for element in &layout.elements {
        let ports = element.ports();
        if ports.iter().any(|(_, on)| *on == shaft) {
            found.extend(
                ports
                    .into_iter()
                    .map(|(_, on)| on)
                    .filter(|on| *on != shaft && !is_frame(on)),
            );
        }
    }
    found
}

fn mean_height(layout: &Layout, shaft: &Id, heights: &BTreeMap<Id, f64>) -> f64 {
    let known: Vec<f64> = neighbours(layout, shaft)
        .into_iter()
        .filter_map(|id| heights.get(id).copied())
        .collect();
    if known.is_empty() {
        0.0
    } else {
        known.iter().sum::<f64>() / known.len() as f64
    }
}

/// Steps from the drive; parts that nothing joins to it follow as if each had a drive of its own.
fn layers(layout: &Layout, drive: Option<&Id>) -> BTreeMap<Id, usize> {
    let mut layers = BTreeMap::new();
    let starts = drive
        .into_iter()
        .chain(layout.shafts.iter().map(|shaft| &shaft.id));
    for start in starts {
        if layers.contains_key(start) {
            continue;
        }
        layers.insert(start.clone(), 0);
        let mut front = vec![start.clone()];
        let mut layer = 0;
        while !front.is_empty() {
            layer += 1;
            let mut next = Vec::new();
            for shaft in &front {
                for neighbour in neighbours(layout, shaft) {
                    if !layers.contains_key(neighbour) {
                        layers.insert(neighbour.clone(), layer);
                        next.push(neighbour.clone());
                    }
                }
            }
            front = next;
        }
    }
    layers
}
