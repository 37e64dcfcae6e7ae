//! Shafts as lines from station to station: solid ones as one line, hollow ones as two, with bearings at their ends and an arrow for
//! the sense in which they turn.

use super::pen::Pen;
use super::sets::{self, Joint};
use super::setting::{BEARING_ROOM, Setting, ends_here};
use super::train::Form;
use super::{ends, pairs};
use crate::geometry::{Point, Rect};
use crate::scene::picture::LineType;

/// Distance of a bearing from the last wheel on its shaft.
const BEARING: f64 = 18.0;
/// Length of a shaft on which nothing sits.
const ALONE: f64 = 90.0;
/// Piece of a shaft that hands nothing on.
const STUB: f64 = 20.0;
/// Least length of a line with an arrow on it.
const FOR_ARROW: f64 = 24.0;

/// Radius up to which a hollow shaft has an arrow over it.
const LARGEST_WITH_ARROW: f64 = 15.0;

/// Joints of every station, in the order of its pins.
pub fn joints(setting: &Setting<'_>) -> Vec<Vec<Joint>> {
    (0..setting.train.stations.len())
        .map(|station| match setting.train.stations[station].form {
            Form::Pair => pairs::joints(setting, station),
            Form::Set => sets::joints(setting, station),
            _ => ends::joints(setting, station),
        })
        .collect()
}

/// A straight part of a shaft.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Run {
    /// Its left end.
    pub from: f64,
    /// Its right end.
    pub to: f64,
}

impl Run {
    fn length(self) -> f64 {
        (self.to - self.from).abs()
    }
}

/// How a piece is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// The height of its axis.
    pub y: f64,
    /// Half the distance of its lines; 0: one line.
    pub radius: f64,
    /// Its straight parts, from left to right.
    pub runs: Vec<Run>,
    /// Columns of its bearings.
    pub bearings: Vec<f64>,
}

impl Line {
    /// The column of its longest part: where its name goes.
    pub fn middle(&self) -> Option<f64> {
        let longest = self
            .runs
            .iter()
            .max_by(|one, other| one.length().total_cmp(&other.length()))?;
        Some((longest.from + longest.to) / 2.0)
    }
}

/// Stations on each piece, from left to right.
pub fn on_pieces(setting: &Setting<'_>) -> Vec<Vec<(usize, usize)>> {
    let mut found = vec![Vec::new(); setting.train.pieces.len()];
    let mut order: Vec<usize> = (0..setting.train.stations.len()).collect();
    order.sort_by_key(|station| setting.places[*station]);
    for station in order {
        for (pin, piece) in setting.train.stations[station].pins.iter().enumerate() {
            if let Some(piece) = piece {
                found[*piece].push((station, pin));
            }
        }
    }
    found
}

/// The lines of a piece.
pub fn line(setting: &Setting<'_>, piece: usize, stations: &[(usize, usize)], joints: &[Vec<Joint>]) -> Line {
    let mut line = Line {
        y: setting.y(piece),
        radius: setting.radius(piece),
        runs: Vec::new(),
        bearings: Vec::new(),
    };
    let joint = |(station, pin): (usize, usize)| {
        joints[station]
            .get(pin)
            .copied()
            .unwrap_or(Joint::at(setting.xs[station]))
    };
    let (Some(first), Some(last)) = (stations.first().copied(), stations.last().copied()) else {
        line.runs.push(Run { from: 0.0, to: ALONE });
        line.bearings = vec![BEARING, ALONE - BEARING];
        return line;
    };
    if line.radius == 0.0 && ends_here(&setting.train, &setting.nesting, first.0, &setting.places).0 {
        let at = joint(first).left;
        line.runs.push(Run {
            from: at - BEARING_ROOM,
            to: at,
        });
        line.bearings.push(at - BEARING);
    }
    for pair in stations.windows(2) {
        let (from, to) = (joint(pair[0]).right, joint(pair[1]).left);
        line.runs.push(Run { from, to });
    }
    if line.radius == 0.0 && ends_here(&setting.train, &setting.nesting, last.0, &setting.places).1 {
        let at = joint(last).right;
        line.runs.push(Run {
            from: at,
            to: at + BEARING_ROOM,
        });
        line.bearings.push(at + BEARING);
    }
    if first == last && line.runs.is_empty() {
        line.runs.extend(stub(setting, first, joint(first)));
    }
    if line.bearings.is_empty() && line.radius == 0.0 {
        let longest = line
            .runs
            .iter()
            .copied()
            .max_by(|one, other| one.length().total_cmp(&other.length()));
        line.bearings.extend(
            longest
                .filter(|run| run.length() > 44.0)
                .map(|run| (run.from + run.to) / 2.0),
        );
    }
    line
}

