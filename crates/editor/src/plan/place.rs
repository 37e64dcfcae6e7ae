//! Where axes stand: as given, else found from the distances that their wheels need.
//!
//! A view begins with what is given, or with its first axis. Then the axis that most distances bind to what stands already
//! comes next, each at the place that collides least and goes on most straight; two distances leave two places, one a whole
//! circle, of which a few dozen are tried. With bores, those at the right distance come first. The same layout gives the
//! same places.

use core::f64::consts::{PI, TAU};

use layshaft_layout::{BorePattern, Layout, Plan as Settings};

use super::parts::{Body, Bond, Parts};
use crate::geometry::Point;

/// Directions that are tried round an axis.
const DIRECTIONS: u32 = 24;
/// Free room between views, over the module.
const VIEW_GAP: f64 = 6.0;
/// How much further apart than touching wheels with a belt stand where nothing says where.
const STRAND_STRETCH: f64 = 1.4;
/// Bores that are looked through, at most.
const MOST_BORES: f64 = 4000.0;

/// The place of every axis.
#[must_use]
pub fn place(layout: &Layout, parts: &Parts) -> Vec<Point> {
    let mut placing = Placing::new(layout, parts);
    let mut views: Vec<usize> = parts.axes.iter().map(|axis| axis.view).collect();
    views.sort_unstable();
    views.dedup();
    // Views with a given axis stand where that says; the others go beside them.
    let given =
        |view: &usize| (0..parts.axes.len()).any(|n| parts.axes[n].view == *view && placing.at[n].is_some());
    let (fixed, free): (Vec<usize>, Vec<usize>) = views.into_iter().partition(|view| given(view));
    for view in fixed {
        placing.fill(view);
    }
    for view in free {
        placing.fill_beside(view);
    }
    placing.at.into_iter().map(Option::unwrap_or_default).collect()
}

/// Where an axis is said to be: its first shaft that says so.
#[must_use]
pub fn given(layout: &Layout, parts_axis: &super::Axis) -> Option<Point> {
    parts_axis
        .shafts
        .iter()
        .find_map(|id| layout.shaft(id)?.axis_mm)
        .map(Point::from)
}

/// Bores of the pattern within a distance of a place, in a fixed order.
#[must_use]
pub fn bores_near(settings: &Settings, middle: Point, reach: f64) -> Vec<Point> {
    let rise = match settings.bores {
        BorePattern::None => return Vec::new(),
        BorePattern::Points => {
            let points = settings.points_mm.iter().map(|point| Point::from(*point));
            return points.filter(|point| point.distance(middle) <= reach).collect();
        }
        BorePattern::Square => settings.pitch_mm,
        BorePattern::Triangular => settings.pitch_mm * 3.0_f64.sqrt() / 2.0,
    };
    let across = (2.0 * reach / settings.pitch_mm + 1.0) * (2.0 * reach / rise + 1.0);
    if across > MOST_BORES {
        return Vec::new();
    }
    let shifted = settings.bores == BorePattern::Triangular;
    let mut bores = Vec::new();
    let mut row = ((middle.y - reach) / rise).ceil();
    while row * rise <= middle.y + reach {
        let shift = if shifted && row.rem_euclid(2.0) > 0.5 {
            0.5
        } else {
            0.0
        };
        let mut column = ((middle.x - reach) / settings.pitch_mm - shift).ceil();
        while (column + shift) * settings.pitch_mm <= middle.x + reach {
            let bore = Point::new((column + shift) * settings.pitch_mm, row * rise);
            if bore.distance(middle) <= reach {
                bores.push(bore);
            }
            column += 1.0;
        }
        row += 1.0;
    }
    bores
}

/// Both places at given distances from two others; the nearest one where there is none.
#[must_use]
pub fn crossings(one: (Point, f64), other: (Point, f64)) -> Vec<Point> {
    let apart = one.0.distance(other.0);
    if apart < 1e-9 || apart > one.1 + other.1 || apart < (one.1 - other.1).abs() {
        return Vec::new();
    }
    let along = (apart * apart + one.1 * one.1 - other.1 * other.1) / (2.0 * apart);
    let across = (one.1 * one.1 - along * along).max(0.0).sqrt();
    let toward = (other.0 - one.0) * (1.0 / apart);
    let foot = one.0 + toward * along;
    vec![foot + toward.across() * across, foot - toward.across() * across]
}

struct Placing<'a> {
    layout: &'a Layout,
    parts: &'a Parts,
    at: Vec<Option<Point>>,
    /// Radius of all that is on an axis, and the numbers of its links.
    links: Vec<Vec<usize>>,
    bodies: Vec<Vec<(Body, usize)>>,
    /// Radius of the largest thing on each axis in mm.
    reaches: Vec<f64>,
}

