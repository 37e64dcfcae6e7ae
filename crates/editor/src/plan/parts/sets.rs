//! Wheels of planetary and stepped sets, with the planets that their carriers take round.

use layshaft_geometry::Gear;
use layshaft_layout::{Id, Layout, Planetary, Planets, Stepped, SteppedRatio};

use super::{ASSUMED_PLANETS, Body, MOST_PLANETS, Orbit, Parts, Spin, Wheel};

impl Parts {
    pub(super) fn planetary(&mut self, layout: &Layout, number: usize, set: &Planetary) {
        let module = layout.plan_module_mm();
        let about = [&set.sun, &set.ring, &set.carrier]
            .into_iter()
            .find(|id| !id.is_frame());
        let Some(axis) = about.and_then(|id| self.axis(id)) else {
            return;
        };
        let (sun, ring) = (set.sun_teeth, set.ring_teeth);
        self.wheel(number, axis, &set.sun, Body::Gear(Gear::external(sun, module)), 0);
        self.wheel(number, axis, &set.ring, Body::Gear(Gear::ring(ring, module)), 0);
        let planets = match set.planets {
            Planets::Single => vec![(ring.saturating_sub(sun) / 2, 0.0, f64::from(sun + ring) / 4.0)],
            Planets::Double => double_planets(sun, ring),
        };
        let count = set.count.unwrap_or(ASSUMED_PLANETS).min(MOST_PLANETS);
        // Planets fit only where a whole number of steps of a turn over both tooth counts leads.
        let steps =
            f64::from(sun) + if set.planets == Planets::Single { 1.0 } else { -1.0 } * f64::from(ring);
        for planet in 0..count {
            let even = f64::from(planet) / f64::from(count);
            let fitting = if steps.abs() > 0.5 {
                (even * steps).round() / steps
            } else {
                even
            };
            for (inner, (teeth, ahead, radius)) in planets.iter().enumerate() {
                if *teeth == 0 {
                    continue;
                }
                let ratio = f64::from(sun) / f64::from(*teeth);
                let first = -ratio;
                let own = if inner == 0 { first } else { ratio };
                self.planet(
                    number,
                    axis,
                    set,
                    *teeth,
                    Orbit {
                        radius_mm: radius * module,
                        angle: core::f64::consts::TAU * fitting + ahead,
                    },
                    own,
                    module,
                );
            }
        }
    }

    #[expect(clippy::too_many_arguments, reason = "one planet with all that sets it")]
    fn planet(
        &mut self,
        element: usize,
        axis: usize,
        set: &Planetary,
        teeth: u32,
        orbit: Orbit,
        ratio: f64,
        module: f64,
    ) {
        let turns = |id: &Id| (!id.is_frame()).then(|| id.clone());
        self.push(Wheel {
            element,
            axis,
            body: Body::Gear(Gear::external(teeth, module)),
            spin: Spin::Planet {
                carrier: turns(&set.carrier),
                of: turns(&set.sun),
                ratio,
            },
            orbit: Some(orbit),
            step: 0,
            layer: 0,
            phase: 0.0,
            name: format!("planet of {teeth} teeth"),
        });
    }

    pub(super) fn stepped(&mut self, layout: &Layout, number: usize, set: &Stepped) {
        let SteppedRatio::Teeth {
            first,
            second,
            first_is_ring,
            second_is_ring,
        } = &set.ratio
        else {
            return;
        };
        let about = [&set.first, &set.second, &set.carrier]
            .into_iter()
            .find(|id| !id.is_frame());
        let Some(axis) = about.and_then(|id| self.axis(id)) else {
            return;
        };
        let module = layout.plan_module_mm();
        let halves = |teeth: [u32; 2], is_ring: bool| {
            let [central, planet] = teeth.map(f64::from);
            if is_ring {
                (central - planet) / 2.0
            } else {
                f64::midpoint(central, planet)
            }
        };
        let radius = module * halves(*first, *first_is_ring);
        let [second_planet, second_central] = *second;
        let second_module = radius / halves([second_central, second_planet], *second_is_ring);
        if radius <= 0.0 || second_module <= 0.0 || !second_module.is_finite() {
            return;
        }
        let central = |teeth, module, is_ring| {
            Body::Gear(if is_ring {
                Gear::ring(teeth, module)
            } else {
                Gear::external(teeth, module)
            })
        };
        self.wheel(
            number,
            axis,
            &set.first,
            central(first[0], module, *first_is_ring),
            0,
        );
        self.wheel(
            number,
            axis,
            &set.second,
            central(second_central, second_module, *second_is_ring),
            1,
        );
        let sign = if *first_is_ring { 1.0 } else { -1.0 };
        let ratio = sign * f64::from(first[0]) / f64::from(first[1]);
        let turns = |id: &Id| (!id.is_frame()).then(|| id.clone());
        for planet in 0..ASSUMED_PLANETS {
            let angle = core::f64::consts::TAU * f64::from(planet) / f64::from(ASSUMED_PLANETS);
            for (step, teeth, module) in [(0, first[1], module), (1, second_planet, second_module)] {
                self.push(Wheel {
                    element: number,
                    axis,
                    body: Body::Gear(Gear::external(teeth, module)),
                    spin: Spin::Planet {
                        carrier: turns(&set.carrier),
                        of: turns(&set.first),
                        ratio,
                    },
                    orbit: Some(Orbit {
                        radius_mm: radius,
                        angle,
                    }),
                    step,
                    layer: 0,
                    phase: 0.0,
                    name: format!("planet of {teeth} teeth"),
                });
            }
        }
    }
}

/// Teeth, angle ahead and orbit in modules of the planets at the sun and at the ring, that mesh with one another: of one
/// size, a little more than a quarter of what is between sun and ring.
fn double_planets(sun: u32, ring: u32) -> Vec<(u32, f64, f64)> {
    let between = ring.saturating_sub(sun);
    let teeth = (between * 3).div_ceil(10).max(1);
    let size = f64::from(teeth);
    let inner = (f64::from(sun) + size) / 2.0;
    let outer = (f64::from(ring) - size) / 2.0;
    if outer <= 0.0 {
        return Vec::new();
    }
    let cosine = (inner * inner + outer * outer - size * size) / (2.0 * inner * outer);
    let ahead = libm::acos(cosine.clamp(-1.0, 1.0));
    vec![(teeth, 0.0, inner), (teeth, ahead, outer)]
}
