//! What the plan consists of before anything has a place: axes, wheels, and distances that bind axes.
//!
//! Sizes that the layout does not give are assumed here, and only here; `check` says which.

mod sets;

use std::collections::BTreeMap;

use layshaft_geometry::{Gear, sprocket_diameter_mm};
use layshaft_layout::{Element, ElementKind, Id, Layout, Mesh, MeshForm, WheelForm, Worm};

/// Planets where no count is said; usual in small sets, no source.
pub const ASSUMED_PLANETS: u32 = 3;
/// Teeth of a differential's side gear where none are said.
pub const ASSUMED_SIDE_TEETH: u32 = 16;
/// Most planets that are drawn.
const MOST_PLANETS: u32 = 24;

/// A line that shafts turn about.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Axis {
    /// The shafts, in document order.
    pub shafts: Vec<Id>,
    /// Axes with the same number are parallel and seen in one view.
    pub view: usize,
}

/// What a wheel is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Body {
    /// A gear with outer or inner teeth.
    Gear(Gear),
    /// A sprocket, by its teeth and pitch radius in mm.
    Sprocket(u32, f64),
    /// A smooth wheel, by its radius in mm.
    Disc(f64),
    /// A wheel whose axis lies in the plane of the drawing, beside the axis that it is drawn at: a worm or a bevel gear,
    /// by the direction of its middle, the distance of its middle, half its length along its axis and half its width at the
    /// near and the far end, in mm.
    Lying {
        /// Direction from the axis in radians.
        toward: f64,
        /// Distance of its middle from the axis.
        distance: f64,
        /// Half the extent across that direction at the near and at the far side.
        half_across: [f64; 2],
        /// Half the extent along that direction.
        half_along: f64,
    },
}

impl Body {
    /// Radius of the circle that it rolls on, in mm.
    #[must_use]
    pub fn pitch_radius(&self) -> f64 {
        match self {
            Self::Gear(gear) => gear.pitch_radius_mm(),
            Self::Sprocket(_, radius) | Self::Disc(radius) => *radius,
            Self::Lying {
                distance, half_along, ..
            } => distance + half_along,
        }
    }

    /// Radius of all that it takes up, in mm: the rim of a ring reaches two modules beyond its roots.
    #[must_use]
    pub fn outer_radius(&self) -> f64 {
        match self {
            Self::Gear(gear) if gear.rim == layshaft_geometry::Rim::Inner => {
                gear.root_radius_mm() + 2.0 * gear.module_mm
            }
            Self::Gear(gear) => gear.tip_radius_mm(),
            Self::Sprocket(teeth, radius) => radius * (1.0 + 1.0 / f64::from((*teeth).max(4))),
            other => other.pitch_radius(),
        }
    }

    /// Radius of what is free inside it; none of what is solid.
    #[must_use]
    pub fn inner_radius(&self) -> Option<f64> {
        match self {
            Self::Gear(gear) if gear.rim == layshaft_geometry::Rim::Inner => Some(gear.tip_radius_mm()),
            _ => None,
        }
    }
}

/// How a wheel turns.
#[derive(Clone, Debug, PartialEq)]
pub enum Spin {
    /// As its shaft; none: it stands.
    Shaft(Option<Id>),
    /// On a carrier: `ratio` times what `of` turns more than the carrier, and carried round with it.
    Planet {
        /// The carrier; none: the frame.
        carrier: Option<Id>,
        /// The central gear that its ratio refers to; none: the frame.
        of: Option<Id>,
        /// Its turns in the carrier over those of the central gear there.
        ratio: f64,
    },
}

/// Where a planet goes round.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Orbit {
    /// Radius of its centre's path in mm.
    pub radius_mm: f64,
    /// Where it stands, in radians.
    pub angle: f64,
}

/// Something round.
#[derive(Clone, Debug, PartialEq)]
pub struct Wheel {
    /// Number of its element in the document.
    pub element: usize,
    /// Number of its axis.
    pub axis: usize,
    /// What it is.
    pub body: Body,
    /// How it turns.
    pub spin: Spin,
    /// Planets: where it goes round.
    pub orbit: Option<Orbit>,
    /// Which of its element's layers it is in, from 0.
    pub step: u32,
    /// Its layer, counted from 1.
    pub layer: u32,
    /// Angle of the middle of a tooth in radians.
    pub phase: f64,
    /// What it is called: `14 teeth on motor`.
    pub name: String,
}

