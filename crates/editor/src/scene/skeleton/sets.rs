//! Carrier sets in section: sun or side gears on the axis, planets above and below, the carrier's web, the ring round it.
//!
//! After the usual schematics of epicyclic trains (from memory of ISO 3952-2 and of common practice): gears are strokes with their
//! rims, a web joins the planets' pins to the carrier's shaft, a bracket the ring's rim to its own.

use layshaft_layout::{ElementKind, Planetary, Planets, Stepped, SteppedRatio};

use super::nesting::STEP;
use super::pen::Pen;
use super::setting::Setting;
use crate::scene::picture::LineType;

/// Half the length of a rim.
pub const RIM: f64 = 6.0;
/// Half the gap between rims that mesh.
pub const TOUCH: f64 = 1.4;
/// How far out the pitch circle of a ring lies at least.
const RING: f64 = 50.0;
/// Columns of webs from the middle of a planetary set.
const CARRIER_WEB: f64 = 15.0;
const RING_WEB: f64 = 24.0;
/// Side gears of a differential, and webs of its cage.
const SIDE: f64 = 13.0;
const CAGE_WEB: f64 = 23.0;
/// Centre gears of a stepped set, webs of its carrier and of its rings.
const STEPPED: f64 = 14.0;
const STEPPED_WEB: f64 = 25.0;
const STEPPED_RING: f64 = 33.0;

/// Where a member's shaft meets it: coming from the left, and going on to the right.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Joint {
    /// Column where a shaft from the left ends.
    pub left: f64,
    /// Column where a shaft to the right begins.
    pub right: f64,
}

impl Joint {
    /// One that a shaft goes through.
    pub const fn at(x: f64) -> Self {
        Self { left: x, right: x }
    }

    const fn webs(x: f64, off: f64) -> Self {
        Self {
            left: x - off,
            right: x + off,
        }
    }
}

/// Which central gears of a stepped set are rings.
pub fn rings(ratio: &SteppedRatio) -> [bool; 2] {
    match ratio {
        SteppedRatio::Teeth {
            first_is_ring,
            second_is_ring,
            ..
        } => [*first_is_ring, *second_is_ring],
        // Of two central gears that turn opposite ways with the carrier held, one is a ring.
        SteppedRatio::Basic([n, d]) => [false, (*n < 0) != (*d < 0)],
    }
}

/// Half the width of a set.
pub fn half_width(kind: &ElementKind) -> f64 {
    match kind {
        ElementKind::Planetary(_) => RING_WEB + 4.0,
        ElementKind::Stepped(_) => STEPPED_RING + 4.0,
        _ => CAGE_WEB + 5.0,
    }
}

/// How far a set reaches from its axis, from the largest radius of its members' shafts.
pub fn room(kind: &ElementKind, radius: f64) -> f64 {
    match kind {
        ElementKind::Differential(_) => cage(radius) + 4.0,
        _ => RING + radius + 8.0,
    }
}

fn cage(radius: f64) -> f64 {
    30.0 + radius
}

/// Whether the first of two like members stands on the right: its shaft leads there, or the other's to the left.
fn is_turned(setting: &Setting<'_>, station: usize, pins: [Option<usize>; 2]) -> bool {
    let bias = |pin: Option<usize>| {
        pin.map_or(0, |piece| {
            let (left, right) = setting.sides(piece, station);
            i32::from(right) - i32::from(left)
        })
    };
    bias(pins[0]) > bias(pins[1])
}

