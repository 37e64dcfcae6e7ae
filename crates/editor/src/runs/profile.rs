//! A course drawn from the side: way to the right and height upwards to one scale, distances along its foot.

use layshaft_layout::Stretch;

use crate::geometry::{Point, Size};
use crate::numbers::MINUS;
use crate::runs::measures;

/// A course from the side, in pixels.
#[derive(Clone, Debug, PartialEq)]
pub struct Profile {
    /// Size of the drawing.
    pub size: Size,
    /// The ground, as a path.
    pub ground: String,
    /// The ground with the earth under it, as a closed path.
    pub earth: String,
    /// Height of the foot line.
    pub foot: f64,
    /// Ends of stretches: from the ground to the foot, with the way so far; the text is empty where there is no room.
    pub ends: Vec<(Point, String)>,
    /// The slope of each stretch that there is room to write at, over its middle.
    pub slopes: Vec<(Point, String)>,
    /// What a screen reader says.
    pub spoken: String,
    way: Vec<(f64, Point)>,
}

/// Room at the left and right, above for slopes, below for distances.
const SIDE: f64 = 26.0;
const ABOVE: f64 = 26.0;
const BELOW: f64 = 24.0;
/// Height of the ground at most and at least.
const TALLEST: f64 = 110.0;
/// Room that a text takes.
const TEXT: f64 = 44.0;

/// Draws a course; none where there is none.
pub fn profile(course: &[Stretch], width: f64) -> Option<Profile> {
    if course.is_empty() {
        return None;
    }
    let corners = corners(course);
    let last = corners.last().copied().unwrap_or_default();
    let (low, high) = corners.iter().fold((0.0_f64, 0.0_f64), |(low, high), corner| {
        (low.min(corner.1.y), high.max(corner.1.y))
    });
    let room = (width - 2.0 * SIDE).max(40.0);
    let scale = (room / last.1.x.max(1e-9)).min(TALLEST / (high - low).max(1e-9));
    let tall = (high - low) * scale;
    let foot = ABOVE + tall + 10.0;
    let place = |corner: Point| Point::new(SIDE + corner.x * scale, ABOVE + (high - corner.y) * scale);
    let way: Vec<(f64, Point)> = corners
        .iter()
        .map(|(way, corner)| (*way, place(*corner)))
        .collect();
    let ground = path(way.iter().map(|(_, point)| *point));
    let (first, end) = (way[0].1, way[way.len() - 1].1);
    Some(Profile {
        size: Size {
            width,
            height: foot + BELOW,
        },
        earth: format!("{ground}L{:.1} {foot:.1}L{:.1} {foot:.1}z", end.x, first.x),
        ground,
        foot,
        ends: ends(&way),
        slopes: slopes(course, &way),
        spoken: spoken(course, last.0),
        way,
    })
}

impl Profile {
    /// The place on the ground after so many metres.
    #[must_use]
    pub fn at(&self, metres: f64) -> Option<Point> {
        let next = self.way.iter().position(|(way, _)| *way >= metres);
        let next = next.unwrap_or(self.way.len() - 1).max(1);
        let ((start, from), (end, to)) = (*self.way.get(next - 1)?, *self.way.get(next)?);
        let share = ((metres - start) / (end - start)).clamp(0.0, 1.0);
        Some(from + (to - from) * share)
    }
}

/// Way so far and place of every corner, in m.
fn corners(course: &[Stretch]) -> Vec<(f64, Point)> {
    let mut corners = vec![(0.0, Point::default())];
    let (mut way, mut at) = (0.0, Point::default());
    for stretch in course {
        let angle = stretch.slope_deg.to_radians();
        way += stretch.length_m;
        at = at + Point::new(libm::cos(angle), libm::sin(angle)) * stretch.length_m;
        corners.push((way, at));
    }
    corners
}

fn path(points: impl Iterator<Item = Point>) -> String {
    let mut path = String::new();
    for point in points {
        path.push(if path.is_empty() { 'M' } else { 'L' });
        path.push_str(&format!("{:.1} {:.1}", point.x, point.y));
    }
    path
}

fn ends(way: &[(f64, Point)]) -> Vec<(Point, String)> {
    let mut free_from = f64::NEG_INFINITY;
    let last = way.len() - 1;
    let end = way[last].1.x;
    let told = |(number, (metres, point)): (usize, &(f64, Point))| {
        let fits = point.x >= free_from && (number == last || number == 0 || point.x <= end - TEXT);
        if fits {
            free_from = point.x + TEXT;
        }
        let text = if fits {
            measures::way(*metres).text()
        } else {
            String::new()
        };
        (*point, text)
    };
    way.iter().enumerate().map(told).collect()
}

fn slopes(course: &[Stretch], way: &[(f64, Point)]) -> Vec<(Point, String)> {
    let fits = |pair: &[(f64, Point)]| pair[1].1.x - pair[0].1.x >= TEXT;
    let pairs = course.iter().zip(way.windows(2)).filter(|(_, pair)| fits(pair));
    pairs
        .map(|(stretch, pair)| {
            let middle = (pair[0].1 + pair[1].1) * 0.5;
            (middle + Point::new(0.0, -8.0), degrees(stretch.slope_deg))
        })
        .collect()
}

fn degrees(value: f64) -> String {
    let text = format!("{value:.1}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    format!("{}°", text.replace('-', &MINUS.to_string()))
}

fn spoken(course: &[Stretch], length: f64) -> String {
    let stretches = course.iter().take(12).map(|stretch| {
        let slope = match stretch.slope_deg {
            up if up > 0.0 => format!("up at {up} degrees"),
            down if down < 0.0 => format!("down at {} degrees", -down),
            _ => "level".to_owned(),
        };
        format!("{} {slope}", measures::way(stretch.length_m).spoken())
    });
    let stretches: Vec<String> = stretches.collect();
    format!(
        "The course from the side, {} long: {}",
        measures::way(length).spoken(),
        stretches.join(", ")
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stretch(length_m: f64, slope_deg: f64) -> Stretch {
        Stretch { length_m, slope_deg }
    }

    #[test]
    fn slopes_are_drawn_to_scale() {
        let course = [stretch(4.0, 0.0), stretch(4.0, 30.0)];
        let drawn = profile(&course, 400.0).unwrap();
        let (start, middle, end) = (drawn.at(0.0), drawn.at(4.0), drawn.at(8.0));
        let (start, middle, end) = (start.unwrap(), middle.unwrap(), end.unwrap());
        assert_eq!(start.y, middle.y);
        let rise = (middle.y - end.y) / (end.x - middle.x);
        assert!((rise - libm::tan(30.0_f64.to_radians())).abs() < 1e-9, "{rise}");
        assert!((drawn.at(6.0).unwrap().x - (middle.x + end.x) / 2.0).abs() < 1e-9);
    }

    #[test]
    fn ways_are_told_where_there_is_room() {
        let course = [stretch(2.0, 0.0), stretch(0.01, 5.0), stretch(2.0, 0.0)];
        let drawn = profile(&course, 400.0).unwrap();
        let told: Vec<&str> = drawn.ends.iter().map(|(_, text)| text.as_str()).collect();
        assert_eq!(told.iter().filter(|text| text.is_empty()).count(), 1);
        assert_eq!(drawn.slopes.len(), 2);
        assert_eq!(profile(&[], 400.0), None);
    }
}
