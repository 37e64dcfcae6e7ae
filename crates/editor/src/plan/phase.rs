//! At which angle every tooth stands, so that teeth meet gaps, and how fast each wheel turns on the screen.

use core::f64::consts::PI;
use std::collections::BTreeMap;

use layshaft_geometry::{Gear, Rim};
use layshaft_layout::Id;
use layshaft_report::PositionReport;
use num_traits::ToPrimitive;

use super::Plan;
use super::parts::{Body, Bond, Spin};
use crate::scene::Turning;

/// Angle of a tooth of the second gear, so that its gap takes the first one's tooth: with the first's tooth at `phase` and
/// the second's centre in the direction `toward` from the first, `toward + π − (z1/z2)(phase − toward) + π/z2` for outer teeth,
/// and for a first gear inside a second `away + (z1/z2)(phase − away) + π/z2`, `away` being the direction from the ring's
/// centre to the gear's.
#[must_use]
pub fn partner_phase(first: &Gear, phase: f64, second: &Gear, toward: f64) -> f64 {
    let ratio = first.count() / second.count();
    let half_tooth = PI / second.count();
    if second.rim == Rim::Inner {
        let away = toward + PI;
        away + ratio * (phase - away) + half_tooth
    } else {
        toward + PI - ratio * (phase - toward) + half_tooth
    }
}

/// Sets the angle of every gear: pairs in document order, each second gear after its first; sets from their sun.
pub fn mesh(plan: &mut Plan) {
    let mut set = vec![false; plan.wheels.len()];
    for number in 0..plan.links.len() {
        let link = plan.links[number].clone();
        let (Body::Gear(first), Body::Gear(second)) =
            (plan.wheels[link.wheels[0]].body, plan.wheels[link.wheels[1]].body)
        else {
            continue;
        };
        if !matches!(link.bond, Bond::Apart(_)) {
            continue;
        }
        // One gear in two meshes has one angle.
        for wheel in link.wheels {
            let twin = (0..plan.wheels.len()).find(|other| set[*other] && is_same_gear(plan, wheel, *other));
            if let Some(twin) = twin.filter(|_| !set[wheel]) {
                plan.wheels[wheel].phase = plan.wheels[twin].phase;
                set[wheel] = true;
            }
        }
        let way = plan.at[link.axes[1]] - plan.at[link.axes[0]];
        let toward = libm::atan2(way.y, way.x);
        let [a, b] = link.wheels;
        if set[b] && !set[a] && second.rim == Rim::Outer {
            plan.wheels[a].phase = partner_phase(&second, plan.wheels[b].phase, &first, toward + PI);
        } else if !set[b] {
            plan.wheels[b].phase = partner_phase(&first, plan.wheels[a].phase, &second, toward);
        }
        set[a] = true;
        set[b] = true;
    }
    planets(plan);
}

fn is_same_gear(plan: &Plan, one: usize, other: usize) -> bool {
    let (one, other) = (&plan.wheels[one], &plan.wheels[other]);
    one.axis == other.axis && one.body == other.body && one.spin == other.spin && one.layer == other.layer
}

