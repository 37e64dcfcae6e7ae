//! Lines of equal efficiency: which ones, their paths, and where their numbers stand.

use layshaft_powerflow::{Motor, WorkPoint};

use super::{Contour, Plane};
use crate::geometry::Point;
use crate::runs::ticks::step;
use crate::wording::motor_map as words;

/// Most lines, and points of each.
const MOST_LINES: usize = 8;
const STEPS: u32 = 32;
/// A line closer to the best point than this share of it would be a speck.
const NEAR_BEST: f64 = 0.98;
/// Room that a number takes.
const LABEL: (f64, f64) = (34.0, 15.0);

/// Where a number may stand on its line's upper branch, as shares of its height: halfway up by preference, where the lines
/// lie far apart.
const HEIGHTS: [f64; 4] = [0.5, 0.68, 0.34, 0.84];

/// Lines at round efficiencies; those whose number finds no room are left out, the lowest first.
pub fn contours(motor: &Motor, plane: &Plane) -> Vec<Contour> {
    // Without friction of its own the efficiency nears Kt/Ke as the load goes.
    let best = motor.best_efficiency().and_then(|best| best.efficiency);
    let top = best.unwrap_or(motor.torque_constant / motor.back_emf);
    let step = step(top, MOST_LINES);
    let mut contours: Vec<Contour> = Vec::new();
    for number in (1_u32..=16).rev() {
        let efficiency = f64::from(number) * step;
        if efficiency > top * NEAR_BEST {
            continue;
        }
        let line = motor.contour(efficiency, STEPS);
        let free = |label: &Point| {
            label.x - LABEL.0 / 2.0 >= plane.area.x
                && contours.iter().all(|other| is_apart(*label, other.label))
        };
        let mut places = HEIGHTS
            .iter()
            .filter_map(|height| at_height(plane, &line, *height));
        if let Some(label) = places.find(free) {
            contours.push(Contour {
                path: path(plane, &line),
                text: words::level(efficiency, step),
                label,
                efficiency,
            });
        }
    }
    contours.reverse();
    contours
}

fn is_apart(one: Point, other: Point) -> bool {
    (one.x - other.x).abs() >= LABEL.0 || (one.y - other.y).abs() >= LABEL.1
}

fn path(plane: &Plane, line: &[WorkPoint]) -> String {
    let mut path = String::new();
    for point in line {
        let at = plane.at(point.speed, point.torque);
        path.push(if path.is_empty() { 'M' } else { 'L' });
        path.push_str(&format!("{:.1} {:.1}", at.x, at.y));
    }
    path.push('Z');
    path
}

/// The place on a line at a share of its height.
fn at_height(plane: &Plane, line: &[WorkPoint], height: f64) -> Option<Point> {
    let (first, last) = (line.first()?, line.last()?);
    let wanted = first.torque + (last.torque - first.torque) * height;
    let after = line.iter().position(|point| point.torque >= wanted)?.max(1);
    let [before, after] = [line.get(after - 1)?, line.get(after)?];
    let share = (wanted - before.torque) / (after.torque - before.torque);
    let [from, to] = [before, after].map(|point| plane.at(point.speed, point.torque));
    Some(Point::new(
        from.x + (to.x - from.x) * share,
        from.y + (to.y - from.y) * share,
    ))
}
