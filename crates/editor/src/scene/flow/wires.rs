//! Wires of one element: from each shaft's circle to the symbol's box, with the power along them.

use layshaft_layout::{Element, ElementKind, Id};
use layshaft_quantity::Power;
use layshaft_report::ElementResult;

use super::super::items::{Sliver, Wire};
use super::super::place::SHAFT_RADIUS;
use super::super::ribbon::{self, Scale, place};
use super::{Drawing, LoopPaths};
use crate::catalogue::Kind;
use crate::geometry::Point;
use crate::parts::{is_frame, ports};

/// Where a port that is fixed to the frame ends, below the symbol.
const FRAME_REACH: f64 = 14.0;

/// One wire with its power, before it is drawn.
#[derive(Clone, Debug)]
pub struct Run {
    shaft: Id,
    role: String,
    /// End at the shaft.
    pub from: Point,
    /// End at the symbol.
    pub to: Point,
    /// Power into the element.
    power: Option<Power>,
    /// Whether power goes round here.
    pub looped: bool,
    drawn_width: f64,
}

impl Run {
    /// Width of its ribbon; 0 for a bare wire.
    pub fn width(&self) -> f64 {
        self.drawn_width
    }

    /// As it is drawn.
    pub fn wire(&self, scale: Option<&Scale>, bare: bool) -> Wire {
        let ribbon = self.power.zip(scale).filter(|_| !bare).map(|(power, scale)| {
            let (from, to) = if power.to_watts() >= 0.0 {
                (self.from, self.to)
            } else {
                (self.to, self.from)
            };
            ribbon::ribbon(from, to, power, scale, self.looped)
        });
        Wire {
            shaft: self.shaft.clone(),
            role: self.role.clone(),
            from: self.from,
            to: self.to,
            path: format!("M{}L{}", place(self.from), place(self.to)),
            hatching: is_frame(&self.shaft).then(|| hatching(self.from)),
            ribbon,
        }
    }
}

/// Five short strokes under a line: the fixed frame.
fn hatching(at: Point) -> String {
    let mut path = format!("M{}h24", place(at - Point::new(12.0, 0.0)));
    for n in 0..5 {
        path.push_str(&format!(
            "M{}l-4 6",
            place(at + Point::new(f64::from(n) * 5.0 - 8.0, 0.0))
        ));
    }
    path
}

/// The wires of an element, in the order of its ports.
pub fn runs(
    element: &Element,
    at: Point,
    half: (f64, f64),
    drawing: &Drawing<'_>,
    loops: &LoopPaths<'_>,
) -> Vec<Run> {
    let result = drawing.element_results.get(&element.id).copied();
    let mut found = Vec::new();
    for (number, port) in ports(&element.kind).iter().enumerate() {
        let (from, to) = match drawing.shaft_places.get(port.shaft) {
            Some(centre) => ends(*centre, drawing.box_of(port.shaft), at, half),
            None => (
                at + Point::new(0.0, half.1 + FRAME_REACH),
                at + Point::new(0.0, half.1),
            ),
        };
        let power = power_at(result, number, port.shaft)
            .filter(|power| drawing.scale.is_some_and(|scale| scale.shows(*power)));
        let drawn_width = power
            .zip(drawing.scale)
            .map_or(0.0, |(power, scale)| scale.width(power));
        let looped = power.is_some() && loops.runs_through(&element.id, port.shaft);
        found.push(Run {
            shaft: port.shaft.clone(),
            role: port.path.clone(),
            from,
            to,
            power,
            looped,
            drawn_width,
        });
    }
    found
}

/// The power into an element at its port: by number, checked by the shaft's name.
fn power_at(result: Option<&ElementResult>, number: usize, shaft: &Id) -> Option<Power> {
    let results = &result?.ports;
    let port = results
        .get(number)
        .filter(|port| port.shaft == *shaft)
        .or_else(|| results.iter().find(|port| port.shaft == *shaft))?;
    Some(port.power)
}

/// The wire from a shaft outside to a folded group's box.
pub fn run_of_group(
    shaft: &Id,
    (at, half): (Point, (f64, f64)),
    (power, looped): (Option<Power>, bool),
    drawing: &Drawing<'_>,
) -> Run {
    let centre = drawing.shaft_places.get(shaft).copied().unwrap_or(at);
    let (from, to) = ends(centre, drawing.box_of(shaft), at, half);
    let drawn_width = power
        .zip(drawing.scale)
        .map_or(0.0, |(power, scale)| scale.width(power));
    Run {
        shaft: shaft.clone(),
        role: String::new(),
        from,
        to,
        power,
        looped,
        drawn_width,
    }
}