/// A shaft with one clutch, brake or end on it and nothing else.
fn stub(setting: &Setting<'_>, (station, _): (usize, usize), joint: Joint) -> Option<Run> {
    let x = setting.xs[station];
    match setting.train.stations[station].form {
        Form::Coupling if joint.left < x => Some(Run {
            from: joint.left - STUB,
            to: joint.left,
        }),
        Form::Coupling | Form::End | Form::Ground => Some(Run {
            from: joint.right,
            to: joint.right + STUB,
        }),
        _ => None,
    }
}

/// Draws a piece.
pub fn draw(line: &Line, pen: &mut Pen) {
    for run in &line.runs {
        if line.radius == 0.0 {
            pen.line(LineType::Outline, (run.from, line.y), (run.to, line.y));
        } else {
            for side in [-1.0, 1.0] {
                let y = line.y + side * line.radius;
                pen.line(LineType::Outline, (run.from, y), (run.to, y));
            }
        }
    }
    for x in &line.bearings {
        pen.frame((*x, line.y - 4.0), 6.0, -1.0);
        pen.frame((*x, line.y + 4.0), 6.0, 1.0);
    }
}

/// An arrow over a shaft: the side that is seen moves along it. Positive rotation is clockwise as seen from the left end, so that the
/// side toward the reader moves down.
pub fn arrow(line: &Line, clockwise: bool, pen: &mut Pen) {
    // Over a drum it would be taken for a part of the train.
    if line.radius > LARGEST_WITH_ARROW {
        return;
    }
    let clear = |run: &&Run| run.length() >= FOR_ARROW;
    // On a part without a bearing where there is one.
    let free = |run: &&Run| {
        let (low, high) = (run.from.min(run.to), run.from.max(run.to));
        !line.bearings.iter().any(|x| *x >= low && *x <= high)
    };
    let by_length = |one: &&Run, other: &&Run| one.length().total_cmp(&other.length());
    let longest_free = line.runs.iter().filter(clear).filter(free).max_by(by_length);
    let (x, reach) = match longest_free {
        Some(run) => ((run.from + run.to) / 2.0, line.radius + 8.0),
        None => match line.runs.iter().filter(clear).max_by(by_length) {
            // Between the bearing and the wheel.
            Some(run) => {
                let bearing = line
                    .bearings
                    .iter()
                    .find(|x| (**x - run.from).abs().min((**x - run.to).abs()) < run.length());
                let inner = if bearing.is_some_and(|x| (x - run.from).abs() < (x - run.to).abs()) {
                    run.to - 6.0
                } else {
                    run.from + 6.0
                };
                (inner, line.radius + 8.0)
            }
            None => return,
        },
    };
    let down = if clockwise { 1.0 } else { -1.0 };
    let (from, to) = (line.y - down * reach, line.y + down * reach);
    pen.arc(
        LineType::Thin,
        (x - 2.0, from),
        (x - 2.0, to),
        (5.0, reach),
        clockwise,
    );
    pen.triangle([
        (x - 3.5, to + down * 0.5),
        (x - 0.5, to - down * 6.0),
        (x + 3.5, to - down * 3.0),
    ]);
    pen.rooms
        .push(Rect::around(Point::new(x, line.y), 12.0, 2.0 * reach + 4.0));
}
