//! What on a plan does not fit, and what was assumed. Words are in `wording::plan`.

use std::collections::BTreeSet;

use layshaft_geometry::{Gear, Pair, PairFault, Rim};
use layshaft_layout::{BorePattern, ElementKind, Id, Layout, SteppedRatio};

use super::parts::{Body, Bond, Wheel};
use super::{Plan, layers, place};
use crate::geometry::Point;

/// Something to be told about a plan.
#[derive(Clone, Debug, PartialEq)]
pub enum Fault {
    /// Axes are not as far apart as their wheels need, in mm.
    Distance {
        /// The element.
        element: Id,
        /// What its wheels need.
        wanted: f64,
        /// What the plan has.
        found: f64,
    },
    /// Two elements' wheels strike one another in a layer.
    Collision {
        /// The elements.
        elements: [Id; 2],
        /// The layer.
        layer: u32,
    },
    /// A shaft runs through a wheel of another.
    ShaftThrough {
        /// The shaft.
        shaft: Id,
        /// The wheel's element.
        element: Id,
    },
    /// No bore is where a shaft stands.
    NoBore {
        /// The shaft.
        shaft: Id,
        /// How far the nearest one is in mm, where there is one.
        nearest: Option<f64>,
    },
    /// No two bores are as far apart as a pair needs, in mm.
    BoreDistance {
        /// The element.
        element: Id,
        /// What it needs.
        wanted: f64,
        /// The nearest distances that two bores have.
        offered: Vec<f64>,
    },
    /// Something is wrong with a pair of gears.
    Pair {
        /// The element.
        element: Id,
        /// What.
        fault: PairFault,
    },
    /// A gear has so few teeth that its flanks are cut into.
    Undercut {
        /// The element.
        element: Id,
        /// The teeth.
        teeth: u32,
    },
    /// Planets of a set overlap.
    PlanetsCollide {
        /// The element.
        element: Id,
        /// How many.
        count: usize,
    },
    /// Planets can't stand evenly: a whole number of them does not divide the teeth of sun and ring together.
    PlanetsUneven {
        /// The element.
        element: Id,
        /// Teeth of sun and ring together.
        teeth: u32,
        /// How many planets.
        count: u32,
    },
    /// A ring that is not sun and two planets: it needs profile shift.
    RingShifted {
        /// The element.
        element: Id,
    },
    /// Sizes of an element can't be drawn, since its teeth are not given.
    NoTeeth {
        /// The element.
        element: Id,
    },
    /// The module of gears that give none was assumed.
    AssumedModule {
        /// The elements.
        elements: Vec<Id>,
    },
    /// The size of differentials that give no teeth was assumed.
    AssumedSides {
        /// The elements.
        elements: Vec<Id>,
    },
    /// Shafts are taken to end at their outermost wheels.
    AssumedEnds,
    /// How many planets there are was assumed.
    AssumedPlanets {
        /// The elements.
        elements: Vec<Id>,
    },
}

impl Fault {
    /// Whether something is wrong, as against assumed or only to be known.
    #[must_use]
    pub const fn is_wrong(&self) -> bool {
        !matches!(
            self,
            Self::AssumedModule { .. }
                | Self::AssumedSides { .. }
                | Self::AssumedEnds
                | Self::AssumedPlanets { .. }
                | Self::RingShifted { .. }
                | Self::NoTeeth { .. }
                | Self::Undercut { .. }
                | Self::PlanetsUneven { .. }
        )
    }
}

/// Everything to be told about a plan, what is wrong first.
#[must_use]
pub fn faults(layout: &Layout, plan: &Plan) -> Vec<Fault> {
    let mut faults = Vec::new();
    distances(layout, plan, &mut faults);
    collisions(layout, plan, &mut faults);
    bores(layout, plan, &mut faults);
    gears(layout, plan, &mut faults);
    sets(layout, plan, &mut faults);
    assumed(layout, plan, &mut faults);
    faults.sort_by_key(|fault| !fault.is_wrong());
    faults
}

fn id(layout: &Layout, element: usize) -> Id {
    layout.elements[element].id.clone()
}

/// How far a link's axes are apart.
fn found(plan: &Plan, axes: [usize; 2]) -> f64 {
    plan.at[axes[0]].distance(plan.at[axes[1]])
}

/// Whether a link's axes are as far apart as it needs; none where it needs no distance.
#[must_use]
pub fn fits(layout: &Layout, plan: &Plan, link: usize) -> Option<bool> {
    let link = &plan.links[link];
    let Bond::Apart(wanted) = link.bond else {
        return None;
    };
    Some((found(plan, link.axes) - wanted).abs() <= layout.plan.tolerance_mm.max(1e-6))
}

fn distances(layout: &Layout, plan: &Plan, faults: &mut Vec<Fault>) {
    for (number, link) in plan.links.iter().enumerate() {
        if let (Bond::Apart(wanted), Some(false)) = (link.bond, fits(layout, plan, number)) {
            faults.push(Fault::Distance {
                element: id(layout, link.element),
                wanted,
                found: found(plan, link.axes),
            });
        }
    }
}

