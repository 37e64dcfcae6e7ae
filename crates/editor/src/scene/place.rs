//! Where each element's symbol stands: where it was put, else between its shafts and out of the way of others.

use std::collections::BTreeMap;

use layshaft_layout::{Element, Id, Layout};

use super::crowd::Crowd;
use crate::catalogue::Kind;
use crate::geometry::{Point, Rect};
use crate::parts::{is_frame, ports};

/// Radius of a shaft's circle.
pub const SHAFT_RADIUS: f64 = 18.0;
/// Size of the box that symbols are drawn in.
pub const SYMBOL: (f64, f64) = (48.0, 32.0);
/// Distance of a source, load or brake from its shaft.
pub const ONE_PORT_REACH: f64 = 84.0;
/// What lies further from the shafts of an element is no place for it.
const FARTHEST: f64 = 240.0;

/// The centre of every element's symbol, in document order.
#[must_use]
pub fn element_places(layout: &Layout) -> Vec<Point> {
    element_places_beside(layout, |_| None)
}

/// The same, while some elements keep the place that they have: only the others look for one.
pub fn element_places_beside(layout: &Layout, kept: impl Fn(&Element) -> Option<Point>) -> Vec<Point> {
    let put = |element: &Element| {
        let by_hand = element.at.map(Point::from);
        by_hand.filter(|at| at.x.is_finite() && at.y.is_finite())
    };
    let mut places: Vec<Option<Point>> = layout
        .elements
        .iter()
        .map(|element| put(element).or_else(|| kept(element)))
        .collect();
    if places.iter().all(Option::is_some) {
        return places.into_iter().flatten().collect();
    }
    let shafts: BTreeMap<&Id, Point> = layout
        .shafts
        .iter()
        .map(|shaft| (&shaft.id, shaft.at.into()))
        .collect();
    let anchors: Vec<Vec<Point>> = layout
        .elements
        .iter()
        .map(|element| anchors(&shafts, element))
        .collect();
    let looking = anchors.iter().zip(&places).filter(|(_, at)| at.is_none());
    let mut crowd = Crowd::within(reach(looking.map(|(anchors, _)| &**anchors)));
    for shaft in &layout.shafts {
        crowd.take(Rect::around(shaft.at.into(), 64.0, 64.0), 1.0);
    }
    for (anchors, at) in anchors.iter().zip(&places) {
        if let Some(at) = at {
            stand(&mut crowd, *at, anchors);
        }
    }
    // Those that join several shafts have less choice, so they come first.
    for joins_several in [true, false] {
        for ((element, anchors), place) in layout.elements.iter().zip(&anchors).zip(&mut places) {
            if place.is_none() && (anchors.len() > 1) == joins_several {
                let at = best(&crowd, anchors, Kind::of(&element.kind));
                stand(&mut crowd, at, anchors);
                *place = Some(at);
            }
        }
    }
    places.into_iter().map(Option::unwrap_or_default).collect()
}

/// Where elements between such shafts look for a place: no candidate, its box with it, lies further off.
fn reach<'a>(looking: impl Iterator<Item = &'a [Point]>) -> Rect {
    let rooms = looking.map(|anchors| {
        let points = anchors.iter().map(|at| Rect::around(*at, 0.0, 0.0));
        let between = points.reduce(|all, point| all.union(&point));
        between.unwrap_or_default().grown(FARTHEST)
    });
    rooms.reduce(|all, room| all.union(&room)).unwrap_or_default()
}

/// Centres of the shafts that an element sits on; the frame has none.
fn anchors(shafts: &BTreeMap<&Id, Point>, element: &Element) -> Vec<Point> {
    let ports = ports(&element.kind);
    let on = ports.iter().filter(|port| !is_frame(port.shaft));
    on.filter_map(|port| shafts.get(port.shaft).copied()).collect()
}

fn stand(crowd: &mut Crowd, at: Point, anchors: &[Point]) {
    crowd.take(Rect::around(at, SYMBOL.0 + 12.0, SYMBOL.1 + 12.0), 1.0);
    for anchor in anchors {
        crowd.take_line(*anchor, at, 10.0, 0.5);
    }
}

