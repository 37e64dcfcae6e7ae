//! A small picture of a layout: power, lines and parts as three paths, made from its drawing.
//!
//! At the size of a card nothing more can be told apart, so symbols are boxes and labels are left out. Coordinates are
//! whole numbers, which keeps a picture to one or two kilobytes.

use std::fmt::Write as _;

use serde_json::{Value, json};

use crate::geometry::{Point, Rect};
use crate::scene::{SYMBOL, Scene};

/// Free rim round the picture, in bench units.
const RIM: f64 = 24.0;
/// Width and height of the smallest picture, in bench units: a single mesh should not fill a card.
const LEAST: (f64, f64) = (420.0, 260.0);

/// Three paths in one frame, all in bench coordinates.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Thumbnail {
    /// Value for the SVG's `viewBox`; empty where there is nothing to see.
    pub view_box: String,
    /// Ribbons of power, to be filled.
    pub power: String,
    /// Connections, to be drawn thin.
    pub lines: String,
    /// Shafts and symbols, to be drawn thick and filled with paper.
    pub parts: String,
}

impl Thumbnail {
    pub(super) fn to_json(&self) -> Value {
        json!([self.view_box, self.power, self.lines, self.parts])
    }

    /// Of anything else than what was written it makes an empty picture; the next change draws it anew.
    pub(super) fn from_json(value: &Value) -> Self {
        let word = |index: usize| {
            value
                .get(index)
                .and_then(Value::as_str)
                .unwrap_or_default()
                .to_owned()
        };
        Self {
            view_box: word(0),
            power: word(1),
            lines: word(2),
            parts: word(3),
        }
    }
}

/// The picture of a drawing.
#[must_use]
pub fn thumbnail(scene: &Scene) -> Thumbnail {
    let mut picture = Thumbnail::default();
    let shafts = scene
        .shafts
        .iter()
        .map(|shaft| Rect::around(shaft.at, 2.0 * shaft.radius, 2.0 * shaft.radius));
    let symbols = scene
        .elements
        .iter()
        .map(|element| Rect::around(element.at, SYMBOL.0, SYMBOL.0));
    let folded = scene.groups.iter().filter(|group| group.folded);
    let boxes = folded.clone().map(|group| group.room);
    let Some(bounds) = shafts
        .chain(symbols)
        .chain(boxes)
        .reduce(|all, rect| all.union(&rect))
    else {
        return picture;
    };
    let frame = Rect::around(
        bounds.centre(),
        (bounds.width + 2.0 * RIM).max(LEAST.0),
        (bounds.height + 2.0 * RIM).max(LEAST.1),
    );
    picture.view_box = format!(
        "{} {} {} {}",
        whole(frame.x),
        whole(frame.y),
        whole(frame.width),
        whole(frame.height)
    );
    let wires = scene.elements.iter().flat_map(|element| &element.wires);
    for wire in wires.chain(folded.clone().flat_map(|group| &group.wires)) {
        let _ = write!(picture.lines, "M{}L{}", at(wire.from), at(wire.to));
        if let Some(ribbon) = &wire.ribbon {
            band(
                &mut picture.power,
                ribbon.origin,
                ribbon.angle_deg,
                ribbon.length,
                ribbon.width,
            );
        }
    }
    for group in folded {
        let half = (group.room.width / 2.0, group.room.height / 2.0);
        corners(&mut picture.parts, group.room.centre(), 0.0, half);
    }
    for element in &scene.elements {
        let (half_width, half_height) = element.symbol.half;
        corners(
            &mut picture.parts,
            element.at,
            element.angle_deg,
            (f64::from(half_width), f64::from(half_height)),
        );
    }
    for shaft in &scene.shafts {
        let r = whole(shaft.radius);
        let left = Point::new(shaft.at.x - shaft.radius, shaft.at.y);
        let _ = write!(
            picture.parts,
            "M{}a{r} {r} 0 1 0 {d} 0a{r} {r} 0 1 0 -{d} 0",
            at(left),
            d = 2 * r
        );
    }
    picture
}

/// A ribbon from its origin along its direction.
fn band(path: &mut String, origin: Point, angle_deg: f64, length: f64, width: f64) {
    let along = direction(angle_deg);
    let middle = origin + along * (length / 2.0);
    corners(path, middle, angle_deg, (length / 2.0, width / 2.0));
}

/// A turned rectangle by its centre and half its sides.
fn corners(path: &mut String, centre: Point, angle_deg: f64, half: (f64, f64)) {
    let along = direction(angle_deg) * half.0;
    let across = direction(angle_deg).across() * half.1;
    let _ = write!(
        path,
        "M{}L{}L{}L{}Z",
        at(centre - along - across),
        at(centre + along - across),
        at(centre + along + across),
        at(centre - along + across)
    );
}

fn direction(angle_deg: f64) -> Point {
    let angle = angle_deg.to_radians();
    Point::new(libm::cos(angle), libm::sin(angle))
}

fn at(point: Point) -> String {
    format!("{} {}", whole(point.x), whole(point.y))
}

/// Bench coordinates are bounded; what is not finite is put at 0 by the cast.
#[expect(
    clippy::cast_possible_truncation,
    reason = "rounded before, and a cast saturates"
)]
fn whole(value: f64) -> i64 {
    value.round() as i64
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::Session;

    fn picture(demo: &str) -> Thumbnail {
        let demo = crate::demos::demo(demo).expect("a demo");
        thumbnail(&Session::new(layshaft_layout::decode(demo.text).expect("sound")).scene())
    }

    #[test]
    fn every_demo_has_a_small_picture_with_its_parts() {
        for demo in crate::demos::DEMOS {
            let layout = layshaft_layout::decode(demo.text).expect("sound");
            let picture = picture(demo.id);
            let parts = picture.parts.matches('M').count();
            assert_eq!(parts, layout.shafts.len() + layout.elements.len(), "{}", demo.id);
            let size = picture.to_json().to_string().len();
            assert!(size < 4000, "{}: {size} bytes", demo.id);
            assert_eq!(Thumbnail::from_json(&picture.to_json()), picture);
        }
    }

    #[test]
    fn power_is_seen() {
        assert!(!picture("granary-hoist-stages").power.is_empty());
    }

    #[test]
    fn an_empty_bench_has_no_picture() {
        assert_eq!(thumbnail(&Session::empty().scene()), Thumbnail::default());
        assert_eq!(Thumbnail::from_json(&Value::Null), Thumbnail::default());
    }
}
