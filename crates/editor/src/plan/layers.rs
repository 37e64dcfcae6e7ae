//! Which layer along the axis every element's wheels lie in: as chosen, else the lowest that is free.

use layshaft_layout::Layout;

use super::Plan;
use super::parts::{Body, Wheel};
use crate::geometry::Point;

/// Most layers that are looked through.
const MOST_LAYERS: u32 = 1000;

/// Gives every element and wheel its layer: those chosen by hand first, then the others in document order.
pub fn assign(layout: &Layout, plan: &mut Plan) {
    let count = layout.elements.len();
    plan.layers = vec![0; count];
    let mut of_element: Vec<Vec<usize>> = vec![Vec::new(); count];
    for (number, wheel) in plan.wheels.iter().enumerate() {
        of_element[wheel.element].push(number);
    }
    let mut placed: Vec<usize> = Vec::new();
    let chosen = |element: usize| layout.plan.layer_of(&layout.elements[element].id);
    for by_hand in [true, false] {
        for element in (0..count).filter(|element| chosen(*element).is_some() == by_hand) {
            let own = &of_element[element];
            if own.is_empty() {
                continue;
            }
            let layer = chosen(element).unwrap_or_else(|| lowest_free(plan, own, &placed));
            plan.layers[element] = layer;
            for wheel in own {
                plan.wheels[*wheel].layer = layer + plan.wheels[*wheel].step;
            }
            placed.extend(own);
        }
    }
}

fn lowest_free(plan: &Plan, own: &[usize], placed: &[usize]) -> u32 {
    let is_free = |layer: &u32| {
        own.iter().all(|wheel| {
            let wheel = &plan.wheels[*wheel];
            let others = placed.iter().map(|other| &plan.wheels[*other]);
            others
                .filter(|other| other.layer == layer + wheel.step)
                .all(|other| !collide(plan, wheel, other))
        })
    };
    (1..MOST_LAYERS).find(is_free).unwrap_or(MOST_LAYERS)
}

/// Whether two wheels of different elements strike one another in one layer. One gear that meshes with two others is one
/// wheel, though two elements name it.
#[must_use]
pub fn collide(plan: &Plan, one: &Wheel, other: &Wheel) -> bool {
    if one.axis == other.axis && one.orbit.is_none() && other.orbit.is_none() && one.body == other.body {
        return one.spin != other.spin;
    }
    overlap(disc(plan, one), disc(plan, other)) && !meshes(plan, one, other) && !meshes(plan, other, one)
}

/// Whether what a wheel strikes is the partner of the same gear in another element.
fn meshes(plan: &Plan, gear: &Wheel, partner: &Wheel) -> bool {
    let links = plan.links.iter().filter(|link| link.element == partner.element);
    let mut pairs = links.flat_map(|link| [link.wheels, [link.wheels[1], link.wheels[0]]]);
    pairs.any(|[twin, other]| {
        let twin = &plan.wheels[twin];
        plan.wheels[other].axis == partner.axis
            && plan.wheels[other].body == partner.body
            && twin.axis == gear.axis
            && twin.body == gear.body
            && twin.spin == gear.spin
            && gear.orbit.is_none()
    })
}

/// Middle, radius and free radius inside.
type Disc = (Point, f64, Option<f64>);

fn disc(plan: &Plan, wheel: &Wheel) -> Disc {
    let centre = plan.centre(wheel);
    match wheel.body {
        Body::Lying {
            toward,
            distance,
            half_across,
            half_along,
        } => {
            let at = centre + Point::new(libm::cos(toward), libm::sin(toward)) * distance;
            (at, half_across[1].max(half_along), None)
        }
        body => (centre, body.outer_radius(), body.inner_radius()),
    }
}

fn overlap(one: Disc, other: Disc) -> bool {
    // What only touches, as two gears in mesh at their pitch circles do not, is no collision.
    const PLAY: f64 = 1e-6;
    let apart = one.0.distance(other.0);
    let within = |inner: Disc, outer: Disc| outer.2.is_some_and(|free| apart + inner.1 <= free + PLAY);
    apart < one.1 + other.1 - PLAY && !within(one, other) && !within(other, one)
}