/// Where each member's shaft meets a set, in the order of its pins.
pub fn joints(setting: &Setting<'_>, station: usize) -> Vec<Joint> {
    let x = setting.xs[station];
    let pins = &setting.train.stations[station].pins;
    match setting.element(station).map(|element| &element.kind) {
        Some(ElementKind::Planetary(_)) => vec![
            Joint::at(x),
            Joint::webs(x, RING_WEB),
            Joint::webs(x, CARRIER_WEB),
        ],
        Some(ElementKind::Differential(_)) => {
            let turned = if is_turned(setting, station, [pins[0], pins[1]]) {
                -1.0
            } else {
                1.0
            };
            vec![
                Joint::at(x - turned * SIDE),
                Joint::at(x + turned * SIDE),
                Joint::webs(x, CAGE_WEB),
            ]
        }
        Some(ElementKind::Stepped(set)) => {
            let turned = if is_turned(setting, station, [pins[0], pins[1]]) {
                -1.0
            } else {
                1.0
            };
            let rings = rings(&set.ratio);
            let central = |ring: bool, side: f64| {
                if ring {
                    Joint::webs(x, STEPPED_RING)
                } else {
                    Joint::at(x + side * STEPPED)
                }
            };
            vec![
                central(rings[0], -turned),
                central(rings[1], turned),
                Joint::webs(x, STEPPED_WEB),
            ]
        }
        _ => Vec::new(),
    }
}

/// Draws a set.
pub fn draw(setting: &Setting<'_>, station: usize, pen: &mut Pen) {
    match setting.element(station).map(|element| &element.kind) {
        Some(ElementKind::Planetary(set)) => planetary(setting, station, set, pen),
        Some(ElementKind::Differential(_)) => differential(setting, station, pen),
        Some(ElementKind::Stepped(set)) => stepped(setting, station, set, pen),
        _ => {}
    }
}

/// What a member of a set is drawn from.
struct Member {
    radius: f64,
    left: bool,
    right: bool,
    is_fixed: bool,
}

fn member(setting: &Setting<'_>, station: usize, pin: usize) -> Member {
    match setting.train.stations[station].pins[pin] {
        None => Member {
            radius: 0.0,
            left: false,
            right: false,
            is_fixed: true,
        },
        Some(piece) => {
            let (left, right) = setting.sides(piece, station);
            Member {
                radius: setting.radius(piece),
                left,
                right,
                is_fixed: false,
            }
        }
    }
}

impl Member {
    /// The sides on which a web is drawn: where its shaft is, the usual one where it has none.
    fn webs(&self, usual: f64) -> Vec<f64> {
        match (self.left, self.right) {
            (true, true) => vec![-1.0, 1.0],
            (true, false) => vec![-1.0],
            (false, true) => vec![1.0],
            (false, false) if self.is_fixed => Vec::new(),
            (false, false) => vec![usual],
        }
    }
}

/// A gear as a stroke between two radii, mirrored at the axis, with its rims.
fn gear(pen: &mut Pen, x: f64, y: f64, inner: f64, outer: f64) {
    for side in [-1.0, 1.0] {
        pen.line(
            LineType::Outline,
            (x, y + side * inner),
            (x, y + side * (outer - TOUCH)),
        );
        let rim = y + side * (outer - TOUCH);
        pen.line(LineType::Outline, (x - RIM, rim), (x + RIM, rim));
    }
}

/// A planet above and one below the axis, about a pin at some radius.
fn planet(pen: &mut Pen, x: f64, y: f64, centre: f64, radius: f64) {
    for side in [-1.0, 1.0] {
        let at = y + side * centre;
        pen.line(
            LineType::Outline,
            (x, at - radius + TOUCH),
            (x, at + radius - TOUCH),
        );
        for rim in [at - radius + TOUCH, at + radius - TOUCH] {
            pen.line(LineType::Outline, (x - RIM, rim), (x + RIM, rim));
        }
    }
}