fn collisions(layout: &Layout, plan: &Plan, faults: &mut Vec<Fault>) {
    let mut seen = BTreeSet::new();
    for (number, one) in plan.wheels.iter().enumerate() {
        for other in &plan.wheels[number + 1..] {
            let pair = (one.element, other.element);
            if one.element != other.element
                && one.layer == other.layer
                && !seen.contains(&pair)
                && layers::collide(plan, one, other)
            {
                seen.insert(pair);
                faults.push(Fault::Collision {
                    elements: [id(layout, one.element), id(layout, other.element)],
                    layer: one.layer,
                });
            }
        }
    }
    shafts_through(layout, plan, faults);
}

/// Shafts are taken to end at their outermost wheels.
fn shafts_through(layout: &Layout, plan: &Plan, faults: &mut Vec<Fault>) {
    let mut spans: Vec<Option<(u32, u32)>> = vec![None; plan.axes.len()];
    for wheel in plan
        .wheels
        .iter()
        .filter(|wheel| !matches!(wheel.body, Body::Lying { .. }))
    {
        let span = spans[wheel.axis].get_or_insert((wheel.layer, wheel.layer));
        *span = (span.0.min(wheel.layer), span.1.max(wheel.layer));
    }
    let half = layout.plan.shaft_mm / 2.0;
    let mut seen = BTreeSet::new();
    for wheel in plan
        .wheels
        .iter()
        .filter(|wheel| wheel.body.inner_radius().is_none())
    {
        for (axis, span) in spans.iter().enumerate() {
            let crosses = span.is_some_and(|(low, high)| low <= wheel.layer && wheel.layer <= high);
            if axis == wheel.axis || !crosses || matches!(wheel.body, Body::Lying { .. }) {
                continue;
            }
            let apart = plan.centre(wheel).distance(plan.at[axis]);
            if apart < wheel.body.outer_radius() + half && seen.insert((wheel.element, axis)) {
                faults.push(Fault::ShaftThrough {
                    shaft: plan.axes[axis].shafts[0].clone(),
                    element: id(layout, wheel.element),
                });
            }
        }
    }
}

fn bores(layout: &Layout, plan: &Plan, faults: &mut Vec<Fault>) {
    let settings = &layout.plan;
    if settings.bores == BorePattern::None {
        return;
    }
    let offered = bore_distances(layout);
    for link in &plan.links {
        let Bond::Apart(wanted) = link.bond else { continue };
        let nearest = |distance: &&f64| (**distance - wanted).abs() <= settings.tolerance_mm.max(1e-6);
        if !offered.iter().any(|distance| nearest(&distance)) {
            let below = offered
                .iter()
                .copied()
                .filter(|distance| *distance < wanted)
                .reduce(f64::max);
            let above = offered
                .iter()
                .copied()
                .filter(|distance| *distance > wanted)
                .reduce(f64::min);
            faults.push(Fault::BoreDistance {
                element: id(layout, link.element),
                wanted,
                offered: below.into_iter().chain(above).collect(),
            });
        }
    }
    for (axis, at) in plan.axes.iter().zip(&plan.at) {
        let nearest = nearest_bore(layout, *at).map(|bore| bore.distance(*at));
        if nearest.is_none_or(|distance| distance > settings.tolerance_mm.max(1e-6)) {
            faults.push(Fault::NoBore {
                shaft: axis.shafts[0].clone(),
                nearest,
            });
        }
    }
}

/// The bore nearest to a place.
#[must_use]
pub fn nearest_bore(layout: &Layout, at: Point) -> Option<Point> {
    let reach = match layout.plan.bores {
        BorePattern::Points => f64::INFINITY,
        _ => layout.plan.pitch_mm,
    };
    let bores = place::bores_near(&layout.plan, at, reach);
    bores
        .into_iter()
        .min_by(|one, other| one.distance(at).total_cmp(&other.distance(at)))
}

/// Distances that two bores have, up to what the largest pair of the layout needs.
fn bore_distances(layout: &Layout) -> Vec<f64> {
    /// Bores of a pattern of points that are compared with all others.
    const MOST: usize = 200;
    let settings = &layout.plan;
    let mut distances: Vec<f64> = if settings.bores == BorePattern::Points {
        let points: Vec<Point> = settings
            .points_mm
            .iter()
            .take(MOST)
            .map(|point| Point::from(*point))
            .collect();
        let pairs = (0..points.len()).flat_map(|n| (0..n).map(move |m| (n, m)));
        pairs.map(|(n, m)| points[n].distance(points[m])).collect()
    } else {
        let origin = Point::default();
        let bores = place::bores_near(settings, origin, 28.0 * settings.pitch_mm);
        bores
            .iter()
            .map(|bore| bore.distance(origin))
            .filter(|distance| *distance > 0.0)
            .collect()
    };
    distances.sort_by(f64::total_cmp);
    distances.dedup_by(|one, other| (*one - *other).abs() < 1e-9);
    distances
}