impl<'a> Placing<'a> {
    fn new(layout: &'a Layout, parts: &'a Parts) -> Self {
        let mut links = vec![Vec::new(); parts.axes.len()];
        for (number, link) in parts.links.iter().enumerate() {
            if link.bond != Bond::Turned {
                links[link.axes[0]].push(number);
                links[link.axes[1]].push(number);
            }
        }
        let mut bodies = vec![Vec::new(); parts.axes.len()];
        for wheel in &parts.wheels {
            let reach = wheel.orbit.map_or(0.0, |orbit| orbit.radius_mm);
            let body = if reach > 0.0 {
                Body::Disc(reach + wheel.body.outer_radius())
            } else {
                wheel.body
            };
            bodies[wheel.axis].push((body, wheel.element));
        }
        let reach =
            |on: &Vec<(Body, usize)>| on.iter().map(|(body, _)| body.outer_radius()).fold(0.0, f64::max);
        let reaches = bodies.iter().map(reach).collect();
        Self {
            layout,
            parts,
            at: parts.axes.iter().map(|axis| given(layout, axis)).collect(),
            links,
            bodies,
            reaches,
        }
    }

    fn in_view(&self, view: usize) -> Vec<usize> {
        (0..self.at.len())
            .filter(|axis| self.parts.axes[*axis].view == view)
            .collect()
    }

    /// Places what is left of a view, one axis after the other.
    fn fill(&mut self, view: usize) {
        let axes = self.in_view(view);
        if axes.iter().all(|axis| self.at[*axis].is_none())
            && let Some(first) = axes.first()
        {
            self.at[*first] = Some(Point::default());
        }
        while let Some(next) = self.next_in(&axes) {
            self.at[next] = Some(self.best_place(next));
        }
    }

    /// Places a view of its own to the right of all others.
    fn fill_beside(&mut self, view: usize) {
        let before = self.at.clone();
        let right = self.edge(&before, 1.0);
        self.at.fill(None);
        self.fill(view);
        let own = std::mem::replace(&mut self.at, before);
        let left = self.edge(&own, -1.0);
        let gap = VIEW_GAP * self.layout.plan_module_mm();
        let shift = match (right, left) {
            (Some(right), Some(left)) => right + gap + left,
            _ => 0.0,
        };
        for (place, own) in self.at.iter_mut().zip(own) {
            *place = place.or(own.map(|own| own + Point::new(shift, 0.0)));
        }
    }

    /// How far what is placed reaches to one side.
    fn edge(&self, at: &[Option<Point>], sign: f64) -> Option<f64> {
        let reach = |axis: usize| {
            self.bodies[axis]
                .iter()
                .map(|(body, _)| body.outer_radius())
                .fold(1.0, f64::max)
        };
        let edges = at
            .iter()
            .enumerate()
            .filter_map(|(axis, at)| Some(at.as_ref()?.x * sign + reach(axis)));
        edges.reduce(f64::max)
    }

    /// The axis bound most to what is placed; the first of several.
    fn next_in(&self, axes: &[usize]) -> Option<usize> {
        let bound = |axis: &usize| {
            let placed = self.links[*axis]
                .iter()
                .filter(|link| self.at[self.other(**link, *axis)].is_some());
            let weight = |link: &usize| match self.parts.links[*link].bond {
                Bond::Apart(_) => 4,
                _ => 1,
            };
            placed.map(weight).sum::<i32>()
        };
        let open = axes.iter().filter(|axis| self.at[**axis].is_none());
        open.copied()
            .reduce(|best, axis| if bound(&axis) > bound(&best) { axis } else { best })
    }

    fn other(&self, link: usize, axis: usize) -> usize {
        let [one, other] = self.parts.links[link].axes;
        if one == axis { other } else { one }
    }

    /// Distances to axes that are placed: the place, the distance in mm.
    fn distances(&self, axis: usize) -> Vec<(Point, f64)> {
        let mut distances: Vec<(Point, f64)> = Vec::new();
        for link in &self.links[axis] {
            let Some(at) = self.at[self.other(*link, axis)] else {
                continue;
            };
            if let Bond::Apart(distance) = self.parts.links[*link].bond
                && !distances.iter().any(|(other, _)| other.distance(at) < 1e-9)
            {
                distances.push((at, distance));
            }
        }
        distances
    }

    fn best_place(&self, axis: usize) -> Point {
        let distances = self.distances(axis);
        let candidates = self.candidates(axis, &distances);
        let mut best: Option<(f64, Point)> = None;
        for candidate in candidates {
            let cost = self.cost(axis, candidate, &distances);
            if best.is_none_or(|(least, _)| cost < least - 1e-9) {
                best = Some((cost, candidate));
            }
        }
        best.map(|(_, place)| place).unwrap_or_default()
    }

