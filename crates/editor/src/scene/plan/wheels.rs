//! Strokes of wheels: tooth outlines or circles, strands of belts and chains, what lies in the plane of the drawing.

use std::fmt::Write as _;

use layshaft_geometry::{Rim, outline};

use super::Sheet;
use crate::geometry::{Point, Rect};
use crate::plan::cut;
use crate::plan::parts::{Body, Bond, Link, Wheel};
use crate::plan::phase;
use crate::scene::picture::{LineType, Orbit, Reach, Stroke, Turn};

/// How far a drawn line may be from the true one, in pixels.
const TOLERANCE_PX: f64 = 0.25;

/// Adds the strokes of a wheel.
pub fn draw(sheet: &Sheet<'_>, wheel: &Wheel, strokes: &mut Vec<Stroke>) {
    let at = sheet.plan.centre(wheel) + sheet.shift(wheel.layer);
    let line = if wheel.layer == sheet.front() || sheet.look.lifted {
        LineType::Outline
    } else {
        LineType::Thin
    };
    if let Body::Lying { .. } = wheel.body {
        draw_lying(&wheel.body, at, line, strokes);
        return;
    }
    let turn = turn_of(sheet, wheel, at);
    let moving = |line, path| Stroke { line, path, turn };
    if let Body::Gear(gear) = wheel.body {
        strokes.push(moving(LineType::Chain, circle(at, gear.pitch_radius_mm())));
        if gear.rim == Rim::Inner {
            strokes.push(moving(line, circle(at, wheel.body.outer_radius())));
        }
        if sheet.shows_teeth(&wheel.body) {
            strokes.push(moving(line, tooth_path(sheet, wheel, at)));
        } else {
            strokes.push(moving(line, circle(at, gear.tip_radius_mm())));
        }
    } else {
        strokes.push(moving(line, circle(at, wheel.body.pitch_radius())));
    }
    strokes.push(moving(LineType::Thin, spoke(sheet, wheel, at)));
}

fn tooth_path(sheet: &Sheet<'_>, wheel: &Wheel, at: Point) -> String {
    let Body::Gear(gear) = wheel.body else {
        return String::new();
    };
    let (sine, cosine) = (libm::sin(wheel.phase), libm::cos(wheel.phase));
    let turned = |[x, y]: [f64; 2]| [at.x + x * cosine - y * sine, at.y + x * sine + y * cosine];
    let points: Vec<[f64; 2]> = outline(&gear, TOLERANCE_PX / sheet.zoom)
        .into_iter()
        .map(turned)
        .collect();
    cut::path(&points, 1000.0)
}

/// A mark on the wheel that shows its turning, between hub and rim.
fn spoke(sheet: &Sheet<'_>, wheel: &Wheel, at: Point) -> String {
    let (inner, outer) = match wheel.body {
        Body::Gear(gear) if gear.rim == Rim::Inner => (gear.root_radius_mm(), wheel.body.outer_radius()),
        Body::Gear(gear) => (
            sheet.input.layout.plan.shaft_mm * 0.6,
            gear.root_radius_mm() * 0.9,
        ),
        ref body => (sheet.input.layout.plan.shaft_mm * 0.6, body.pitch_radius() * 0.9),
    };
    if outer <= inner {
        return line(at, at);
    }
    let way = Point::new(libm::cos(wheel.phase), libm::sin(wheel.phase));
    line(at + way * inner, at + way * outer)
}

fn turn_of(sheet: &Sheet<'_>, wheel: &Wheel, at: Point) -> Option<Turn> {
    let (own, carried) = phase::wheel_turns(&wheel.spin, &sheet.turns);
    let period = |turns: f64| (turns != 0.0).then(|| 1.0 / turns.abs());
    let carrier = period(carried).map(|period_s| Orbit {
        about: sheet.plan.at[wheel.axis] + sheet.shift(wheel.layer),
        period_s,
        clockwise: carried > 0.0,
    });
    let period_s = period(own);
    (period_s.is_some() || carrier.is_some()).then_some(Turn {
        about: at,
        period_s,
        clockwise: own > 0.0,
        from_deg: 0.0,
        carrier,
    })
}

