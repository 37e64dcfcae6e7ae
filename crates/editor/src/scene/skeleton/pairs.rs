//! Pairs of wheels on two axes: meshes, bevels, worms, chains, belts, friction wheels.
//!
//! Symbols after ISO 3952-1 and -2 (from memory): a gear seen from the side is a stroke across its shaft with its rim; an internal
//! gear a rim with its bracket; a worm a rectangle with slanting strokes; friction wheels plain rectangles that touch; a chain or belt
//! lines from wheel to wheel. Axes that cross at right angles are turned into the plane of the drawing, and a quarter arc says so.

use layshaft_layout::{ElementKind, Mesh, MeshForm, WheelForm};

use super::pen::Pen;
use super::sets::{Joint, RIM, TOUCH};
use super::setting::{LEAST_RIM, Setting};
use super::train::Form;
use crate::scene::picture::LineType;

/// Half the height of a worm, outside its shaft.
const WORM: f64 = 7.0;
/// Largest radius of a sprocket, a pulley or a bevel gear.
const LARGEST_WHEEL: f64 = 26.0;
/// Half the width of a pulley or friction wheel.
const HALF_FACE: f64 = 6.0;
/// Bracket of a ring from its rim.
const BRACKET: f64 = 16.0;

/// A wheel seen from the side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wheel {
    /// Its column.
    pub x: f64,
    /// The height of its axis.
    pub y: f64,
    /// Its radius.
    pub radius: f64,
    /// Radius of its shaft's lines.
    pub hollow: f64,
}

/// The two wheels of a pair, in the order of its ports; none for what is no pair.
pub fn wheels(setting: &Setting<'_>, station: usize) -> Option<[Wheel; 2]> {
    if setting.train.stations[station].form != Form::Pair {
        return None;
    }
    let pins = &setting.train.stations[station].pins;
    let (one, other) = (pins.first().copied()??, pins.get(1).copied()??);
    let x = setting.xs[station];
    let wheel = |piece: usize| Wheel {
        x,
        y: setting.y(piece),
        radius: 0.0,
        hollow: setting.radius(piece),
    };
    let mut pair = [wheel(one), wheel(other)];
    let distance = (pair[0].y - pair[1].y).abs();
    let hollows = [pair[0].hollow, pair[1].hollow];
    let radii = radii(&setting.element(station)?.kind, distance, hollows);
    for (wheel, radius) in pair.iter_mut().zip(radii) {
        wheel.radius = radius;
    }
    Some(pair)
}

fn radii(kind: &ElementKind, distance: f64, hollows: [f64; 2]) -> [f64; 2] {
    let least = hollows.map(|hollow| hollow + LEAST_RIM);
    match kind {
        ElementKind::Mesh(mesh) => {
            let teeth = mesh.teeth.map(f64::from);
            match mesh.form {
                MeshForm::External => touching(teeth, distance, least),
                MeshForm::Internal => within(teeth, distance, least),
                MeshForm::Bevel => apart(teeth, LARGEST_WHEEL, least),
            }
        }
        ElementKind::FrictionWheel(wheels) => match wheels.form {
            WheelForm::External => touching(wheels.diameters_mm, distance, least),
            WheelForm::Internal => within(wheels.diameters_mm, distance, least),
        },
        ElementKind::Worm(_) => [WORM + hollows[0], (distance - WORM - hollows[0]).max(least[1])],
        ElementKind::Chain(chain) => apart(chain.teeth.map(f64::from), LARGEST_WHEEL, least),
        ElementKind::Belt(belt) => apart(belt.diameters_mm, LARGEST_WHEEL, least),
        _ => least,
    }
}

/// Radii in proportion that fill a distance; a wheel too small to be seen is drawn a little larger, its partner smaller.
fn touching(sizes: [f64; 2], distance: f64, least: [f64; 2]) -> [f64; 2] {
    let first = distance * sizes[0] / (sizes[0] + sizes[1]).max(1e-9);
    let first = first.min(distance - least[1]).max(least[0]);
    [first, (distance - first).max(least[1])]
}

