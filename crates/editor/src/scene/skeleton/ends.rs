//! What couples, holds, drives and loads: clutches, brakes, motors, cranks, loads, drums, wheels, and stubs of the frame.
//!
//! Symbols after ISO 3952-1 and -3 (from memory): clutches as facing halves, with the teeth, the arrowhead, the balls or the spring that
//! tells their kind; the frame as short slanting strokes. An engaged clutch is drawn closed and thick, an open one apart and thin.

use layshaft_layout::{ElementKind, OneWaySense};

use super::pen::Pen;
use super::sets::Joint;
use super::setting::Setting;
use crate::geometry::{Point, Rect};
use crate::scene::picture::LineType;

/// How a clutch or brake stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grip {
    /// It hands torque on.
    Closed,
    /// It does not.
    Open,
}

impl Grip {
    const fn line(self) -> LineType {
        match self {
            Self::Closed => LineType::Outline,
            Self::Open => LineType::Thin,
        }
    }

    /// Half the gap between two halves.
    const fn gap(self) -> f64 {
        match self {
            Self::Closed => 3.5,
            Self::Open => 7.0,
        }
    }
}

/// How far halves reach outside their shafts' lines.
const HALF: f64 = 12.0;
/// From the middle of a clutch to where its shafts meet it.
const PLATE: f64 = 7.0;

/// Whether the first half of a clutch stands on the left. Where both shafts come from the same side, the inner one leads to the
/// further half.
fn first_is_left(setting: &Setting<'_>, station: usize) -> bool {
    let [Some(a), Some(b)] = setting.train.stations[station].pins[..] else {
        return true;
    };
    let bias = |piece: usize| {
        let (left, right) = setting.sides(piece, station);
        i32::from(right) - i32::from(left)
    };
    match (bias(a), bias(b)) {
        (one, other) if one != other => one < other,
        (one, _) if one < 0 => setting.radius(a) > setting.radius(b),
        (one, _) if one > 0 => setting.radius(a) < setting.radius(b),
        _ => true,
    }
}

/// Where shafts meet a clutch, a brake, an end or a drum.
pub fn joints(setting: &Setting<'_>, station: usize) -> Vec<Joint> {
    let x = setting.xs[station];
    let is_coupling = setting.train.stations[station].form == super::train::Form::Coupling;
    if !is_coupling {
        return vec![Joint::at(x); setting.train.stations[station].pins.len()];
    }
    let left = if first_is_left(setting, station) {
        -PLATE
    } else {
        PLATE
    };
    vec![Joint::at(x + left), Joint::at(x - left)]
}

/// Draws a clutch between two shafts.
pub fn coupling(setting: &Setting<'_>, station: usize, grip: Grip, pen: &mut Pen) {
    let [Some(a), Some(b)] = setting.train.stations[station].pins[..] else {
        return;
    };
    let (x, y) = (setting.xs[station], setting.y(a));
    let first_is_left = first_is_left(setting, station);
    let (left, right) = if first_is_left { (a, b) } else { (b, a) };
    let outer = setting.radius(a).max(setting.radius(b)) + HALF;
    let Some(element) = setting.element(station) else {
        return;
    };
    let kind = &element.kind;
    let gap = match kind {
        ElementKind::Clutch(_) => grip.gap(),
        ElementKind::SlipClutch(_) => 5.5,
        _ => PLATE,
    };
    for side in [-1.0, 1.0] {
        for (piece, off) in [(left, -1.0), (right, 1.0)] {
            let radius = setting.radius(piece);
            let plate = x + off * gap.max(3.5);
            pen.line(grip.line(), (plate, y + side * radius), (plate, y + side * outer));
            pen.line(
                LineType::Outline,
                (x + off * PLATE, y + side * radius),
                (plate, y + side * radius),
            );
        }
        let edge = y + side * outer;
        match kind {
            ElementKind::Clutch(_) => teeth(pen, x, edge, side, gap, grip),
            ElementKind::OneWay(clutch) => {
                let forward = (clutch.sense == OneWaySense::Positive) == first_is_left;
                let tip = if forward { 5.0 } else { -5.0 };
                let middle = edge - side * 5.5;
                pen.triangle([
                    (x + tip, middle),
                    (x - tip, middle - 4.5),
                    (x - tip, middle + 4.5),
                ]);
                pen.area(Rect::around(Point::new(x, middle), 10.0, 9.0));
            }
            ElementKind::SlipClutch(_) => pen.circle(LineType::Thin, (x, edge - side * 4.5), 3.6),
            _ => {}
        }
    }
    if matches!(kind, ElementKind::TorqueSwitch(_)) {
        let top = y - outer + 5.0;
        let spring = [
            (-7.0, 0.0),
            (-5.0, -3.5),
            (-1.7, 3.5),
            (1.7, -3.5),
            (5.0, 3.5),
            (7.0, 0.0),
        ];
        let points: Vec<(f64, f64)> = spring.iter().map(|(dx, dy)| (x + dx, top + dy)).collect();
        pen.chain(LineType::Thin, &points);
        pen.line(
            LineType::Thin,
            (x - PLATE, y + outer - 4.0),
            (x + PLATE, y + outer - 4.0),
        );
        pen.triangle([
            (x, y + outer - 4.0),
            (x - 3.0, y + outer + 2.0),
            (x + 3.0, y + outer + 2.0),
        ]);
    }
}