fn gears(layout: &Layout, plan: &Plan, faults: &mut Vec<Fault>) {
    for link in plan
        .links
        .iter()
        .filter(|link| matches!(link.bond, Bond::Apart(_)))
    {
        let [Body::Gear(first), Body::Gear(second)] = link.wheels.map(|wheel| plan.wheels[wheel].body) else {
            continue;
        };
        let element = id(layout, link.element);
        for fault in (Pair { first, second }).faults() {
            faults.push(Fault::Pair {
                element: element.clone(),
                fault,
            });
        }
        let undercut = [first, second]
            .into_iter()
            .filter(is_undercut)
            .min_by_key(|gear| gear.teeth);
        faults.extend(undercut.map(|gear| Fault::Undercut {
            element,
            teeth: gear.teeth,
        }));
    }
}

/// Seventeen teeth at 20° are accepted, as is custom.
fn is_undercut(gear: &Gear) -> bool {
    gear.rim == Rim::Outer
        && Gear {
            teeth: gear.teeth + 1,
            ..*gear
        }
        .is_undercut()
}

fn sets(layout: &Layout, plan: &Plan, faults: &mut Vec<Fault>) {
    for (number, element) in layout.elements.iter().enumerate() {
        match &element.kind {
            ElementKind::Planetary(set) => {
                let planets: Vec<&Wheel> = plan
                    .wheels
                    .iter()
                    .filter(|wheel| wheel.element == number && wheel.orbit.is_some())
                    .collect();
                planets_collide(plan, &planets, &element.id, faults);
                let single = set.planets == layshaft_layout::Planets::Single;
                let teeth = if single {
                    set.sun_teeth + set.ring_teeth
                } else {
                    set.ring_teeth.abs_diff(set.sun_teeth)
                };
                let count = set.count.unwrap_or(super::parts::ASSUMED_PLANETS);
                if count > 1 && !teeth.is_multiple_of(count) {
                    let element = element.id.clone();
                    faults.push(Fault::PlanetsUneven {
                        element,
                        teeth,
                        count,
                    });
                }
                if single && !set.ring_teeth.abs_diff(set.sun_teeth).is_multiple_of(2) {
                    faults.push(Fault::RingShifted {
                        element: element.id.clone(),
                    });
                }
            }
            ElementKind::Stepped(set) if matches!(set.ratio, SteppedRatio::Basic(_)) => {
                faults.push(Fault::NoTeeth {
                    element: element.id.clone(),
                });
            }
            _ => {}
        }
    }
}

/// Planets on one circle must clear each other; those of a pair mesh.
fn planets_collide(plan: &Plan, planets: &[&Wheel], element: &Id, faults: &mut Vec<Fault>) {
    let clash = planets.iter().enumerate().any(|(n, one)| {
        planets[n + 1..].iter().any(|other| {
            let apart = plan.centre(one).distance(plan.centre(other));
            let pitches = one.body.pitch_radius() + other.body.pitch_radius();
            let tips = one.body.outer_radius() + other.body.outer_radius();
            apart < tips && (apart - pitches).abs() > 1e-6 * tips
        })
    });
    if clash {
        faults.push(Fault::PlanetsCollide {
            element: element.clone(),
            count: planets.len(),
        });
    }
}

fn assumed(layout: &Layout, plan: &Plan, faults: &mut Vec<Fault>) {
    let has_wheels = |number: usize| plan.wheels.iter().any(|wheel| wheel.element == number);
    if layout.plan.module_mm.is_none() {
        let needs = |kind: &ElementKind| match kind {
            ElementKind::Mesh(mesh) => mesh.module_mm.is_none(),
            ElementKind::Chain(chain) => chain.pitch_mm.is_none(),
            ElementKind::Worm(worm) => worm.wheel_mm.is_none(),
            ElementKind::Planetary(_) | ElementKind::Stepped(_) | ElementKind::Differential(_) => true,
            _ => false,
        };
        let elements: Vec<Id> = layout
            .elements
            .iter()
            .enumerate()
            .filter(|(number, element)| needs(&element.kind) && has_wheels(*number))
            .map(|(_, element)| element.id.clone())
            .collect();
        if !elements.is_empty() {
            faults.push(Fault::AssumedModule { elements });
        }
    }
    let unknown = |kind: &ElementKind| match kind {
        ElementKind::Planetary(set) => set.count.is_none(),
        ElementKind::Stepped(set) => matches!(set.ratio, SteppedRatio::Teeth { .. }),
        _ => false,
    };
    let elements: Vec<Id> = layout
        .elements
        .iter()
        .filter(|element| unknown(&element.kind))
        .map(|element| element.id.clone())
        .collect();
    if !elements.is_empty() {
        faults.push(Fault::AssumedPlanets { elements });
    }
    let sides = layout
        .elements
        .iter()
        .filter(|element| matches!(&element.kind, ElementKind::Differential(set) if set.teeth.is_none()));
    let elements: Vec<Id> = sides.map(|element| element.id.clone()).collect();
    if !elements.is_empty() {
        faults.push(Fault::AssumedSides { elements });
    }
    if plan.layer_count() > 1 {
        faults.push(Fault::AssumedEnds);
    }
}