/// Radii of a wheel within a ring.
fn within(sizes: [f64; 2], distance: f64, least: [f64; 2]) -> [f64; 2] {
    let over = (1.0 - sizes[0] / sizes[1].max(1e-9)).max(0.05);
    let ring = (distance / over).clamp(distance + least[0], (distance + 60.0).max(distance + least[0]));
    [ring - distance, ring]
}

/// Radii in proportion, the larger one given.
fn apart(sizes: [f64; 2], largest: f64, least: [f64; 2]) -> [f64; 2] {
    let scale = largest / sizes[0].max(sizes[1]).max(1e-9);
    [(sizes[0] * scale).max(least[0]), (sizes[1] * scale).max(least[1])]
}

/// Where the two shafts meet a pair.
pub fn joints(setting: &Setting<'_>, station: usize) -> Vec<Joint> {
    let x = setting.xs[station];
    let Some(element) = setting.element(station) else {
        return vec![Joint::at(x)];
    };
    match &element.kind {
        ElementKind::Mesh(mesh) if mesh.form == MeshForm::Bevel => bevel_joints(setting, station),
        ElementKind::Mesh(Mesh {
            form: MeshForm::Internal,
            ..
        }) => vec![
            Joint::at(x),
            Joint::at(x + bracket_side(setting, station) * BRACKET),
        ],
        ElementKind::FrictionWheel(wheels) if wheels.form == WheelForm::Internal => {
            vec![
                Joint::at(x),
                Joint::at(x + bracket_side(setting, station) * BRACKET),
            ]
        }
        _ => vec![Joint::at(x), Joint::at(x)],
    }
}

/// On which side the bracket of a ring stands: where its shaft goes on.
fn bracket_side(setting: &Setting<'_>, station: usize) -> f64 {
    match setting.train.stations[station].pins.get(1).copied().flatten() {
        Some(piece) => match setting.sides(piece, station) {
            (true, false) => -1.0,
            (true, true) => {
                match setting.train.stations[station].pins[0].map(|pin| setting.sides(pin, station)) {
                    Some((false, true)) => -1.0,
                    _ => 1.0,
                }
            }
            _ => 1.0,
        },
        None => 1.0,
    }
}

/// Draws a pair.
pub fn draw(setting: &Setting<'_>, station: usize, pen: &mut Pen) {
    let (Some(element), Some([one, other])) = (setting.element(station), wheels(setting, station)) else {
        return;
    };
    match &element.kind {
        ElementKind::Mesh(mesh) => match mesh.form {
            MeshForm::External => {
                gear(pen, one);
                gear(pen, other);
            }
            MeshForm::Internal => {
                gear(pen, one);
                ring(pen, other, bracket_side(setting, station));
            }
            MeshForm::Bevel => bevel(setting, station, one, other, pen),
        },
        ElementKind::FrictionWheel(wheels) => {
            disc(pen, one);
            match wheels.form {
                WheelForm::External => disc(pen, other),
                WheelForm::Internal => ring(pen, other, bracket_side(setting, station)),
            }
        }
        ElementKind::Worm(_) => worm(pen, one, other),
        ElementKind::Chain(_) => {
            gear(pen, one);
            gear(pen, other);
            strands(pen, LineType::Chain, one, other, false);
        }
        ElementKind::Belt(belt) => {
            disc(pen, one);
            disc(pen, other);
            strands(pen, LineType::Thin, one, other, belt.crossed);
        }
        _ => {}
    }
}