/// Teeth at the rims of a dog clutch's halves: interlocked where it is engaged.
fn teeth(pen: &mut Pen, x: f64, edge: f64, side: f64, gap: f64, grip: Grip) {
    let length = 2.0 * gap.min(5.0) - 1.5;
    pen.line(grip.line(), (x - gap, edge), (x - gap + length, edge));
    pen.line(
        grip.line(),
        (x + gap, edge - side * 4.0),
        (x + gap - length, edge - side * 4.0),
    );
}

/// Draws what stands between a shaft and the frame: a brake, or a clutch whose other side is the frame.
pub fn hold(setting: &Setting<'_>, station: usize, grip: Grip, pen: &mut Pen) {
    let Some(piece) = setting.train.stations[station].pieces().next() else {
        return;
    };
    let (x, y) = (setting.xs[station], setting.y(piece));
    let radius = setting.radius(piece);
    let rim = radius + HALF;
    for side in [-1.0, 1.0] {
        pen.line(LineType::Outline, (x, y + side * radius), (x, y + side * rim));
        pen.line(
            LineType::Outline,
            (x - 7.0, y + side * rim),
            (x + 7.0, y + side * rim),
        );
    }
    // The shoe above the disc, on the frame.
    let shoe = y - rim - if grip == Grip::Closed { 3.0 } else { 6.5 };
    let frame = y - rim - 13.0;
    pen.line(grip.line(), (x - 7.0, shoe), (x + 7.0, shoe));
    pen.line(LineType::Thin, (x, shoe), (x, frame));
    pen.frame((x, frame), 9.0, -1.0);
    let kind = setting.element(station).map(|element| &element.kind);
    match kind {
        Some(ElementKind::OneWay(_)) => {
            let middle = y + rim - 5.0;
            pen.triangle([
                (x + 9.0, middle),
                (x + 2.0, middle - 4.0),
                (x + 2.0, middle + 4.0),
            ]);
        }
        Some(ElementKind::SlipClutch(_)) => pen.circle(LineType::Thin, (x + 5.0, y + rim - 5.0), 3.2),
        _ => {}
    }
}

