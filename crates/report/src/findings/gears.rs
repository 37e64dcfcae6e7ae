//! Findings about gears as bodies: teeth overloaded, planets that can't be put in, axes too near or too far.

use layshaft_layout::lower::{ToothLimit, mesh_limit};
use layshaft_layout::{ElementKind, Id, Layout, Mesh, MeshForm, Planetary, Planets};
use layshaft_quantity::Length;

use crate::finding::FindingKind;
use crate::position::Context;
use crate::result::{ElementResult, PositionReport};

/// Axes may be off by this share of the module: about the play that gears need anyway (common practice, no source).
const PLAY: f64 = 0.05;
/// Counts of planets that are offered.
const fn usual_counts() -> core::ops::RangeInclusive<u32> {
    2..=8
}

pub(super) fn find(context: &Context<'_>, report: &PositionReport, kinds: &mut Vec<FindingKind>) {
    for (element, result) in context.layout.elements.iter().zip(&report.elements) {
        match &element.kind {
            ElementKind::Mesh(mesh) => {
                kinds.extend(overloaded(mesh, result));
                kinds.extend(centre_distance(context.layout, &element.id, mesh));
            }
            ElementKind::Planetary(set) => kinds.extend(planets(&element.id, set)),
            _ => {}
        }
    }
}

fn overloaded(mesh: &Mesh, result: &ElementResult) -> Option<FindingKind> {
    let torque = result.ports.first()?.torque.abs();
    let limit = result.tooth_limit.filter(|limit| torque > *limit)?;
    Some(FindingKind::TeethOverloaded {
        element: result.id.clone(),
        torque,
        limit,
        measured: matches!(mesh_limit(mesh), Some(ToothLimit::Measured(_))),
    })
}

/// Axes that are known but not as far apart as `m (z_a ± z_b) / 2`; profile shift, which would allow it, is not known.
fn centre_distance(layout: &Layout, id: &Id, mesh: &Mesh) -> Option<FindingKind> {
    let module = mesh.module_mm?;
    let [za, zb] = mesh.teeth.map(f64::from);
    let teeth = match mesh.form {
        MeshForm::External => za + zb,
        MeshForm::Internal => zb - za,
        MeshForm::Bevel => return None,
    };
    let axis = |shaft: &Id| layout.shaft(shaft)?.axis_mm;
    let (a, b) = (axis(&mesh.a)?, axis(&mesh.b)?);
    let wanted = module * teeth / 2.0;
    let step = [b[0] - a[0], b[1] - a[1]];
    let found = libm::hypot(step[0], step[1]);
    if (found - wanted).abs() <= PLAY * module || wanted <= 0.0 {
        return None;
    }
    let way = if found > 0.0 {
        step.map(|part| part / found)
    } else {
        [1.0, 0.0]
    };
    Some(FindingKind::CentreDistance {
        element: id.clone(),
        shaft: mesh.b.clone(),
        found: Length::millimetres(found),
        wanted: Length::millimetres(wanted),
        axis_mm: [0, 1].map(|axis| rounded(a[axis] + wanted * way[axis])),
    })
}

/// To a thousandth of a millimetre, which no builder can set.
fn rounded(mm: f64) -> f64 {
    libm::round(mm * 1000.0) / 1000.0
}

fn planets(id: &Id, set: &Planetary) -> Vec<FindingKind> {
    let Some(count) = set.count.filter(|count| *count > 1) else {
        return Vec::new();
    };
    let mut found = Vec::new();
    if !can_be_put_in(set, count) {
        found.push(FindingKind::PlanetAssembly {
            element: id.clone(),
            count,
            teeth: assembly_teeth(set),
            fits: nearest(count, |other| can_be_put_in(set, other) && have_room(set, other)),
        });
    }
    if !have_room(set, count) {
        let fits = |other: &u32| can_be_put_in(set, *other) && have_room(set, *other);
        found.push(FindingKind::PlanetsCollide {
            element: id.clone(),
            count,
            fits: usual_counts().rfind(|other| *other < count && fits(other)),
        });
    }
    found
}

/// Equally spaced planets mesh with sun and ring at once where `(z_s + z_r) / n` is whole; pairs of planets where
/// `(z_r − z_s) / n` is. Source: any text on planetary gears, e.g. H. W. Müller, Epicyclic Drive Trains (1982), section on
/// assembly (from memory).
fn can_be_put_in(set: &Planetary, count: u32) -> bool {
    assembly_teeth(set).is_multiple_of(count)
}

const fn assembly_teeth(set: &Planetary) -> u32 {
    match set.planets {
        Planets::Single => set.sun_teeth.saturating_add(set.ring_teeth),
        Planets::Double => set.ring_teeth.abs_diff(set.sun_teeth),
    }
}

/// Neighbours' tips clear one another: centres `m (z_s + z_p) sin(π/n)` apart, tip circles `m (z_p + 2)` across. Of pairs
/// of planets the sizes are not known.
fn have_room(set: &Planetary, count: u32) -> bool {
    if set.planets == Planets::Double {
        return true;
    }
    let [sun, ring] = [set.sun_teeth, set.ring_teeth].map(f64::from);
    let planet = (ring - sun) / 2.0;
    let apart = (sun + planet) * libm::sin(core::f64::consts::PI / f64::from(count));
    apart > planet + 2.0
}

/// The usual count nearest to one, the smaller of two.
fn nearest(count: u32, fits: impl Fn(u32) -> bool) -> Option<u32> {
    usual_counts()
        .filter(|other| fits(*other))
        .min_by_key(|other| other.abs_diff(count))
}