/// What binds two axes.
#[derive(Clone, Debug, PartialEq)]
pub struct Link {
    /// Number of its element.
    pub element: usize,
    /// The two axes.
    pub axes: [usize; 2],
    /// Numbers of its wheels on them.
    pub wheels: [usize; 2],
    /// How it binds them.
    pub bond: Bond,
}

/// How two axes are bound.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Bond {
    /// They stand this far apart, in mm.
    Apart(f64),
    /// A belt or chain leads from one to the other; crossed or not.
    Strand {
        /// The strands cross.
        crossed: bool,
    },
    /// They are not parallel: what the one sees round, the other sees from the side.
    Turned,
}

/// Axes, wheels, links.
#[derive(Clone, Debug, Default)]
pub struct Parts {
    /// Axes.
    pub axes: Vec<Axis>,
    /// Wheels.
    pub wheels: Vec<Wheel>,
    /// Links.
    pub links: Vec<Link>,
    axis_of: BTreeMap<Id, usize>,
}

/// Reads the parts off a layout.
#[must_use]
pub fn parts(layout: &Layout) -> Parts {
    let mut parts = Parts::default();
    parts.find_axes(layout);
    for (number, element) in layout.elements.iter().enumerate() {
        parts.add(layout, number, element);
    }
    parts.find_views();
    parts
}

/// The shafts of an element that turn about one axis.
fn coaxial(kind: &ElementKind) -> Vec<&Id> {
    match kind {
        ElementKind::Differential(set) => vec![&set.sides[0], &set.sides[1], &set.carrier],
        ElementKind::Planetary(set) => vec![&set.sun, &set.ring, &set.carrier],
        ElementKind::Stepped(set) => vec![&set.first, &set.second, &set.carrier],
        ElementKind::Clutch(joint) => vec![&joint.a, &joint.b],
        ElementKind::OneWay(joint) => vec![&joint.a, &joint.b],
        ElementKind::SlipClutch(joint) => vec![&joint.a, &joint.b],
        ElementKind::TorqueSwitch(joint) => vec![&joint.a, &joint.b],
        _ => Vec::new(),
    }
}

fn root(heads: &[usize], mut of: usize) -> usize {
    while heads[of] != of {
        of = heads[of];
    }
    of
}

fn join(heads: &mut [usize], one: usize, other: usize) {
    let (one, other) = (root(heads, one), root(heads, other));
    heads[one.max(other)] = one.min(other);
}

impl Parts {
    fn find_axes(&mut self, layout: &Layout) {
        let number: BTreeMap<&Id, usize> = layout.shafts.iter().map(|shaft| &shaft.id).zip(0..).collect();
        let mut heads: Vec<usize> = (0..layout.shafts.len()).collect();
        for element in &layout.elements {
            let on: Vec<usize> = coaxial(&element.kind)
                .iter()
                .filter_map(|id| number.get(id).copied())
                .collect();
            for pair in on.windows(2) {
                join(&mut heads, pair[0], pair[1]);
            }
        }
        let mut axis_of_head = BTreeMap::new();
        for (shaft, id) in layout.shafts.iter().map(|shaft| &shaft.id).enumerate() {
            let axes = &mut self.axes;
            let axis = *axis_of_head.entry(root(&heads, shaft)).or_insert_with(|| {
                axes.push(Axis::default());
                axes.len() - 1
            });
            axes[axis].shafts.push(id.clone());
            self.axis_of.insert(id.clone(), axis);
        }
    }

    fn find_views(&mut self) {
        let mut heads: Vec<usize> = (0..self.axes.len()).collect();
        for link in self.links.iter().filter(|link| link.bond != Bond::Turned) {
            join(&mut heads, link.axes[0], link.axes[1]);
        }
        for axis in 0..self.axes.len() {
            self.axes[axis].view = root(&heads, axis);
        }
    }