/// Draws a source or load at the end of a shaft.
pub fn end(setting: &Setting<'_>, station: usize, pen: &mut Pen) {
    let Some(piece) = setting.train.stations[station].pieces().next() else {
        return;
    };
    let (x, y) = (setting.xs[station], setting.y(piece));
    let out = if setting.sides(piece, station).0 {
        1.0
    } else {
        -1.0
    };
    match setting.element(station).map(|element| &element.kind) {
        Some(ElementKind::Motor(_)) => {
            pen.circle(LineType::Ground, (x, y), 16.0);
            pen.circle(LineType::Outline, (x, y), 16.0);
            pen.chain(
                LineType::Thin,
                &[
                    (x - 6.0, y + 6.5),
                    (x - 6.0, y - 6.5),
                    (x, y + 2.0),
                    (x + 6.0, y - 6.5),
                    (x + 6.0, y + 6.5),
                ],
            );
        }
        Some(ElementKind::Crank(_)) => {
            pen.line(LineType::Outline, (x, y), (x, y - 18.0));
            pen.line(LineType::Outline, (x, y - 18.0), (x + out * 14.0, y - 18.0));
            pen.rect(LineType::Ground, (x + out * 11.0, y - 18.0), (7.0, 3.5));
            pen.rect(LineType::Outline, (x + out * 11.0, y - 18.0), (7.0, 3.5));
        }
        _ => {
            pen.rect(LineType::Ground, (x, y), (12.0, 12.0));
            pen.rect(LineType::Outline, (x, y), (12.0, 12.0));
            pen.arc(
                LineType::Thin,
                (x + 5.5, y + 3.0),
                (x + 5.5, y - 4.0),
                (6.5, 6.5),
                true,
            );
            pen.arc(LineType::Thin, (x - 6.5, y), (x + 5.5, y - 4.0), (6.5, 6.5), true);
            pen.arc(LineType::Thin, (x + 5.5, y + 3.0), (x - 6.5, y), (6.5, 6.5), true);
            pen.triangle([(x + 7.5, y - 1.0), (x + 2.2, y - 3.4), (x + 7.0, y - 6.4)]);
        }
    }
}

/// Draws a rope drum or a wheel on the ground.
pub fn drum(setting: &Setting<'_>, station: usize, pen: &mut Pen) {
    let Some(piece) = setting.train.stations[station].pieces().next() else {
        return;
    };
    let (x, y) = (setting.xs[station], setting.y(piece));
    let radius = setting.radius(piece);
    if matches!(
        setting.element(station).map(|element| &element.kind),
        Some(ElementKind::Vehicle(_))
    ) {
        let rim = radius + 26.0;
        let half = (rim - radius) / 2.0;
        if radius == 0.0 {
            tyre(pen, x, y, rim);
        } else {
            for side in [-1.0, 1.0] {
                tyre(pen, x, y + side * (radius + half), half);
            }
        }
        pen.frame((x, y + rim + 2.0), 14.0, 1.0);
        return;
    }
    let rim = radius + 11.0;
    let flange = radius + 16.0;
    for side in [-1.0, 1.0] {
        for end in [-1.0, 1.0] {
            pen.line(
                LineType::Outline,
                (x + end * 16.0, y + side * radius),
                (x + end * 16.0, y + side * flange),
            );
        }
        pen.line(
            LineType::Outline,
            (x - 16.0, y + side * rim),
            (x + 16.0, y + side * rim),
        );
    }
    for turn in [-11.0, -7.0, -3.0] {
        pen.line(
            LineType::Thin,
            (x + turn, y - rim),
            (x + turn + 1.5, y - radius.max(0.0) - 1.0),
        );
        pen.line(
            LineType::Thin,
            (x + turn, y + radius + 1.0),
            (x + turn + 1.5, y + rim),
        );
    }
    pen.line(LineType::Thin, (x + 6.0, y + rim), (x + 6.0, y + rim + 16.0));
    pen.rect(LineType::Outline, (x + 6.0, y + rim + 22.0), (6.0, 6.0));
}

fn tyre(pen: &mut Pen, x: f64, y: f64, half: f64) {
    let path = format!(
        "M{} {}h8q4 0 4 4v{}q0 4 -4 4h-8q-4 0 -4 -4v{}q0 -4 4 -4z",
        super::pen::tenth(x - 4.0),
        super::pen::tenth(y - half),
        super::pen::tenth(2.0 * half - 8.0),
        super::pen::tenth(8.0 - 2.0 * half)
    );
    let room = Rect::around(Point::new(x, y), 16.0, 2.0 * half);
    pen.raw(LineType::Outline, &path, room);
    pen.area(room);
}

/// Draws a stub's fixing to the frame.
pub fn ground(setting: &Setting<'_>, station: usize, pen: &mut Pen) {
    let Some(piece) = setting.train.stations[station].pieces().next() else {
        return;
    };
    let (x, y) = (setting.xs[station], setting.y(piece));
    let away = if setting.sides(piece, station).0 {
        1.0
    } else {
        -1.0
    };
    pen.wall((x, y), setting.radius(piece) + 9.0, away);
}
