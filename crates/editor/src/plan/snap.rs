//! Where a dragged axis comes to rest: where its wheels mesh with two others, on a bore, or at the right distance from one.

use layshaft_layout::Layout;

use super::parts::Bond;
use super::{Plan, place};
use crate::geometry::Point;

/// A place with the partners that it is right for.
#[derive(Clone, Debug, PartialEq)]
pub struct Rest {
    /// The place.
    pub at: Point,
    /// Axes that it is at the right distance from.
    pub partners: Vec<usize>,
}

/// The place near one, within a reach in mm, at which an axis snaps; the place itself where nothing draws it.
#[must_use]
pub fn snap(layout: &Layout, plan: &Plan, axis: usize, to: Point, reach: f64) -> Rest {
    let circles: Vec<(usize, f64)> = plan
        .links
        .iter()
        .filter_map(|link| {
            let Bond::Apart(distance) = link.bond else {
                return None;
            };
            match link.axes {
                [one, other] if one == axis => Some((other, distance)),
                [one, other] if other == axis => Some((one, distance)),
                _ => None,
            }
        })
        .collect();
    let pairs = circles
        .iter()
        .enumerate()
        .flat_map(|(n, one)| circles[n + 1..].iter().map(move |other| (*one, *other)));
    let crossings = pairs.flat_map(|((one, near), (other, far))| {
        place::crossings((plan.at[one], near), (plan.at[other], far))
    });
    let bores = place::bores_near(&layout.plan, to, reach);
    let on_circles = circles.iter().map(|(other, distance)| {
        let middle = plan.at[*other];
        middle + (to - middle).unit() * *distance
    });
    let nearest = |places: Vec<Point>| {
        let near = places.into_iter().filter(|place| place.distance(to) <= reach);
        near.min_by(|one, other| one.distance(to).total_cmp(&other.distance(to)))
    };
    let at = nearest(crossings.collect())
        .or_else(|| nearest(bores))
        .or_else(|| nearest(on_circles.collect()))
        .map_or(to, rounded);
    let right = |(other, distance): &&(usize, f64)| (plan.at[*other].distance(at) - distance).abs() <= 1e-3;
    let partners = circles.iter().filter(right).map(|(other, _)| *other).collect();
    Rest { at, partners }
}

/// To a ten-thousandth of a millimetre, which keeps files short.
#[must_use]
pub fn rounded(at: Point) -> Point {
    let tidy = |part: f64| (part * 1e4).round() / 1e4 + 0.0;
    Point::new(tidy(at.x), tidy(at.y))
}