/// A worm or bevel gear from the side: its outline and its axis.
fn draw_lying(body: &Body, at: Point, kind: LineType, strokes: &mut Vec<Stroke>) {
    let Body::Lying {
        toward,
        distance,
        half_across: [near, far],
        half_along,
    } = body
    else {
        return;
    };
    let way = Point::new(libm::cos(*toward), libm::sin(*toward));
    let across = way.across();
    let (inner, outer) = (
        at + way * (distance - half_along),
        at + way * (distance + half_along),
    );
    let corners = [
        inner + across * *near,
        outer + across * *far,
        outer - across * *far,
        inner - across * *near,
    ];
    let mut path = String::new();
    for (n, corner) in corners.iter().enumerate() {
        let _ = write!(
            path,
            "{}{} {}",
            if n == 0 { 'M' } else { 'L' },
            short(corner.x),
            short(corner.y)
        );
    }
    path.push('Z');
    strokes.push(Stroke::still(kind, path));
    // A worm's axis lies across the way to it, a bevel gear's along it.
    let axis = if (near - far).abs() < 1e-9 {
        let middle = at + way * *distance;
        line(middle - across * (far * 1.15), middle + across * (far * 1.15))
    } else {
        line(at, outer + way * (half_along * 0.6))
    };
    strokes.push(Stroke::still(LineType::Chain, axis));
}

/// Adds what joins two axes: the line of centres, or the strands of a belt or chain.
pub fn draw_link(sheet: &Sheet<'_>, link: &Link, strokes: &mut Vec<Stroke>) {
    let layer = sheet.plan.wheels[link.wheels[0]].layer;
    if !sheet.shows(layer) {
        return;
    }
    let [one, other] = link.axes.map(|axis| sheet.plan.at[axis] + sheet.shift(layer));
    match link.bond {
        Bond::Apart(_) => strokes.push(Stroke::still(LineType::Chain, line(one, other))),
        Bond::Strand { crossed } => {
            let radii = link
                .wheels
                .map(|wheel| sheet.plan.wheels[wheel].body.pitch_radius());
            strokes.push(Stroke::still(
                LineType::Outline,
                strands(one, other, radii, crossed),
            ));
        }
        Bond::Turned => {}
    }
}

/// Both common tangents of two circles, the outer or the crossing ones.
fn strands(one: Point, other: Point, radii: [f64; 2], crossed: bool) -> String {
    let apart = one.distance(other);
    let second = if crossed { -radii[1] } else { radii[1] };
    let rise = (radii[0] - second) / apart.max(1e-9);
    if rise.abs() >= 1.0 {
        return line(one, other);
    }
    let way = (other - one).unit();
    let level = (1.0 - rise * rise).sqrt();
    [1.0, -1.0]
        .map(|side| {
            let normal = way * rise + way.across() * (side * level);
            line(one + normal * radii[0], other + normal * second)
        })
        .concat()
}

/// Where a wheel can be pressed: near its rim, so that what lies inside stays in reach.
pub fn reach(sheet: &Sheet<'_>, wheel: &Wheel) -> Vec<Reach> {
    let at = sheet.plan.centre(wheel) + sheet.shift(wheel.layer);
    match wheel.body {
        Body::Lying {
            toward,
            distance,
            half_across,
            half_along,
        } => {
            let middle = at + Point::new(libm::cos(toward), libm::sin(toward)) * distance;
            vec![Reach::Area(Rect::around(
                middle,
                2.0 * half_across[1],
                2.0 * half_along,
            ))]
        }
        Body::Gear(gear) if gear.rim == Rim::Inner => vec![
            Reach::Circle(at, gear.pitch_radius_mm()),
            Reach::Circle(at, wheel.body.outer_radius()),
        ],
        ref body => vec![Reach::Disc(at, body.outer_radius())],
    }
}

/// A circle as path data, begun on the right.
pub fn circle(at: Point, radius: f64) -> String {
    let (left, right, y, r) = (
        short(at.x - radius),
        short(at.x + radius),
        short(at.y),
        short(radius),
    );
    format!("M{right} {y}A{r} {r} 0 1 1 {left} {y}A{r} {r} 0 1 1 {right} {y}Z")
}

/// A straight line as path data.
pub fn line(from: Point, to: Point) -> String {
    format!(
        "M{} {}L{} {}",
        short(from.x),
        short(from.y),
        short(to.x),
        short(to.y)
    )
}

/// To a thousandth of a millimetre.
pub fn short(length: f64) -> f64 {
    (length * 1000.0).round() / 1000.0 + 0.0
}