    fn axis(&self, shaft: &Id) -> Option<usize> {
        self.axis_of.get(shaft).copied()
    }

    fn add(&mut self, layout: &Layout, number: usize, element: &Element) {
        match &element.kind {
            ElementKind::Mesh(mesh) if mesh.form == MeshForm::Bevel => self.bevel(layout, number, mesh),
            ElementKind::Mesh(mesh) => self.mesh(layout, number, mesh),
            ElementKind::Chain(chain) => {
                let pitch = chain
                    .pitch_mm
                    .unwrap_or(core::f64::consts::PI * layout.plan_module_mm());
                let body = |teeth| Body::Sprocket(teeth, sprocket_diameter_mm(pitch, teeth) / 2.0);
                let bodies = chain.teeth.map(body);
                let bond = Bond::Strand { crossed: false };
                self.pair(number, [&chain.a, &chain.b], bodies, bond);
            }
            ElementKind::Belt(belt) => {
                let bodies = belt.diameters_mm.map(|diameter| Body::Disc(diameter / 2.0));
                let bond = Bond::Strand {
                    crossed: belt.crossed,
                };
                self.pair(number, [&belt.a, &belt.b], bodies, bond);
            }
            ElementKind::FrictionWheel(wheels) => {
                let [one, other] = wheels.diameters_mm.map(|diameter| diameter / 2.0);
                let distance = match wheels.form {
                    WheelForm::External => one + other,
                    WheelForm::Internal => (other - one).abs(),
                };
                let bodies = [Body::Disc(one), Body::Disc(other)];
                self.pair(number, [&wheels.a, &wheels.b], bodies, Bond::Apart(distance));
            }
            ElementKind::Worm(worm) => self.worm(layout, number, worm),
            ElementKind::Differential(set) => {
                let teeth = set.teeth.map_or(ASSUMED_SIDE_TEETH, |teeth| teeth.side);
                let side = Gear::external(teeth, layout.plan_module_mm());
                let body = Body::Disc(side.pitch_radius_mm());
                self.central(number, &set.carrier, &set.sides[0], body, 0);
            }
            ElementKind::Planetary(set) => self.planetary(layout, number, set),
            ElementKind::Stepped(set) => self.stepped(layout, number, set),
            ElementKind::Winch(winch) => {
                self.central(
                    number,
                    &winch.shaft,
                    &winch.shaft,
                    Body::Disc(winch.drum_mm / 2.0),
                    0,
                );
            }
            _ => {}
        }
    }

    fn push(&mut self, wheel: Wheel) -> usize {
        self.wheels.push(wheel);
        self.wheels.len() - 1
    }

    fn wheel(&mut self, element: usize, axis: usize, shaft: &Id, body: Body, step: u32) -> usize {
        let turns = (!shaft.is_frame()).then(|| shaft.clone());
        let what = match body {
            Body::Gear(gear) => format!("{} teeth", gear.teeth),
            Body::Sprocket(teeth, _) => format!("sprocket of {teeth}"),
            _ => format!("wheel of {} mm", (body.pitch_radius() * 20.0).round() / 10.0),
        };
        let name = format!("{what} on {shaft}");
        self.push(Wheel {
            element,
            axis,
            body,
            spin: Spin::Shaft(turns),
            orbit: None,
            step,
            layer: 0,
            phase: 0.0,
            name,
        })
    }

    /// A wheel about the axis of one shaft that turns with another.
    fn central(&mut self, element: usize, turns: &Id, about: &Id, body: Body, step: u32) -> Option<usize> {
        let axis = self.axis(about).or_else(|| self.axis(turns))?;
        Some(self.wheel(element, axis, turns, body, step))
    }

    /// Two wheels on two axes; where one end is the frame, only the other is drawn.
    fn pair(&mut self, element: usize, shafts: [&Id; 2], bodies: [Body; 2], bond: Bond) {
        let wheels: Vec<(usize, usize)> = shafts
            .into_iter()
            .zip(bodies)
            .filter_map(|(shaft, body)| {
                let axis = self.axis(shaft)?;
                Some((axis, self.wheel(element, axis, shaft, body, 0)))
            })
            .collect();
        if let [(one, first), (other, second)] = wheels[..]
            && one != other
        {
            self.links.push(Link {
                element,
                axes: [one, other],
                wheels: [first, second],
                bond,
            });
        }
    }

