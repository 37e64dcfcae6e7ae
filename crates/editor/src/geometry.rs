//! Points, sizes and rectangles in bench units or screen pixels; nothing of gears.

use std::ops::{Add, Mul, Sub};

/// A place.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Downwards.
    pub y: f64,
}

impl Point {
    /// A point from its coordinates.
    #[must_use]
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// Distance from the origin.
    #[must_use]
    pub fn length(self) -> f64 {
        (self.x * self.x + self.y * self.y).sqrt()
    }

    /// Distance to another point.
    #[must_use]
    pub fn distance(self, other: Self) -> f64 {
        (self - other).length()
    }

    /// The same direction with length 1; to the right where there is no direction.
    #[must_use]
    pub fn unit(self) -> Self {
        let length = self.length();
        if length > 1e-9 {
            self * (1.0 / length)
        } else {
            Self::new(1.0, 0.0)
        }
    }

    /// Turned a quarter: from along a line to across it.
    #[must_use]
    pub const fn across(self) -> Self {
        Self::new(-self.y, self.x)
    }

    /// Halfway to another point.
    #[must_use]
    pub fn middle(self, other: Self) -> Self {
        (self + other) * 0.5
    }

    /// Direction in degrees, clockwise from the right as SVG turns.
    #[must_use]
    pub fn angle_deg(self) -> f64 {
        libm::atan2(self.y, self.x) * 180.0 / std::f64::consts::PI
    }
}

impl From<[f64; 2]> for Point {
    fn from([x, y]: [f64; 2]) -> Self {
        Self { x, y }
    }
}

impl Add for Point {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.x + other.x, self.y + other.y)
    }
}

impl Sub for Point {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::new(self.x - other.x, self.y - other.y)
    }
}

impl Mul<f64> for Point {
    type Output = Self;
    fn mul(self, by: f64) -> Self {
        Self::new(self.x * by, self.y * by)
    }
}

/// Width and height.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Size {
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}

/// An upright rectangle.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Rect {
    /// Left edge.
    pub x: f64,
    /// Top edge.
    pub y: f64,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}

impl Rect {
    /// The shares of a straight piece between which it lies within, by cutting off what lies beyond each of the sides (Liang
    /// and Barsky, "A new concept and method for line clipping", ACM Trans. Graphics 3, 1984); none where it stays
    /// outside.
    #[must_use]
    pub fn part_within(&self, from: Point, to: Point) -> Option<(f64, f64)> {
        let (mut first, mut last) = (0.0_f64, 1.0_f64);
        let by = to - from;
        let sides = [
            (by.x, self.x - from.x, self.x + self.width - from.x),
            (by.y, self.y - from.y, self.y + self.height - from.y),
        ];
        for (along, low, high) in sides {
            if along.abs() < 1e-9 {
                if low > 0.0 || high < 0.0 {
                    return None;
                }
            } else {
                let (one, other) = (low / along, high / along);
                first = first.max(one.min(other));
                last = last.min(one.max(other));
            }
        }
        (first <= last).then_some((first, last))
    }

    /// A rectangle by its centre.
    #[must_use]
    pub fn around(centre: Point, width: f64, height: f64) -> Self {
        Self {
            x: centre.x - width / 2.0,
            y: centre.y - height / 2.0,
            width,
            height,
        }
    }

    /// The smallest rectangle that holds two corners.
    #[must_use]
    pub fn between(one: Point, other: Point) -> Self {
        Self {
            x: one.x.min(other.x),
            y: one.y.min(other.y),
            width: (one.x - other.x).abs(),
            height: (one.y - other.y).abs(),
        }
    }

    /// Its centre.
    #[must_use]
    pub fn centre(&self) -> Point {
        Point::new(self.x + self.width / 2.0, self.y + self.height / 2.0)
    }

    /// Right edge.
    #[must_use]
    pub fn right(&self) -> f64 {
        self.x + self.width
    }

    /// Bottom edge.
    #[must_use]
    pub fn bottom(&self) -> f64 {
        self.y + self.height
    }

    /// Whether a point lies in it.
    #[must_use]
    pub fn contains(&self, point: Point) -> bool {
        point.x >= self.x && point.x <= self.right() && point.y >= self.y && point.y <= self.bottom()
    }

    /// The same with a margin on all sides.
    #[must_use]
    pub fn grown(&self, by: f64) -> Self {
        Self {
            x: self.x - by,
            y: self.y - by,
            width: self.width + 2.0 * by,
            height: self.height + 2.0 * by,
        }
    }

    /// The same in a plane with so many units for one of this.
    #[must_use]
    pub fn scaled(&self, by: f64) -> Self {
        Self {
            x: self.x * by,
            y: self.y * by,
            width: self.width * by,
            height: self.height * by,
        }
    }

    /// The smallest rectangle that holds both.
    #[must_use]
    pub fn union(&self, other: &Self) -> Self {
        let (x, y) = (self.x.min(other.x), self.y.min(other.y));
        Self {
            x,
            y,
            width: self.right().max(other.right()) - x,
            height: self.bottom().max(other.bottom()) - y,
        }
    }

    /// Area shared with another rectangle.
    #[must_use]
    pub fn overlap(&self, other: &Self) -> f64 {
        let width = self.right().min(other.right()) - self.x.max(other.x);
        let height = self.bottom().min(other.bottom()) - self.y.max(other.y);
        if width > 0.0 && height > 0.0 {
            width * height
        } else {
            0.0
        }
    }
}