/// A gear: a stroke across its shaft, with its rim.
fn gear(pen: &mut Pen, wheel: Wheel) {
    let Wheel { x, y, radius, hollow } = wheel;
    let rim = radius - TOUCH;
    if hollow == 0.0 {
        pen.line(LineType::Outline, (x, y - rim), (x, y + rim));
    } else {
        pen.line(LineType::Outline, (x, y - rim), (x, y - hollow));
        pen.line(LineType::Outline, (x, y + hollow), (x, y + rim));
    }
    for side in [-1.0, 1.0] {
        pen.line(
            LineType::Outline,
            (x - RIM, y + side * rim),
            (x + RIM, y + side * rim),
        );
    }
}

/// A ring gear: its rim outside the pitch circle, a bracket to its shaft.
fn ring(pen: &mut Pen, wheel: Wheel, bracket: f64) {
    let Wheel { x, y, radius, hollow } = wheel;
    let web = x + bracket * BRACKET;
    for side in [-1.0, 1.0] {
        let rim = y + side * (radius + TOUCH);
        pen.line(LineType::Outline, (x - bracket * (RIM + 2.0), rim), (web, rim));
        pen.line(LineType::Outline, (web, rim), (web, y + side * hollow));
    }
}

/// A pulley or friction wheel.
fn disc(pen: &mut Pen, wheel: Wheel) {
    let Wheel { x, y, radius, hollow } = wheel;
    let radius = radius - TOUCH / 2.0;
    if hollow == 0.0 {
        pen.rect(LineType::Outline, (x, y), (HALF_FACE, radius));
    } else {
        let half = (radius - hollow) / 2.0;
        for side in [-1.0, 1.0] {
            pen.rect(
                LineType::Outline,
                (x, y + side * (hollow + half)),
                (HALF_FACE, half),
            );
        }
    }
}

/// Both strands of a chain or belt, one behind the other.
fn strands(pen: &mut Pen, line: LineType, one: Wheel, other: Wheel, crossed: bool) {
    let x = one.x;
    let (upper, lower) = if one.y < other.y {
        (one, other)
    } else {
        (other, one)
    };
    let (top, bottom) = (upper.y - upper.radius, lower.y + lower.radius);
    let (from, to) = (upper.y + upper.radius, lower.y - lower.radius);
    let off = HALF_FACE - 2.5;
    for side in [-1.0, 1.0] {
        if crossed && to > from {
            pen.line(line, (x + side * off, from), (x - side * off, to));
        } else {
            pen.line(line, (x + side * off, top + 2.0), (x + side * off, bottom - 2.0));
        }
    }
}

/// A worm on its axis and the wheel that it drives, both turned into the plane.
fn worm(pen: &mut Pen, worm: Wheel, wheel: Wheel) {
    let (x, y, half) = (worm.x, worm.y, 20.0);
    pen.rect(LineType::Ground, (x, y), (half, worm.radius));
    pen.rect(LineType::Outline, (x, y), (half, worm.radius));
    let mut at = x - half + 6.0;
    while at < x + half - 4.0 {
        pen.line(LineType::Thin, (at, y + worm.radius), (at + 4.0, y - worm.radius));
        at += 7.0;
    }
    // The wheel's rim follows the worm.
    let toward = if wheel.y > worm.y { -1.0 } else { 1.0 };
    let rim = wheel.radius - TOUCH;
    pen.line(
        LineType::Outline,
        (x, wheel.y + toward * wheel.hollow),
        (x, wheel.y + toward * rim),
    );
    pen.line(
        LineType::Outline,
        (x, wheel.y - toward * wheel.hollow),
        (x, wheel.y - toward * rim),
    );
    for side in [toward, -toward] {
        let (end, middle) = (wheel.y + side * (rim + 2.5), wheel.y + side * (rim - 1.5));
        pen.chain(
            LineType::Outline,
            &[
                (x - 9.0, end),
                (x - 5.0, middle),
                (x + 5.0, middle),
                (x + 9.0, end),
            ],
        );
    }
    quarter(
        pen,
        x + 11.0,
        wheel.y + toward * (rim * 0.5).min(rim - 12.0).max(8.0),
    );
}