    fn candidates(&self, axis: usize, distances: &[(Point, f64)]) -> Vec<Point> {
        let tolerance = self.layout.plan.tolerance_mm.max(1e-6);
        if let [first, rest @ ..] = distances {
            let fits = |bore: &Point| {
                distances
                    .iter()
                    .all(|(at, apart)| (bore.distance(*at) - apart).abs() <= tolerance)
            };
            let bores: Vec<Point> = bores_near(&self.layout.plan, first.0, first.1 + tolerance)
                .into_iter()
                .filter(fits)
                .collect();
            if !bores.is_empty() {
                return bores;
            }
            let crossing = rest
                .iter()
                .map(|other| crossings(*first, *other))
                .find(|found| !found.is_empty());
            return crossing.unwrap_or_else(|| round(first.0, first.1));
        }
        for link in &self.links[axis] {
            let link_to = &self.parts.links[*link];
            if let Some(at) = self.at[self.other(*link, axis)] {
                let radii = link_to
                    .wheels
                    .map(|wheel| self.parts.wheels[wheel].body.outer_radius());
                let places = round(at, (radii[0] + radii[1]) * STRAND_STRETCH);
                return places.into_iter().map(|place| self.on_bore(place)).collect();
            }
        }
        vec![Point::default()]
    }

    fn on_bore(&self, place: Point) -> Point {
        let bores = bores_near(&self.layout.plan, place, self.layout.plan.pitch_mm);
        let nearest = |one: &Point, other: &Point| one.distance(place).total_cmp(&other.distance(place));
        bores.into_iter().min_by(nearest).unwrap_or(place)
    }

    /// How bad a place is: axes inside wheels of others, wheels over wheels, distances to come that cannot close, and
    /// turning off to the side.
    fn cost(&self, axis: usize, place: Point, distances: &[(Point, f64)]) -> f64 {
        let linked: Vec<usize> = self.links[axis]
            .iter()
            .map(|link| self.other(*link, axis))
            .collect();
        let mut cost = 0.0;
        for (other, at) in self.at.iter().enumerate() {
            let Some(at) = at.filter(|_| other != axis) else {
                continue;
            };
            let apart = at.distance(place);
            if apart > self.reaches[axis] + self.reaches[other] {
                continue;
            }
            for (body, _) in &self.bodies[other] {
                if body.inner_radius().is_none() && apart < body.outer_radius() {
                    cost += if linked.contains(&other) { 2.0 } else { 6.0 };
                }
            }
            for (own, element) in &self.bodies[axis] {
                if own.inner_radius().is_none() && apart < own.outer_radius() {
                    cost += if linked.contains(&other) { 2.0 } else { 6.0 };
                }
                for (body, theirs) in &self.bodies[other] {
                    let reach = own.outer_radius() + body.outer_radius();
                    if element != theirs
                        && own.inner_radius().is_none()
                        && body.inner_radius().is_none()
                        && apart < reach
                    {
                        cost += (reach - apart) / reach;
                    }
                }
            }
        }
        for (at, apart) in distances.iter().skip(1) {
            cost += (place.distance(*at) - apart).abs();
        }
        cost + self.ahead(axis, place) + turning_off(place, distances.first().map(|(at, _)| *at))
    }

    /// What comes later and hangs on this axis and on one that is placed must have a place.
    fn ahead(&self, axis: usize, place: Point) -> f64 {
        let mut cost = 0.0;
        for link in &self.links[axis] {
            let next = self.other(*link, axis);
            let Bond::Apart(own) = self.parts.links[*link].bond else {
                continue;
            };
            if self.at[next].is_some() {
                continue;
            }
            for (at, apart) in self.distances(next) {
                let between = at.distance(place);
                cost += (between - own - apart).max(0.0) + ((own - apart).abs() - between).max(0.0);
            }
        }
        cost
    }
}

/// Straight on to the right is best, back to the left worst; up is a shade better than down.
fn turning_off(place: Point, from: Option<Point>) -> f64 {
    let Some(from) = from else { return 0.0 };
    let way = place - from;
    let angle = libm::atan2(way.y, way.x);
    0.3 * angle.abs() / PI + if angle > 0.0 { 1e-4 } else { 0.0 }
}

fn round(middle: Point, radius: f64) -> Vec<Point> {
    let direction = |n: u32| TAU * f64::from(n) / f64::from(DIRECTIONS);
    (0..DIRECTIONS)
        .map(|n| middle + Point::new(libm::cos(direction(n)), libm::sin(direction(n))) * radius)
        .collect()
}