    fn mesh(&mut self, layout: &Layout, number: usize, mesh: &Mesh) {
        let module = mesh.module_mm.unwrap_or(layout.plan_module_mm());
        let angle = mesh.pressure_angle_deg.to_radians();
        let [a, b] = mesh.teeth;
        let first = Gear::external(a, module).with_pressure_angle(angle);
        let second = match mesh.form {
            MeshForm::Internal => Gear::ring(b, module),
            _ => Gear::external(b, module),
        }
        .with_pressure_angle(angle);
        let distance = layshaft_geometry::Pair { first, second }
            .centre_distance_mm()
            .abs();
        let bodies = [Body::Gear(first), Body::Gear(second)];
        self.pair(number, [&mesh.a, &mesh.b], bodies, Bond::Apart(distance));
    }

    /// Each gear is round in its own view and lies beside the other's axis there.
    fn bevel(&mut self, layout: &Layout, number: usize, mesh: &Mesh) {
        let module = mesh.module_mm.unwrap_or(layout.plan_module_mm());
        let radii = mesh
            .teeth
            .map(|teeth| Gear::external(teeth, module).pitch_radius_mm());
        let shafts = [&mesh.a, &mesh.b];
        let mut round = Vec::new();
        for (side, shaft) in shafts.into_iter().enumerate() {
            let Some(axis) = self.axis(shaft) else { continue };
            let gear = Gear::external(mesh.teeth[side], module);
            round.push((axis, self.wheel(number, axis, shaft, Body::Gear(gear), 0)));
            // Its partner, seen from the side: as far from the cone's tip as this one's radius, narrowing toward it.
            let face = radii[side] * FACE;
            let partner = radii[1 - side];
            let lying = Body::Lying {
                toward: core::f64::consts::FRAC_PI_2,
                distance: radii[side] - face / 2.0,
                half_across: [partner * (1.0 - FACE), partner],
                half_along: face / 2.0,
            };
            if !shafts[1 - side].is_frame() {
                self.wheel(number, axis, shafts[1 - side], lying, 0);
            }
        }
        if let [(one, first), (other, second)] = round[..]
            && one != other
        {
            self.links.push(Link {
                element: number,
                axes: [one, other],
                wheels: [first, second],
                bond: Bond::Turned,
            });
        }
    }

    fn worm(&mut self, layout: &Layout, number: usize, worm: &Worm) {
        let module = worm
            .wheel_mm
            .map_or(layout.plan_module_mm(), |wheel| wheel / f64::from(worm.teeth));
        let wheel = Gear::external(worm.teeth, module);
        // Axial module times starts over the tangent of the lead angle; a worm of no lead has no size of its own.
        let tangent = libm::tan(worm.lead_angle_deg.to_radians()).max(0.01);
        let worm_radius = module * f64::from(worm.starts) / tangent / 2.0;
        let lying = Body::Lying {
            toward: -core::f64::consts::FRAC_PI_2,
            distance: wheel.pitch_radius_mm() + worm_radius,
            half_across: [4.5 * module; 2],
            half_along: worm_radius,
        };
        let on_wheel = self.axis(&worm.wheel);
        let on_worm = self.axis(&worm.worm);
        let first = on_worm.map(|axis| self.wheel(number, axis, &worm.worm, Body::Disc(worm_radius), 0));
        let second = on_wheel.map(|axis| self.wheel(number, axis, &worm.wheel, Body::Gear(wheel), 0));
        if let Some(axis) = on_wheel {
            self.wheel(number, axis, &worm.worm, lying, 0);
        }
        if let (Some(first), Some(second), Some(one), Some(other)) = (first, second, on_worm, on_wheel)
            && one != other
        {
            self.links.push(Link {
                element: number,
                axes: [one, other],
                wheels: [first, second],
                bond: Bond::Turned,
            });
        }
    }
}

/// Face of a bevel gear over its pitch radius; usual is a third of the cone, from memory.
const FACE: f64 = 0.3;