/// The carrier: pins of the planets, and webs to its shaft; fixed to the frame where it is.
fn carrier(pen: &mut Pen, (x, y): (f64, f64), member: &Member, centres: &[f64], half: f64, web: f64) {
    let (from, to) = (x - half, x + half);
    let webs = member.webs(-1.0);
    for side in [-1.0, 1.0] {
        for centre in centres {
            let at = y + side * centre;
            let left = if webs.contains(&-1.0) || member.is_fixed {
                x - web
            } else {
                from
            };
            let right = if webs.contains(&1.0) { x + web } else { to };
            pen.line(LineType::Outline, (left, at), (right, at));
            if member.is_fixed {
                pen.wall((x - web, at), 6.0, -1.0);
            }
        }
        for off in &webs {
            let furthest = centres.iter().copied().fold(0.0, f64::max);
            let end = furthest.max(member.radius);
            let start = member
                .radius
                .min(centres.iter().copied().fold(f64::INFINITY, f64::min));
            pen.line(
                LineType::Outline,
                (x + off * web, y + side * start),
                (x + off * web, y + side * end),
            );
        }
    }
}

/// A ring's rim with its bracket.
fn ring(
    pen: &mut Pen,
    (x, y): (f64, f64),
    member: &Member,
    radius: f64,
    (middle, web): (f64, f64),
    usual: f64,
) {
    let out = radius + TOUCH;
    let webs = member.webs(usual);
    for side in [-1.0, 1.0] {
        let rim = y + side * out;
        let left = if webs.contains(&-1.0) {
            middle - web
        } else {
            x - RIM - 2.0
        };
        let right = if webs.contains(&1.0) {
            middle + web
        } else {
            x + RIM + 2.0
        };
        pen.line(LineType::Outline, (left, rim), (right, rim));
        if member.is_fixed {
            pen.line(LineType::Outline, (x, rim), (x, rim + side * 5.0));
            pen.frame((x, rim + side * 5.0), 8.0, side);
        }
        for off in &webs {
            pen.line(
                LineType::Outline,
                (middle + off * web, rim),
                (middle + off * web, y + side * member.radius),
            );
        }
    }
}

fn planetary(setting: &Setting<'_>, station: usize, set: &Planetary, pen: &mut Pen) {
    let (x, y) = (
        setting.xs[station],
        setting.ys[setting.train.stations[station].axes[0]],
    );
    let (sun, ring_member, carrier_member) = (
        member(setting, station, 0),
        member(setting, station, 1),
        member(setting, station, 2),
    );
    let widest = [&sun, &ring_member, &carrier_member]
        .iter()
        .map(|member| member.radius)
        .fold(0.0, f64::max);
    let ring_radius = RING + widest.min(4.0 * STEP);
    let sun_radius = (ring_radius * f64::from(set.sun_teeth) / f64::from(set.ring_teeth.max(1)))
        .clamp(sun.radius + 7.0, (ring_radius - 22.0).max(sun.radius + 7.0));
    gear(pen, x, y, sun.radius, sun_radius);
    let room = ring_radius - sun_radius;
    let centres = match set.planets {
        Planets::Single => {
            planet(pen, x, y, sun_radius + room / 2.0, room / 2.0);
            vec![sun_radius + room / 2.0]
        }
        Planets::Double => {
            let quarter = room / 4.0;
            planet(pen, x, y, sun_radius + quarter, quarter);
            planet(pen, x, y, sun_radius + 3.0 * quarter, quarter);
            vec![sun_radius + quarter, sun_radius + 3.0 * quarter]
        }
    };
    carrier(pen, (x, y), &carrier_member, &centres, 5.0, CARRIER_WEB);
    ring(pen, (x, y), &ring_member, ring_radius, (x, RING_WEB), 1.0);
}

