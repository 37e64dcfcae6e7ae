//! What lies under a pointer: editable numbers first, then things, then wires; fingers get more room.

use layshaft_layout::Id;

use crate::geometry::{Point, Rect};
use crate::scene::{ElementItem, Emphasis, Label, Picture, PictureItem, Reach, RunContent, SYMBOL, Scene};
use crate::target::{FieldRef, Target};

/// How near to an end's handle still means it, in bench units.
const END_REACH: f64 = 4.0;

/// What was hit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Hit {
    /// A number that can be edited where it stands.
    Edit(FieldRef),
    /// One end of a selected element, where it meets its shaft.
    End {
        /// The element.
        element: Id,
        /// Its end.
        role: String,
    },
    /// A ratio on a label: it opens its working.
    Ratio {
        /// What the label speaks of.
        target: Target,
        /// The shaft whose ratio is worked out.
        shaft: Id,
    },
    /// A thing.
    Thing(Target),
    /// Bare bench.
    Bench,
}

/// What lies at a point of the bench, within a tolerance in bench units. The nearest wins.
#[must_use]
pub fn hit(scene: &Scene, at: Point, tolerance: f64) -> Hit {
    // A number is small: a finger may miss it by a little, but not so far that it takes the shaft's place.
    if let Some((field, _)) = edit_at(scene, at, (tolerance * 0.5).min(6.0)) {
        return Hit::Edit(field);
    }
    if let Some((element, role)) = end_at(scene, at, tolerance + END_REACH) {
        return Hit::End { element, role };
    }
    let shafts = scene.shafts.iter().map(|shaft| {
        (
            shaft.at.distance(at) - shaft.radius,
            Target::Shaft(shaft.id.clone()),
        )
    });
    let elements = scene
        .elements
        .iter()
        .map(|element| (element_distance(element, at), Target::Element(element.id.clone())));
    let groups = scene
        .groups
        .iter()
        .filter(|group| group.folded)
        .map(|group| (rect_distance(&group.room, at), Target::Group(group.id.clone())));
    ratio_at(scene, at)
        .or_else(|| nearest(shafts.chain(elements).chain(groups), tolerance))
        .or_else(|| label_at(scene, at).map(Hit::Thing))
        .or_else(|| open_group_at(scene, at, tolerance))
        .unwrap_or(Hit::Bench)
}

/// What lies at a point of a skeleton or plan, within a tolerance in its units. The nearest wins, of several the one in
/// front; a label only where nothing else lies.
#[must_use]
pub fn on_picture(picture: &Picture, at: Point, tolerance: f64) -> Hit {
    let distance = |item: &PictureItem| {
        item.reach
            .iter()
            .map(|reach| reach_distance(*reach, at))
            .fold(f64::INFINITY, f64::min)
    };
    let things = picture
        .items
        .iter()
        .rev()
        .map(|item| (distance(item), item.target.clone()));
    nearest(things, tolerance).unwrap_or_else(|| {
        let labelled = picture
            .items
            .iter()
            .find(|item| item.label.as_ref().is_some_and(|label| label.bounds.contains(at)));
        labelled.map_or(Hit::Bench, |item| Hit::Thing(item.target.clone()))
    })
}

fn reach_distance(reach: Reach, at: Point) -> f64 {
    match reach {
        Reach::Disc(centre, radius) => centre.distance(at) - radius,
        Reach::Circle(centre, radius) => (centre.distance(at) - radius).abs(),
        Reach::Line(from, to) => segment_distance(from, to, at),
        Reach::Area(rect) => rect_distance(&rect, at),
    }
}

/// An open group by its name or its frame's line.
fn open_group_at(scene: &Scene, at: Point, tolerance: f64) -> Option<Hit> {
    let open = scene.groups.iter().rev().filter(|group| !group.folded);
    let mut hit = open.filter(|group| {
        let (outer, inner) = (group.room.grown(tolerance), group.room.grown(-tolerance));
        group.label.bounds.grown(4.0).contains(at) || outer.contains(at) && !inner.contains(at)
    });
    hit.next()
        .map(|group| Hit::Thing(Target::Group(group.id.clone())))
}

/// An end of a selected element at a place; its handle stands a little off the shaft's circle.
fn end_at(scene: &Scene, at: Point, reach: f64) -> Option<(Id, String)> {
    let selected = scene
        .elements
        .iter()
        .filter(|element| element.emphasis >= Emphasis::Selected);
    let ends = selected.flat_map(|element| element.wires.iter().map(move |wire| (element, wire)));
    ends.map(|(element, wire)| (wire.handle().distance(at), element, wire))
        .filter(|(distance, ..)| *distance <= reach)
        .min_by(|one, other| one.0.total_cmp(&other.0))
        .map(|(_, element, wire)| (element.id.clone(), wire.role.clone()))
}

fn nearest(things: impl Iterator<Item = (f64, Target)>, tolerance: f64) -> Option<Hit> {
    things
        .filter(|(distance, _)| *distance <= tolerance)
        .min_by(|(one, _), (other, _)| one.max(0.0).total_cmp(&other.max(0.0)))
        .map(|(_, target)| Hit::Thing(target))
}