/// A quarter arc with an arrowhead: what follows is turned into the plane of the drawing.
fn quarter(pen: &mut Pen, x: f64, y: f64) {
    pen.arc(
        LineType::Thin,
        (x - 5.0, y - 5.0),
        (x + 5.0, y + 5.0),
        (10.0, 10.0),
        true,
    );
    pen.triangle([(x + 5.0, y + 7.0), (x + 2.4, y + 1.6), (x + 7.2, y + 2.0)]);
}

/// The column where the axes of a bevel pair meet, and on which side of it the first gear stands.
fn bevel_meeting(setting: &Setting<'_>, station: usize, second: f64) -> (f64, f64) {
    let x = setting.xs[station];
    let pin = setting.train.stations[station].pins[0];
    let from_left = match pin.map(|pin| setting.sides(pin, station)) {
        Some((false, true)) => -1.0,
        _ => 1.0,
    };
    (x + from_left * second * 0.5, from_left)
}

fn bevel_joints(setting: &Setting<'_>, station: usize) -> Vec<Joint> {
    let Some([_, other]) = wheels(setting, station) else {
        return Vec::new();
    };
    let (meeting, side) = bevel_meeting(setting, station, other.radius);
    let pin = setting.train.stations[station].pins[1];
    let to_left = matches!(pin.map(|pin| setting.sides(pin, station)), Some((true, false)));
    let bend = if to_left { meeting - 10.0 } else { meeting + 10.0 };
    let second = match pin.map(|pin| setting.sides(pin, station)) {
        Some((true, true)) => Joint::at(meeting),
        _ => Joint::at(bend),
    };
    vec![Joint::at(meeting - side * other.radius), second]
}

/// Bevel gears: the second one's shaft leaves square to the first's and is bent into its own row.
fn bevel(setting: &Setting<'_>, station: usize, one: Wheel, other: Wheel, pen: &mut Pen) {
    let (meeting, side) = bevel_meeting(setting, station, other.radius);
    let down = if other.y > one.y { 1.0 } else { -1.0 };
    let first = meeting - side * other.radius;
    for end in [-1.0, 1.0] {
        let rim = (first, one.y + end * (one.radius - TOUCH));
        pen.line(LineType::Outline, (first, one.y + end * one.hollow), rim);
        pen.line(
            LineType::Outline,
            (rim.0 - side * 2.0, rim.1 + end * 1.5),
            (rim.0 + side * 6.0, rim.1 - end * 5.0),
        );
    }
    let height = one.y + down * (one.radius + TOUCH);
    pen.line(
        LineType::Outline,
        (meeting - other.radius, height),
        (meeting + other.radius, height),
    );
    for end in [-1.0, 1.0] {
        let rim = (meeting + end * other.radius, height);
        pen.line(
            LineType::Outline,
            (rim.0 + end * 1.5, rim.1 + down * 2.0),
            (rim.0 - end * 5.0, rim.1 - down * 5.0),
        );
    }
    let pin = setting.train.stations[station].pins[1];
    match pin.map(|pin| setting.sides(pin, station)) {
        Some((true, true)) => {
            pen.line(LineType::Outline, (meeting, height), (meeting, other.y));
            quarter(pen, meeting + 8.0, other.y - down * 12.0);
        }
        sides => {
            let bend = if matches!(sides, Some((true, false))) {
                -10.0
            } else {
                10.0
            };
            pen.line(
                LineType::Outline,
                (meeting, height),
                (meeting, other.y - down * 10.0),
            );
            let clockwise = (bend < 0.0) == (down > 0.0);
            pen.arc(
                LineType::Outline,
                (meeting, other.y - down * 10.0),
                (meeting + bend, other.y),
                (10.0, 10.0),
                clockwise,
            );
            quarter(pen, meeting + bend.signum() * 9.0, other.y - down * 17.0);
        }
    }
}
