//! Collects lines of a symbol by type of line, with where they can be pressed and what room they take.

use std::fmt::Write as _;

use crate::geometry::{Point, Rect};
use crate::scene::picture::{LineType, Reach, Stroke};

/// Line types from the lowest up.
const ORDER: [LineType; 9] = [
    LineType::Ground,
    LineType::Body,
    LineType::Chain,
    LineType::Dashed,
    LineType::Hatching,
    LineType::Thin,
    LineType::Outline,
    LineType::Solid,
    LineType::Wrong,
];

/// Length and pitch of the frame's strokes.
const HATCH: f64 = 6.0;

/// Lines of one thing.
#[derive(Clone, Debug, Default)]
pub struct Pen {
    paths: [String; 9],
    /// Room that is taken, line by line.
    pub rooms: Vec<Rect>,
    /// Where it can be pressed.
    pub reach: Vec<Reach>,
}

impl Pen {
    /// The lines, from the lowest up.
    pub fn strokes(self) -> Vec<Stroke> {
        let paths = ORDER.into_iter().zip(self.paths);
        paths
            .filter(|(_, path)| !path.is_empty())
            .map(|(line, path)| Stroke::still(line, path))
            .collect()
    }

    /// What all lines lie in.
    pub fn bounds(&self) -> Option<Rect> {
        self.rooms.iter().copied().reduce(|all, room| all.union(&room))
    }

    fn path(&mut self, line: LineType) -> &mut String {
        let place = ORDER.iter().position(|other| *other == line).unwrap_or(0);
        &mut self.paths[place]
    }

    /// A straight line.
    pub fn line(&mut self, line: LineType, (x, y): (f64, f64), (to_x, to_y): (f64, f64)) {
        let (from, to) = (Point::new(x, y), Point::new(to_x, to_y));
        if from.distance(to) < 0.05 {
            return;
        }
        let path = self.path(line);
        if y == to_y {
            let _ = write!(path, "M{} {}H{}", tenth(x), tenth(y), tenth(to_x));
        } else if x == to_x {
            let _ = write!(path, "M{} {}V{}", tenth(x), tenth(y), tenth(to_y));
        } else {
            let _ = write!(path, "M{} {}L{} {}", tenth(x), tenth(y), tenth(to_x), tenth(to_y));
        }
        self.rooms.push(Rect::between(from, to).grown(1.5));
        self.reach.push(Reach::Line(from, to));
    }

    /// Several points joined by straight lines.
    pub fn chain(&mut self, line: LineType, points: &[(f64, f64)]) {
        for pair in points.windows(2) {
            self.line(line, pair[0], pair[1]);
        }
    }

    /// A closed rectangle by its centre and half sides.
    pub fn rect(&mut self, line: LineType, (x, y): (f64, f64), (half_x, half_y): (f64, f64)) {
        let path = self.path(line);
        let _ = write!(
            path,
            "M{} {}h{}v{}h{}z",
            tenth(x - half_x),
            tenth(y - half_y),
            tenth(2.0 * half_x),
            tenth(2.0 * half_y),
            tenth(-2.0 * half_x)
        );
        self.area(Rect::around(Point::new(x, y), 2.0 * half_x, 2.0 * half_y));
    }

    /// A circle.
    pub fn circle(&mut self, line: LineType, (x, y): (f64, f64), radius: f64) {
        let r = tenth(radius);
        let path = self.path(line);
        let _ = write!(
            path,
            "M{} {}a{r} {r} 0 1 0 {} 0a{r} {r} 0 1 0 {} 0",
            tenth(x - radius),
            tenth(y),
            tenth(2.0 * radius),
            tenth(-2.0 * radius)
        );
        let room = Rect::around(Point::new(x, y), 2.0 * radius, 2.0 * radius);
        self.rooms.push(room);
        self.reach.push(Reach::Disc(Point::new(x, y), radius));
    }

    /// A part of an ellipse between two points.
    pub fn arc(
        &mut self,
        line: LineType,
        from: (f64, f64),
        to: (f64, f64),
        radii: (f64, f64),
        clockwise: bool,
    ) {
        let path = self.path(line);
        let _ = write!(
            path,
            "M{} {}A{} {} 0 0 {} {} {}",
            tenth(from.0),
            tenth(from.1),
            tenth(radii.0),
            tenth(radii.1),
            u8::from(clockwise),
            tenth(to.0),
            tenth(to.1)
        );
        self.rooms
            .push(Rect::between(Point::new(from.0, from.1), Point::new(to.0, to.1)).grown(1.5));
    }

    /// A filled triangle.
    pub fn triangle(&mut self, points: [(f64, f64); 3]) {
        let path = self.path(LineType::Solid);
        let [(ax, ay), (bx, by), (cx, cy)] = points;
        let _ = write!(
            path,
            "M{} {}L{} {}L{} {}z",
            tenth(ax),
            tenth(ay),
            tenth(bx),
            tenth(by),
            tenth(cx),
            tenth(cy)
        );
    }

    /// Room that is taken and can be pressed anywhere.
    pub fn area(&mut self, room: Rect) {
        self.rooms.push(room);
        self.reach.push(Reach::Area(room));
    }

    /// The fixed frame: a line with slanting strokes on one side of it (`away` 1: below, -1: above).
    pub fn frame(&mut self, (x, y): (f64, f64), half: f64, away: f64) {
        self.line(LineType::Thin, (x - half, y), (x + half, y));
        let count = (2.0 * half / 5.0).floor().max(1.0);
        let mut path = String::new();
        let mut n = 0.0;
        while n < count {
            let at = x - half + 3.0 + n * 5.0;
            let _ = write!(path, "M{} {}l-3.5 {}", tenth(at), tenth(y), tenth(away * HATCH));
            n += 1.0;
        }
        self.path(LineType::Hatching).push_str(&path);
        self.rooms.push(Rect::around(
            Point::new(x, y + away * HATCH / 2.0),
            2.0 * half + 4.0,
            HATCH,
        ));
    }

    /// The fixed frame upright: strokes on the left (`away` -1) or on the right of a line.
    pub fn wall(&mut self, (x, y): (f64, f64), half: f64, away: f64) {
        self.line(LineType::Thin, (x, y - half), (x, y + half));
        let count = (2.0 * half / 5.0).floor().max(1.0);
        let mut path = String::new();
        let mut n = 0.0;
        while n < count {
            let at = y - half + 3.0 + n * 5.0;
            let _ = write!(path, "M{} {}l{} -3.5", tenth(x), tenth(at), tenth(away * HATCH));
            n += 1.0;
        }
        self.path(LineType::Hatching).push_str(&path);
        self.rooms.push(Rect::around(
            Point::new(x + away * HATCH / 2.0, y),
            HATCH,
            2.0 * half + 4.0,
        ));
    }

    /// Any path of a line type, with the room it takes.
    pub fn raw(&mut self, line: LineType, path: &str, room: Rect) {
        self.path(line).push_str(path);
        self.rooms.push(room);
    }
}

/// Tenths of a pixel are enough, and keep paths short.
pub fn tenth(value: f64) -> f64 {
    let rounded = (value * 10.0).round() / 10.0;
    // No minus before nothing.
    if rounded == 0.0 { 0.0 } else { rounded }
}