/// The shaft that a port let go here would connect to, within a tolerance.
#[must_use]
pub fn shaft_at(scene: &Scene, at: Point, tolerance: f64) -> Option<&Id> {
    let distance = |item: &crate::scene::ShaftItem| item.at.distance(at) - item.radius;
    scene
        .shafts
        .iter()
        .filter(|shaft| distance(shaft) <= tolerance)
        .min_by(|one, other| distance(one).total_cmp(&distance(other)))
        .map(|shaft| &shaft.id)
}

/// The place of an editable number on the drawing.
#[must_use]
pub fn edit_place(scene: &Scene, field: &FieldRef) -> Option<Rect> {
    edits(scene)
        .find(|(found, _)| *found == field)
        .map(|(_, rect)| rect)
}

/// Things whose centre lies in a rectangle.
#[must_use]
pub fn inside(scene: &Scene, rect: &Rect) -> Vec<Target> {
    let shafts = scene.shafts.iter().filter(|shaft| rect.contains(shaft.at));
    let elements = scene.elements.iter().filter(|element| rect.contains(element.at));
    let groups = scene.groups.iter();
    let groups = groups.filter(|group| group.folded && rect.contains(group.room.centre()));
    shafts
        .map(|shaft| Target::Shaft(shaft.id.clone()))
        .chain(elements.map(|element| Target::Element(element.id.clone())))
        .chain(groups.map(|group| Target::Group(group.id.clone())))
        .collect()
}

fn labels(scene: &Scene) -> impl Iterator<Item = &Label> {
    let of_elements = scene
        .elements
        .iter()
        .flat_map(|element| element.label.iter().chain(&element.loop_tag));
    let of_groups = scene.groups.iter().filter_map(|group| group.loop_tag.as_ref());
    let of_shafts = scene.shafts.iter().map(|shaft| &shaft.label);
    of_shafts.chain(of_elements).chain(of_groups)
}

fn edits(scene: &Scene) -> impl Iterator<Item = (&FieldRef, Rect)> {
    labels(scene).flat_map(|label| &label.lines).flat_map(|line| {
        line.runs.iter().filter_map(move |run| match &run.content {
            RunContent::Edit { field, .. } => Some((
                field,
                Rect {
                    x: run.x,
                    y: line.top,
                    width: run.width,
                    height: line.height,
                },
            )),
            _ => None,
        })
    })
}

fn edit_at(scene: &Scene, at: Point, tolerance: f64) -> Option<(FieldRef, Rect)> {
    let near = edits(scene).filter(|(_, rect)| rect.grown(tolerance).contains(at));
    near.min_by(|(_, one), (_, other)| one.centre().distance(at).total_cmp(&other.centre().distance(at)))
        .map(|(field, rect)| (field.clone(), rect))
}

/// A ratio on a label: its shaft's, or that of the last shaft of its element.
fn ratio_at(scene: &Scene, at: Point) -> Option<Hit> {
    let label = labels(scene).find(|label| label.bounds.contains(at))?;
    let line = label
        .lines
        .iter()
        .find(|line| at.y >= line.top && at.y <= line.top + line.height)?;
    let run = line
        .runs
        .iter()
        .find(|run| at.x >= run.x && at.x <= run.x + run.width)?;
    let shaft = match &label.target {
        Target::Shaft(id) => id,
        Target::Element(id) => {
            let element = scene.elements.iter().find(|element| element.id == *id)?;
            &element
                .wires
                .iter()
                .rev()
                .find(|wire| !wire.shaft.is_frame())?
                .shaft
        }
        Target::Group(_) | Target::Position(_) | Target::Layout => return None,
    };
    matches!(run.content, RunContent::Ratio(_)).then(|| Hit::Ratio {
        target: label.target.clone(),
        shaft: shaft.clone(),
    })
}

fn label_at(scene: &Scene, at: Point) -> Option<Target> {
    labels(scene)
        .find(|label| label.bounds.contains(at))
        .map(|label| label.target.clone())
}

fn element_distance(element: &ElementItem, at: Point) -> f64 {
    let turned = element.angle_deg % 180.0 != 0.0;
    let (width, height) = if turned { (SYMBOL.1, SYMBOL.0) } else { SYMBOL };
    let to_symbol = rect_distance(&Rect::around(element.at, width, height), at);
    element
        .wires
        .iter()
        .map(|wire| {
            let half = wire.ribbon.as_ref().map_or(1.0, |ribbon| ribbon.width / 2.0);
            segment_distance(wire.from, wire.to, at) - half
        })
        .fold(to_symbol, f64::min)
}

fn rect_distance(rect: &Rect, at: Point) -> f64 {
    let x = (rect.x - at.x).max(at.x - rect.right()).max(0.0);
    let y = (rect.y - at.y).max(at.y - rect.bottom()).max(0.0);
    Point::new(x, y).length()
}

fn segment_distance(from: Point, to: Point, at: Point) -> f64 {
    let along = to - from;
    let square = along.x * along.x + along.y * along.y;
    if square < 1e-12 {
        return at.distance(from);
    }
    let share = (((at.x - from.x) * along.x + (at.y - from.y) * along.y) / square).clamp(0.0, 1.0);
    at.distance(from + along * share)
}