/// Planets follow the central gear before them in their element's layer, a ring the first planet in it.
fn planets(plan: &mut Plan) {
    for number in 0..plan.wheels.len() {
        let wheel = plan.wheels[number].clone();
        let (Some(orbit), Body::Gear(planet)) = (wheel.orbit, wheel.body) else {
            continue;
        };
        let in_set = |other: &usize| {
            let other = &plan.wheels[*other];
            other.element == wheel.element && other.step == wheel.step && other.orbit.is_none()
        };
        let central: Vec<usize> = (0..plan.wheels.len()).filter(in_set).collect();
        let before = number.checked_sub(1).map(|before| plan.wheels[before].clone());
        // The outer one of a pair follows the inner one, which stands just before it.
        let inner = before.filter(|before| {
            before.element == wheel.element
                && before.step == wheel.step
                && before
                    .orbit
                    .is_some_and(|inner| (inner.radius_mm - orbit.radius_mm).abs() > 1e-9)
                && spin_ratio(&wheel.spin) > 0.0
                && central
                    .iter()
                    .any(|n| plan.wheels[*n].body.inner_radius().is_none())
        });
        let phase = if let Some(inner) = &inner {
            let way = plan.centre(&wheel) - plan.centre(inner);
            follow(inner.body, inner.phase, &planet, libm::atan2(way.y, way.x))
        } else {
            let sun = central
                .iter()
                .map(|n| &plan.wheels[*n])
                .find(|other| other.body.inner_radius().is_none());
            sun.map_or(0.0, |sun| follow(sun.body, sun.phase, &planet, orbit.angle))
        };
        plan.wheels[number].phase = phase;
        let is_first = central.iter().all(|n| plan.wheels[*n].phase == 0.0) || inner.is_some();
        for ring in central {
            if let Body::Gear(gear) = plan.wheels[ring].body
                && gear.rim == Rim::Inner
                && is_first
                && plan.wheels[ring].phase == 0.0
            {
                plan.wheels[ring].phase = partner_phase(&planet, phase, &gear, orbit.angle + PI);
            }
        }
    }
}

const fn spin_ratio(spin: &Spin) -> f64 {
    match spin {
        Spin::Shaft(_) => 0.0,
        Spin::Planet { ratio, .. } => *ratio,
    }
}

fn follow(leader: Body, phase: f64, gear: &Gear, toward: f64) -> f64 {
    match leader {
        Body::Gear(leader) => partner_phase(&leader, phase, gear, toward),
        _ => 0.0,
    }
}

/// Turns a second on the screen, positive clockwise, of every shaft that turns: true to one another to the last digit, since
/// teeth would leave their gaps otherwise.
#[must_use]
pub fn turns_per_second(position: &PositionReport, slower: f64) -> BTreeMap<Id, f64> {
    let turning = Turning::of(position);
    let ratio = |ratio: &Option<layshaft_kinematics::Ratio>| ratio.as_ref().and_then(ToPrimitive::to_f64);
    let drive = match turning {
        Turning::Still => return BTreeMap::new(),
        Turning::Relative(rpm) => rpm / 60.0,
        Turning::Slowed(factor) => {
            let speed = position.shafts.iter().find_map(|shaft| {
                let ratio = ratio(&shaft.ratio).filter(|ratio| *ratio != 0.0)?;
                Some(shaft.speed?.to_rpm() / ratio)
            });
            speed.unwrap_or(0.0) / factor / 60.0
        }
    };
    let of = |shaft: &layshaft_report::ShaftResult| {
        let by_ratio = ratio(&shaft.ratio).map(|ratio| ratio * drive);
        let by_speed = || match turning {
            Turning::Slowed(factor) => Some(shaft.speed?.to_rpm() / factor / 60.0),
            _ => None,
        };
        let turns = by_ratio.or_else(by_speed)? / slower;
        (turns.is_finite() && turns != 0.0).then(|| (shaft.id.clone(), turns))
    };
    position.shafts.iter().filter_map(of).collect()
}

/// Turns a second of a wheel in its own frame, and of the frame that carries it.
#[must_use]
pub fn wheel_turns(spin: &Spin, turns: &BTreeMap<Id, f64>) -> (f64, f64) {
    let of = |shaft: &Option<Id>| {
        shaft
            .as_ref()
            .and_then(|id| turns.get(id))
            .copied()
            .unwrap_or(0.0)
    };
    match spin {
        Spin::Shaft(shaft) => (of(shaft), 0.0),
        Spin::Planet {
            carrier,
            of: central,
            ratio,
        } => {
            let carrier = of(carrier);
            (ratio * (of(central) - carrier), carrier)
        }
    }
}