fn best(crowd: &Crowd, anchors: &[Point], kind: Kind) -> Point {
    let mut best = (f64::INFINITY, Point::default());
    for (rank, at) in candidates(anchors, kind).into_iter().enumerate() {
        // Earlier candidates are the more natural ones; a price has to be worth leaving them.
        let rank_price = rank as f64 * 40.0;
        if best.0 <= rank_price {
            // Whatever comes later costs more by its rank alone.
            break;
        }
        let box_price = crowd.price(&Rect::around(at, SYMBOL.0 + 12.0, SYMBOL.1 + 12.0));
        let wires: f64 = anchors.iter().map(|anchor| wire_price(crowd, *anchor, at)).sum();
        let price = box_price + wires + rank_price;
        if price < best.0 {
            best = (price, at);
        }
    }
    best.1
}

/// Where an element between such shafts could stand, the most natural place first.
fn candidates(anchors: &[Point], kind: Kind) -> Vec<Point> {
    match anchors {
        [] => vec![Point::default()],
        [one] => around(*one, kind),
        [one, other] => beside(*one, *other),
        several => near_middle(several),
    }
}

/// The price of a wire, from outside its own shaft's circle on.
fn wire_price(crowd: &Crowd, anchor: Point, at: Point) -> f64 {
    let length = anchor.distance(at);
    if length <= 50.0 {
        return 0.0;
    }
    crowd.line_price(anchor + (at - anchor).unit() * 44.0, at, 10.0)
}

/// Sources to the left and loads to the right, since trains are read from left to right; brakes below.
fn around(shaft: Point, kind: Kind) -> Vec<Point> {
    let r = ONE_PORT_REACH;
    let d = r * 0.8;
    let side = if kind.is_source() { -r } else { r };
    let level = [(side, 0.0), (-side, 0.0)];
    let upright = [(0.0, r), (0.0, -r)];
    let corners = [
        (d, d),
        (-d, d),
        (d, -d),
        (-d, -d),
        (1.6 * side, 0.0),
        (-1.6 * side, 0.0),
    ];
    let (first, second) = if kind == Kind::Brake {
        (upright, level)
    } else {
        (level, upright)
    };
    first
        .into_iter()
        .chain(second)
        .chain(corners)
        .map(|(x, y)| shaft + Point::new(x, y))
        .collect()
}

/// The middle, then further and further to either side of the line.
fn beside(one: Point, other: Point) -> Vec<Point> {
    let middle = one.middle(other);
    let mut across = (other - one).unit().across();
    if across.y > 0.0 || (across.y == 0.0 && across.x > 0.0) {
        across = across * -1.0;
    }
    [0.0, 72.0, -72.0, 128.0, -128.0, 184.0, -184.0]
        .into_iter()
        .map(|off| middle + across * off)
        .collect()
}

fn near_middle(anchors: &[Point]) -> Vec<Point> {
    let sum = anchors.iter().fold(Point::default(), |sum, at| sum + *at);
    let middle = sum * (1.0 / anchors.len() as f64);
    [0.0, 80.0, -80.0, 140.0, -140.0]
        .into_iter()
        .flat_map(|y| [0.0, 60.0, -60.0, 110.0, -110.0].map(|x| middle + Point::new(x, y)))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(anchors: &[Point], kind: Kind) {
        let room = reach(std::iter::once(anchors));
        for at in candidates(anchors, kind) {
            let symbol = Rect::around(at, SYMBOL.0 + 12.0, SYMBOL.1 + 12.0);
            assert_eq!(room.union(&symbol), room, "{at:?} between {anchors:?}");
        }
    }

    #[test]
    fn elements_look_for_a_place_within_their_reach() {
        let [a, b, c] = [(0.0, 0.0), (500.0, -300.0), (90.0, 700.0)].map(|(x, y)| Point::new(x, y));
        check(&[], Kind::Mesh);
        for kind in [Kind::Motor, Kind::Load, Kind::Brake] {
            check(&[b], kind);
        }
        for anchors in [[a, b], [b, c], [a, a]] {
            check(&anchors, Kind::Mesh);
        }
        check(&[a, b, c], Kind::Planetary);
    }
}