fn stepped(setting: &Setting<'_>, station: usize, set: &Stepped, pen: &mut Pen) {
    let (x, y) = (
        setting.xs[station],
        setting.ys[setting.train.stations[station].axes[0]],
    );
    let pins = &setting.train.stations[station].pins;
    let turned = if is_turned(setting, station, [pins[0], pins[1]]) {
        -1.0
    } else {
        1.0
    };
    let central = [member(setting, station, 0), member(setting, station, 1)];
    let carrier_member = member(setting, station, 2);
    let rings = rings(&set.ratio);
    let widest = central
        .iter()
        .chain([&carrier_member])
        .map(|member| member.radius)
        .fold(0.0, f64::max);
    let centre = 30.0 + widest.min(4.0 * STEP);
    let shares = match &set.ratio {
        SteppedRatio::Teeth { first, second, .. } => [
            share(first[0], first[1], rings[0]),
            share(second[1], second[0], rings[1]),
        ],
        SteppedRatio::Basic(_) => [0.5, 0.35],
    };
    for n in 0..2 {
        let column = x + if n == 0 {
            -turned * STEPPED
        } else {
            turned * STEPPED
        };
        let room = centre - if rings[n] { 0.0 } else { central[n].radius };
        let radius = (shares[n] * centre).clamp(7.0, (room - 7.0).max(7.0));
        planet(pen, column, y, centre, radius);
        if rings[n] {
            let usual = if column < x { -1.0 } else { 1.0 };
            ring(
                pen,
                (column, y),
                &central[n],
                centre + radius,
                (x, STEPPED_RING),
                usual,
            );
        } else {
            gear(pen, column, y, central[n].radius, centre - radius);
        }
    }
    carrier(pen, (x, y), &carrier_member, &[centre], STEPPED, STEPPED_WEB);
}

/// A planet's radius over its distance from the axis.
fn share(central: u32, planet: u32, is_ring: bool) -> f64 {
    let (central, planet) = (f64::from(central), f64::from(planet));
    let centre = if is_ring {
        (central - planet).max(1.0)
    } else {
        central + planet
    };
    (planet / centre).clamp(0.15, 0.75)
}

fn differential(setting: &Setting<'_>, station: usize, pen: &mut Pen) {
    let (x, y) = (
        setting.xs[station],
        setting.ys[setting.train.stations[station].axes[0]],
    );
    let joints = joints(setting, station);
    let cage_member = member(setting, station, 2);
    let widest = (0..3)
        .map(|pin| member(setting, station, pin).radius)
        .fold(0.0, f64::max);
    let outer = cage(widest);
    let bevel = outer - 11.0;
    for (n, joint) in joints.iter().enumerate().take(2) {
        let side_member = member(setting, station, n);
        let inward = if joint.left < x { 1.0 } else { -1.0 };
        for side in [-1.0, 1.0] {
            let rim = (joint.left, y + side * bevel);
            pen.line(
                LineType::Outline,
                (joint.left, y + side * side_member.radius),
                rim,
            );
            pen.line(
                LineType::Outline,
                (rim.0 - inward * 1.5, rim.1 + side * 2.5),
                (rim.0 + inward * 5.0, rim.1 - side * 5.5),
            );
        }
    }
    for side in [-1.0, 1.0] {
        // The planet: a bevel gear square to the side gears, on a pin of the cage.
        let rim = y + side * (bevel + 1.5);
        pen.line(LineType::Outline, (x - SIDE + 3.0, rim), (x + SIDE - 3.0, rim));
        for end in [-1.0, 1.0] {
            pen.line(
                LineType::Outline,
                (x + end * (SIDE - 1.0), rim + side * 2.5),
                (x + end * (SIDE - 6.5), rim - side * 4.5),
            );
        }
        pen.line(LineType::Outline, (x, rim), (x, y + side * outer));
        let webs = cage_member.webs(-1.0);
        let left = if webs.contains(&-1.0) {
            x - CAGE_WEB
        } else {
            x - 6.0
        };
        let right = if webs.contains(&1.0) {
            x + CAGE_WEB
        } else {
            x + 6.0
        };
        pen.line(
            LineType::Outline,
            (left, y + side * outer),
            (right, y + side * outer),
        );
        if cage_member.is_fixed {
            pen.frame((x, y + side * outer), 8.0, side);
        }
        for off in webs {
            pen.line(
                LineType::Outline,
                (x + off * CAGE_WEB, y + side * outer),
                (x + off * CAGE_WEB, y + side * cage_member.radius),
            );
        }
    }
}