/// From the shaft's circle, or the box of the folded group that it hides in, to the edge of the symbol's box.
fn ends(centre: Point, hidden_in: Option<(f64, f64)>, at: Point, half: (f64, f64)) -> (Point, Point) {
    let toward = (at - centre).unit();
    let length = centre.distance(at);
    let inside = box_reach(toward, half).min(length);
    let outside = hidden_in.map_or(SHAFT_RADIUS, |half| box_reach(toward, half));
    (
        centre + toward * outside.min((length - inside).max(0.0)),
        at - toward * inside,
    )
}

/// Distance from the centre of a box to its edge in a direction.
fn box_reach(toward: Point, half: (f64, f64)) -> f64 {
    let x = if toward.x.abs() > 1e-9 {
        half.0 / toward.x.abs()
    } else {
        f64::INFINITY
    };
    let y = if toward.y.abs() > 1e-9 {
        half.1 / toward.y.abs()
    } else {
        f64::INFINITY
    };
    x.min(y)
}

/// The symbol's turn in quarter turns, so that its first side faces its first shaft; and half its box as turned.
pub fn turn(element: &Element, at: Point, drawing: &Drawing<'_>) -> (f64, (f64, f64)) {
    let (width, height) = Kind::of(&element.kind).entry().symbol.half;
    let upright = (f64::from(width), f64::from(height));
    if let ElementKind::Brake(brake) = &element.kind {
        return brake_turn(
            drawing.shaft_places.get(&brake.shaft).map(|shaft| at - *shaft),
            upright,
        );
    }
    let Some(along) = along(element, at, drawing) else {
        return (0.0, upright);
    };
    if along.y.abs() > along.x.abs() * 1.5 {
        (if along.y >= 0.0 { 90.0 } else { 270.0 }, (upright.1, upright.0))
    } else {
        (if along.x >= 0.0 { 0.0 } else { 180.0 }, upright)
    }
}

/// A brake's frame is turned away from the shaft that it holds.
fn brake_turn(from_shaft: Option<Point>, upright: (f64, f64)) -> (f64, (f64, f64)) {
    match from_shaft {
        Some(away) if away.x.abs() > away.y.abs() => {
            (if away.x > 0.0 { 270.0 } else { 90.0 }, (upright.1, upright.0))
        }
        Some(away) if away.y < 0.0 => (180.0, upright),
        _ => (0.0, upright),
    }
}

/// From the first shaft of an element with two ends to the second; none for elements that stand upright always.
fn along(element: &Element, at: Point, drawing: &Drawing<'_>) -> Option<Point> {
    let ports = ports(&element.kind);
    let place = |shaft| drawing.shaft_places.get(shaft).copied();
    match &ports[..] {
        [first, second] => match (place(first.shaft), place(second.shaft)) {
            (Some(one), Some(other)) => Some(other - one),
            (Some(one), None) => Some(at - one),
            (None, Some(other)) => Some(other - at),
            (None, None) => None,
        },
        _ => None,
    }
}

/// The sliver of loss of an element that several shafts meet in.
pub fn loss(
    result: Option<&ElementResult>,
    at: Point,
    half: (f64, f64),
    runs: &[Run],
    scale: Option<&Scale>,
) -> Option<Sliver> {
    if runs.len() < 2 {
        return None;
    }
    sliver(result?.loss, at, half, runs, scale)
}

/// The sliver of a loss at a box, across the power through it.
pub fn sliver(
    loss: Option<Power>,
    at: Point,
    half: (f64, f64),
    runs: &[Run],
    scale: Option<&Scale>,
) -> Option<Sliver> {
    let scale = scale?;
    let loss = loss.filter(|loss| scale.shows(*loss) && loss.to_watts() > 0.0)?;
    let along = flow_direction(runs);
    // Across the flow and downwards, where labels are not; to the right of a flow that runs down.
    let mut out = along.across();
    if out.y < 0.0 || (out.y.abs() < 1e-9 && out.x < 0.0) {
        out = out * -1.0;
    }
    let foot = at + out * box_reach(out, half);
    Some(ribbon::sliver(foot, out, along, loss, scale))
}

/// The direction in which power goes through: from where most of it enters.
fn flow_direction(runs: &[Run]) -> Point {
    let power = |run: &Run| run.power.map_or(0.0, Power::to_watts);
    let inlet = runs
        .iter()
        .max_by(|one, other| power(one).total_cmp(&power(other)));
    inlet.map_or(Point::new(1.0, 0.0), |run| (run.to - run.from).unit())
}
