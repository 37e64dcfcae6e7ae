//! Ribbons of power and slivers of loss: from powers to widths, from widths to outlines.

use std::fmt::Write as _;

use super::items::{Ribbon, Sliver};
use crate::geometry::{Point, Rect};
use crate::numbers;
use layshaft_quantity::Power;
use layshaft_report::PositionReport;

/// Width of the widest ribbon.
pub const WIDEST: f64 = 26.0;
/// Width below which a ribbon could not be seen.
const NARROWEST: f64 = 1.5;
/// Distance between chevrons.
const PITCH: f64 = 14.0;
/// How long chevrons take for one such distance.
const PERIOD_S: f64 = 1.6;
/// Chevrons on one ribbon at most; beyond, they stand further apart.
const MOST_CHEVRONS: f64 = 24.0;

/// How powers become widths: in proportion, so that what goes in is as wide as what comes out and what is lost.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    /// The power that is drawn [`WIDEST`] wide.
    pub full: Power,
}

impl Scale {
    /// One scale for all positions, so that they can be compared: the next of 1, 2, 5, 10… W above the largest.
    /// None where no power flows.
    #[must_use]
    pub fn for_positions<'a>(positions: impl Iterator<Item = &'a PositionReport>) -> Option<Self> {
        let largest = positions
            .flat_map(|position| &position.elements)
            .flat_map(|element| &element.ports)
            .map(|port| port.power.abs().to_watts())
            .filter(|watts| watts.is_finite())
            .fold(0.0, f64::max);
        (largest > 1e-9).then(|| Self {
            full: Power::watts(round_up(largest)),
        })
    }

    /// The width of a power.
    #[must_use]
    pub fn width(&self, power: Power) -> f64 {
        (WIDEST * (power.abs() / self.full)).clamp(NARROWEST, WIDEST)
    }

    /// Whether a power is worth drawing at all.
    #[must_use]
    pub fn shows(&self, power: Power) -> bool {
        power.is_finite() && power.abs() / self.full > 1e-6
    }
}

/// The next of 1, 2, 5, 10 … at or above a positive number.
#[must_use]
pub fn round_up(value: f64) -> f64 {
    let mut decade = 1.0;
    while decade > value {
        decade /= 10.0;
    }
    while decade * 10.0 < value {
        decade *= 10.0;
    }
    [1.0, 2.0, 5.0]
        .map(|step| step * decade)
        .into_iter()
        .find(|step| *step >= value)
        .unwrap_or(decade * 10.0)
}

/// A number in path data: a tenth of a unit is finer than any screen.
pub fn coordinate(value: f64) -> f64 {
    let rounded = (value * 10.0).round() / 10.0;
    if rounded == 0.0 { 0.0 } else { rounded }
}

/// A point in path data.
pub fn place(at: Point) -> String {
    format!("{} {}", coordinate(at.x), coordinate(at.y))
}

/// A ribbon along the flow from one point to another; `looped`: with doubled edges.
#[must_use]
pub fn ribbon(from: Point, to: Point, power: Power, scale: &Scale, looped: bool) -> Ribbon {
    let width = scale.width(power);
    let length = from.distance(to);
    let side = (to - from).unit().across();
    // A ribbon across the whole bench needs no more chevrons than one across a screen.
    let pitch = PITCH.max(length / MOST_CHEVRONS);
    Ribbon {
        outline: band(from, to, side * (width / 2.0)),
        double_edge: looped.then(|| edges(from, to, side * (width / 2.0 + 3.0))),
        origin: from,
        angle_deg: coordinate((to - from).angle_deg()),
        length: coordinate(length),
        width: coordinate(width),
        chevrons: chevrons(length, width, pitch),
        pitch: coordinate(pitch),
        period_s: PERIOD_S * pitch / PITCH,
    }
}

/// The doubled edges of circulating power along the long sides of a box.
#[must_use]
pub fn doubled(room: &Rect) -> String {
    let middle = room.centre();
    edges(
        Point::new(room.x, middle.y),
        Point::new(room.right(), middle.y),
        Point::new(0.0, room.height / 2.0 + 3.0),
    )
}

fn band(from: Point, to: Point, half: Point) -> String {
    format!(
        "M{}L{}L{}L{}Z",
        place(from + half),
        place(to + half),
        place(to - half),
        place(from - half)
    )
}

fn edges(from: Point, to: Point, half: Point) -> String {
    format!(
        "M{}L{}M{}L{}",
        place(from + half),
        place(to + half),
        place(from - half),
        place(to - half)
    )
}

/// Chevrons that fit into a length with one pitch to spare for their movement.
fn chevrons(length: f64, width: f64, pitch: f64) -> String {
    let half = coordinate((width / 2.0 - 1.5).clamp(3.0, 7.0));
    let mut path = String::new();
    let mut x = 2.0;
    while x + pitch <= length {
        let _ = write!(path, "M{} {}l{half} {half}l-{half} {half}", coordinate(x), -half);
        x += pitch;
    }
    path
}

/// A sliver of loss that leaves a symbol at `foot`, away from it along `out`, bending into the flow's direction.
#[must_use]
pub fn sliver(foot: Point, out: Point, along: Point, loss: Power, scale: &Scale) -> Sliver {
    let width = scale.width(loss);
    let half = along * (width / 2.0);
    let reach = 10.0 + width / 2.0;
    let tip = foot + out * reach + along * reach;
    let tip_half = out * (width / 2.0);
    let outer = foot - half;
    let inner = foot + half;
    Sliver {
        outline: format!(
            "M{}Q{} {}L{}Q{} {}Z",
            place(outer),
            place(outer + out * (10.0 + width)),
            place(tip + tip_half),
            place(tip - tip_half),
            place(inner + out * 10.0),
            place(inner)
        ),
        width: coordinate(width),
        bounds: Rect::between(outer, tip + tip_half).union(&Rect::between(inner, tip - tip_half)),
        title: format!("{} becomes heat", numbers::power(loss).text()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scales_end_in_round_numbers() {
        for (value, expected) in [(1.95, 2.0), (2.0, 2.0), (2.1, 5.0), (51.0, 100.0), (0.03, 0.05)] {
            assert!(
                (round_up(value) / expected - 1.0).abs() < 1e-9,
                "{value}: {}",
                round_up(value)
            );
        }
    }

    #[test]
    fn a_ribbon_across_any_bench_has_few_chevrons_at_the_same_speed() {
        let scale = Scale {
            full: Power::watts(1.0),
        };
        let far = ribbon(
            Point::default(),
            Point::new(1e6, 0.0),
            Power::watts(1.0),
            &scale,
            false,
        );
        assert!(far.chevrons.matches('M').count() <= 24);
        assert!((far.pitch / far.period_s - PITCH / PERIOD_S).abs() < 1e-3);
    }

    #[test]
    fn chevrons_keep_a_pitch_to_move_in() {
        let ribbon = ribbon(
            Point::default(),
            Point::new(40.0, 0.0),
            Power::watts(1.0),
            &Scale {
                full: Power::watts(1.0),
            },
            false,
        );
        assert_eq!(ribbon.chevrons.matches('M').count(), 2);
    }
}
